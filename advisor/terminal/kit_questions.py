"""`advisor kit new`: the truck's kit asked for once, a reel at a time; not knowing is always an answer.

The questions are one script that is sent the answers. A step back takes the last answer away and runs the
script again with those before it, so that every question can be changed until the kit is written.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass

from pydantic import BaseModel, ValidationError

from advisor.kit.loadouts import LARGE, SMALL
from advisor.kit.new import Entries, Reel, kit_text
from advisor.kit.sheet import GuideSheet, HeadSheet, RodSheet, SpringSheet
from advisor.terminal.choose import Choice, choose, type_in
from advisor.terminal.page import Page

BACK = Choice("b", "back")
_DONT_KNOW = Choice("d", "don't know")
_YES_NO = (Choice("y", "yes"), Choice("n", "no"))
_MOST_REELS, _MOST_GUIDES = 4, 2  # twelve loadouts at most stand on a kit sheet


@dataclass(frozen=True)
class Question:
    """One question: keys to choose from, or a line to type with what an empty one means."""

    words: str
    choices: tuple[Choice, ...] = ()
    more: tuple[Choice, ...] = ()
    check: Callable[[str], str | None] = lambda _: None
    empty: str = "don't know"


Script = Generator[Question, str, str]


class Interview:
    """The questions with the answers so far."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.answers: list[str] = []

    def run(self) -> str:
        """Ask what is not answered yet; YAML text of the kit sheet. Raises as `choose`."""
        while True:
            asked = _after(self.answers)
            if isinstance(asked, str):
                return asked
            answer = self._asked(asked)
            if answer is None:
                self.back()
            else:
                self.answers.append(answer)

    def back(self) -> None:
        """The last answer is taken back."""
        if self.answers:
            self.answers.pop()

    def _asked(self, question: Question) -> str | None:
        if question.choices:
            more = (*question.more, *((BACK,) if self.answers else ()))
            key = choose(self.page, question.words, question.choices, more)
            return None if key == BACK.key else key
        return type_in(self.page, question.words, question.check, question.empty)


def begin(page: Page) -> Interview:
    """The interview, with what it is for."""
    page.heading("The truck's kit")
    page.line(
        "Asked once, in inch or metric as you like. Don't know? Press Enter on an empty line: the usual make "
        "is taken, with a wide range."
    )
    return Interview(page)


def _after(answers: Sequence[str]) -> Question | str:
    """What comes after these answers: the next question, or the finished text."""
    script = _script()
    try:
        asked = next(script)
        for answer in answers:
            asked = script.send(answer)
    except StopIteration as done:
        return str(done.value)
    return asked


def _script() -> Script:
    name = (yield Question("What do you call this kit?", check=_named(set()), empty="truck")) or "truck"
    reels: list[Reel] = []
    while True:
        reels.append((yield from _reel({each.name for each in reels}, len(reels) + 1)))
        if len(reels) == _MOST_REELS or (yield Question("Another reel on the truck?", _YES_NO)) == "n":
            break
    guides = yield from _guides()
    return kit_text(name, reels, guides)


def _reel(taken: set[str], number: int) -> Generator[Question, str, Reel]:
    like = yield Question(
        f"Reel {number}: which is it nearer to? What you don't know is taken from that.",
        (
            Choice("1", "small: a thin rod, a head about an inch (25 mm) across"),
            Choice("2", "large: a thick rod, a head about two inches (50 mm) across"),
        ),
    )
    kind = SMALL if like == "1" else LARGE
    free = kind if kind not in taken else f"{kind} {number}"
    name = (yield Question("What do you call this reel?", check=_named(taken), empty=free)) or free
    head = yield from _typed(HeadSheet, "head", {
        "diameter": f"{name}: how wide is the head at its widest?",
        "length": f"{name}: how long is the stiff head, nose to spring?",
    })  # fmt: skip
    nose = yield Question(
        f"{name}: what nose has the head?", (Choice("r", "round"), Choice("f", "flat")), (_DONT_KNOW,)
    )
    head |= {"r": {"nose": "round"}, "f": {"nose": "flat"}}.get(nose, {})
    spring = yield from _typed(SpringSheet, "spring", {"length": f"{name}: how long is the spring?"})
    feel = yield Question(
        f"{name}: how does the spring feel?",
        (Choice("s", "soft: bends by itself"), Choice("f", "firm: bends only when pressed")),
        (_DONT_KNOW,),
    )
    spring |= {"s": {"feel": "soft"}, "f": {"feel": "firm"}}.get(feel, {})
    rod = yield from _typed(RodSheet, "rod", {
        "length": f"{name}: how much rod is on it?",
        "diameter": f"{name}: how thick is the rod, jacket and all?",
        "core": f"{name}: how thick is the bare core, seen at a cut end?",
        "minimum radius": f"{name}: smallest bend radius, as marked on jacket or reel?",
    })  # fmt: skip
    return Reel(name, kind, head, spring, rod)


def _guides() -> Generator[Question, str, list[tuple[str, Entries]]]:
    found: list[tuple[str, Entries]] = []
    while len(found) < _MOST_GUIDES:
        more = "Another guide?" if found else "Is there a guide: a ring or skid clamped behind the head?"
        if (yield Question(more, _YES_NO)) == "n":
            break
        free = "guide" if not found else f"guide {len(found) + 1}"
        taken = {name for name, _ in found}
        name = (yield Question("What do you call it?", check=_named(taken), empty=free)) or free
        asked = {
            "diameter": f"{name}: how wide?",
            "length": f"{name}: how much longer is the stiff head with it?",
        }
        found.append((name, (yield from _typed(GuideSheet, "guide", asked))))
    return found


def _typed(part: type[BaseModel], key: str, asked: dict[str, str]) -> Generator[Question, str, Entries]:
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


def _named(taken: set[str]) -> Callable[[str], str | None]:
    def check(text: str) -> str | None:
        if text in taken:
            return f"there is a {text!r} already"
        return _checked(SpringSheet, {"spring": "part"}, "like")(text)

    return check
