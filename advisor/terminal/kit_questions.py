"""What is asked about a kit: each kind of part, a reel, the whole truck; not knowing is always an answer."""

from __future__ import annotations

from collections.abc import Callable, Collection, Generator

from pydantic import BaseModel, ValidationError

from advisor.kit.loadouts import LARGE, MOST_LOADOUTS, SMALL
from advisor.kit.new import Entries, Reel, kit_text
from advisor.kit.sheet import GuideSheet, HeadSheet, RodSheet, SpringSheet
from advisor.terminal.choose import DONT_KNOW, Choice, yes_no
from advisor.terminal.kit_interview import Question, Script

Told = Generator[Question, str, Entries]
_MOST_REELS, _MOST_SPRINGS, _MOST_GUIDES = 4, 6, 2  # on one truck; twelve loadouts at most stand on a sheet


def whole_kit() -> Script[str]:
    """The truck's kit, a reel at a time; YAML text of its sheet."""
    name = (yield Question("What do you call this kit?", check=named(()), empty="truck")) or "truck"
    reels: list[Reel] = []
    springs: set[str] = set()
    while True:
        reels.append((yield from _reel({each.name for each in reels}, springs, len(reels) + 1)))
        springs |= set(reels[-1].springs)
        full = len(reels) == _MOST_REELS or len(springs) >= _MOST_SPRINGS
        if full or (yield Question("Another reel on the truck?", yes_no())) == "n":
            break
    guides = yield from _guides(len(springs))
    return kit_text(name, reels, guides)


def reel_class(words: str) -> Generator[Question, str, str]:
    """The class of reel from which is taken what nobody knows."""
    like = yield Question(
        f"{words} which is it nearer to? What you don't know is taken from that.",
        (
            Choice("1", "small: a thin rod, a head about an inch (25 mm) across"),
            Choice("2", "large: a thick rod, a head about two inches (50 mm) across"),
        ),
    )
    return SMALL if like == "1" else LARGE


def head_told(name: str) -> Told:
    """What is said of one head."""
    head = yield from _typed(HeadSheet, "head", {
        "diameter": f"{name}: how wide is the head at its widest?",
        "length": f"{name}: how long is the stiff head, nose to spring?",
    })  # fmt: skip
    nose = yield Question(
        f"{name}: what nose has the head?",
        (Choice("1", "round", also="r"), Choice("2", "flat", also="f")),
        (DONT_KNOW,),
    )
    return head | {"1": {"nose": "round"}, "2": {"nose": "flat"}}.get(nose, {})


def spring_told(name: str) -> Told:
    """What is said of one spring."""
    spring = yield from _typed(SpringSheet, "spring", {"length": f"{name}: how long is the spring?"})
    feel = yield Question(
        f"{name}: how does the spring feel?",
        (
            Choice("1", "soft: bends by itself", also="s"),
            Choice("2", "firm: bends only when pressed", also="f"),
        ),
        (DONT_KNOW,),
    )
    return spring | {"1": {"feel": "soft"}, "2": {"feel": "firm"}}.get(feel, {})


def rod_told(name: str) -> Told:
    """What is said of one rod."""
    return (yield from _typed(RodSheet, "rod", {
        "length": f"{name}: how much rod is on it?",
        "diameter": f"{name}: how thick is the rod, jacket and all?",
        "core": f"{name}: how thick is the bare core, seen at a cut end?",
        "minimum radius": f"{name}: smallest bend radius, as marked on jacket or reel?",
    }))  # fmt: skip


def guide_told(name: str) -> Told:
    """What is said of one guide."""
    return (yield from _typed(GuideSheet, "guide", {
        "diameter": f"{name}: how wide?",
        "length": f"{name}: how much longer is the stiff head with it?",
    }))  # fmt: skip


def named(taken: Collection[str]) -> Callable[[str], str | None]:
    """What is wrong with a name, or that another part has it already."""

    def check(text: str) -> str | None:
        if text in taken:
            return f"there is a {text!r} already"
        return _checked(SpringSheet, {"spring": "part"}, "like")(text)

    return check


def _reel(taken: set[str], springs: set[str], number: int) -> Generator[Question, str, Reel]:
    kind = yield from reel_class(f"Reel {number}:")
    free = kind if kind not in taken else f"{kind} {number}"
    name = (yield Question("What do you call this reel?", check=named(taken), empty=free)) or free
    head = yield from head_told(name)
    own: dict[str, Entries] = {}
    while True:
        told = yield from spring_told(f"{name}, spring {len(own) + 1}" if own else name)
        called = " ".join((name, *([told["feel"]] if "feel" in told else []), "spring"))
        if called in springs or called in own:
            called = f"{called} {len(own) + 1}"
        if own:
            asked = "What do you call this spring?"
            check = named({*springs, *own})
            called = (yield Question(asked, check=check, empty=called)) or called
        own[called] = told
        full = len(springs) + len(own) >= _MOST_SPRINGS
        if full or (yield Question("Another spring for this rod?", yes_no())) == "n":
            break
    rod = yield from rod_told(name)
    return Reel(name, kind, head, own, rod)


def _guides(springs: int) -> Generator[Question, str, list[tuple[str, Entries]]]:
    found: list[tuple[str, Entries]] = []
    # Each spring is carried bare and with each guide.
    while len(found) < _MOST_GUIDES and springs * (len(found) + 2) <= MOST_LOADOUTS:
        more = "Another guide?" if found else "Is there a guide: a ring or skid clamped behind the head?"
        if (yield Question(more, yes_no())) == "n":
            break
        free = "guide" if not found else f"guide {len(found) + 1}"
        taken = {name for name, _ in found}
        name = (yield Question("What do you call it?", check=named(taken), empty=free)) or free
        found.append((name, (yield from guide_told(name))))
    return found


def _typed(part: type[BaseModel], key: str, asked: dict[str, str]) -> Told:
    """What was typed for each entry; left out where nothing was."""
    told: Entries = {}
    for entry, words in asked.items():
        text = yield Question(words, check=_checked(part, {key: "part", **told}, entry))
        if text:
            told[entry] = text
    return told


def _checked(part: type[BaseModel], told: Entries, entry: str) -> Callable[[str], str | None]:
    """As the kit sheet itself would judge the value, beside what was told of the part before."""

    def check(text: str) -> str | None:
        try:
            part.model_validate({**told, entry: text})
        except ValidationError as fault:
            return str(fault.errors()[0].get("ctx", {}).get("error", fault.errors()[0]["msg"]))
        return None

    return check
