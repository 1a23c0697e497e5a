"""`advisor kit new`: the truck's kit asked for once, a reel at a time; not knowing is always an answer."""

from __future__ import annotations

from collections.abc import Callable

from pydantic import BaseModel, ValidationError

from advisor.kit.loadouts import LARGE, SMALL
from advisor.kit.new import Entries, Reel, kit_text
from advisor.kit.sheet import GuideSheet, HeadSheet, RodSheet, SpringSheet
from advisor.terminal.choose import Choice, choose, type_in
from advisor.terminal.page import Page

_DONT_KNOW = (Choice("d", "don't know"),)
_YES_NO = (Choice("y", "yes"), Choice("n", "no"))
_MOST_REELS, _MOST_GUIDES = 4, 2  # twelve loadouts at most stand on a kit sheet


def ask_kit(page: Page) -> str:
    """YAML text of a kit sheet as answered. Raises KeyboardInterrupt and EOFError as `choose`."""
    page.heading("The truck's kit")
    page.line(
        "Asked once. Don't know? Press Enter on an empty line: the usual make is taken, with a wide range."
    )
    name = type_in(page, "What do you call this kit?", _named(set()), "truck", escape="truck") or "truck"
    reels: list[Reel] = []
    while True:
        reels.append(_reel(page, {each.name for each in reels}, len(reels) + 1))
        if len(reels) == _MOST_REELS or choose(page, "Another reel on the truck?", _YES_NO) == "n":
            break
    return kit_text(name, reels, _guides(page))


def _reel(page: Page, taken: set[str], number: int) -> Reel:
    like = choose(
        page,
        f"Reel {number}: which is it like?",
        (
            Choice("1", "small: a thin rod, a head about an inch (25 mm) across"),
            Choice("2", "large: a thick rod, a head about two inches (50 mm) across"),
        ),
    )
    kind = SMALL if like == "1" else LARGE
    free = kind if kind not in taken else f"{kind} {number}"
    name = type_in(page, "What do you call this reel?", _named(taken), free, escape=free) or free
    head = _typed(page, HeadSheet, "head", {
        "diameter": f"{name}: how wide is the head at its widest?",
        "length": f"{name}: how long is the stiff head, nose to spring?",
    })  # fmt: skip
    nose = choose(
        page, f"{name}: what nose has the head?", (Choice("r", "round"), Choice("f", "flat")), _DONT_KNOW
    )
    head |= {"r": {"nose": "round"}, "f": {"nose": "flat"}}.get(nose, {})
    feel = choose(page, f"{name}: how does the spring feel?",
                  (Choice("s", "soft: bends by itself"), Choice("f", "firm: bends only when pressed")),
                  _DONT_KNOW)  # fmt: skip
    spring = {"s": {"feel": "soft"}, "f": {"feel": "firm"}}.get(feel, {})
    rod = _typed(page, RodSheet, "rod", {
        "length": f"{name}: how much rod is on it?",
        "diameter": f"{name}: how thick is the rod, jacket and all?",
        "core": f"{name}: how thick is the bare core, seen at a cut end?",
        "minimum radius": f"{name}: smallest bend radius, as marked on jacket or reel?",
    })  # fmt: skip
    return Reel(name, kind, head, spring, rod)


def _guides(page: Page) -> list[tuple[str, Entries]]:
    found: list[tuple[str, Entries]] = []
    while len(found) < _MOST_GUIDES:
        more = "Another guide?" if found else "Is there a guide: a ring or skid clamped behind the head?"
        if choose(page, more, _YES_NO) == "n":
            break
        free = "guide" if not found else f"guide {len(found) + 1}"
        name = type_in(page, "What do you call it?", _named({n for n, _ in found}), free, escape=free) or free
        asked = {
            "diameter": f"{name}: how wide?",
            "length": f"{name}: how much longer is the stiff head with it?",
        }
        found.append((name, _typed(page, GuideSheet, "guide", asked)))
    return found


def _typed(page: Page, part: type[BaseModel], key: str, asked: dict[str, str]) -> Entries:
    """What was typed for each entry; left out where nothing was."""
    answers = {
        entry: type_in(page, words, _checked(part, key, entry), escape="don't know")
        for entry, words in asked.items()
    }
    return {entry: text for entry, text in answers.items() if text is not None}


def _checked(part: type[BaseModel], key: str, entry: str) -> Callable[[str], str | None]:
    """As the kit sheet itself would judge the value."""

    def check(text: str) -> str | None:
        try:
            part.model_validate({key: "part", entry: text})
        except ValidationError as fault:
            return str(fault.errors()[0].get("ctx", {}).get("error", fault.errors()[0]["msg"]))
        return None

    return check


def _named(taken: set[str]) -> Callable[[str], str | None]:
    def check(text: str) -> str | None:
        if text in taken:
            return f"there is a {text!r} already"
        return _checked(SpringSheet, "spring", "like")(text)

    return check
