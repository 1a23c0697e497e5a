"""What is asked about a kit: each kind of part, a reel, the whole truck; not knowing is always an answer."""

from __future__ import annotations

from collections.abc import Callable, Collection, Generator, Sequence
from functools import partial

from pydantic import BaseModel, ValidationError

from advisor.kit.loadouts import LARGE, MOST_LOADOUTS, SMALL
from advisor.kit.new import Entries, NewGuide, Reel, kit_text
from advisor.kit.sheet import GuideSheet, HeadSheet, RodSheet, SpringSheet
from advisor.quantity import Units
from advisor.tables.load import Tables
from advisor.terminal.choose import DONT_KNOW, Choice, yes_no
from advisor.terminal.kit_interview import Question, Script
from advisor.terminal.kit_usual import Usual

Told = Generator[Question, str, Entries]
_UNITS = (Choice("1", "inches and feet"), Choice("2", "millimetres and metres"))
_MOST_REELS, _MOST_SPRINGS, _MOST_GUIDES = 4, 6, 2  # on one truck; twelve loadouts at most stand on a sheet


def whole_kit(tables: Tables, units: Units | None) -> Script[str]:
    """The truck's kit, a reel at a time, as YAML text of its sheet; asks for units where not told."""
    if units is None:
        units = Units.INCH if (yield Question("In what do you measure?", _UNITS)) == "1" else Units.METRIC
    usual = Usual(tables, units)
    name = (yield Question("What do you call this kit?", check=named(()), empty="truck")) or "truck"
    reels: list[Reel] = []
    springs: set[str] = set()
    while True:
        reels.append((yield from _reel({each.name for each in reels}, springs, len(reels) + 1, usual)))
        springs |= set(reels[-1].springs)
        full = len(reels) == _MOST_REELS or len(springs) >= _MOST_SPRINGS
        if full or (yield Question("Another reel on the truck?", yes_no())) == "n":
            break
    guides = yield from _guides([each.name for each in reels], len(springs), usual)
    return kit_text(name, reels, guides)


def part_told(kind: str, name: str, usual: Usual, like: str = "") -> Told:
    """What is said of one head, spring, rod or guide: what it is `like`, asked where that is not given."""
    if kind == "guide":  # it is taken from the class whose usual size is nearer
        return (yield from guide_told(name, usual))
    like = like or (yield from _class_of(kind, name, usual))
    told = yield from {"head": head_told, "spring": spring_told, "rod": rod_told}[kind](name, like, usual)
    return {"like": like, **told}


def _class_of(kind: str, name: str, usual: Usual) -> Generator[Question, str, str]:
    """The class of reel from which is taken what nobody knows of one part."""
    small, large = (usual.across(kind, like) for like in (SMALL, LARGE))
    words = {
        "head": ("small: about {} across", "large: about {} across"),
        "spring": (
            "that of a thin rod: about {} across outside",
            "that of a thick rod: about {} across outside",
        ),
        "rod": ("thin: about {} across, jacket and all", "thick: about {} across, jacket and all"),
    }[kind]
    like = yield Question(
        f"{name}: which {kind} is it nearer to? What you don't know is taken from that.",
        (Choice("1", words[0].format(small)), Choice("2", words[1].format(large))),
    )
    return SMALL if like == "1" else LARGE


def head_told(name: str, like: str, usual: Usual) -> Told:
    """What is said of one head."""
    head = yield from _typed(HeadSheet, "head", like, usual, {
        "diameter": f"{name}: how wide is the head at its widest?",
        "length": f"{name}: how long is the stiff head, nose to spring?",
    })  # fmt: skip
    nose = yield Question(
        f"{name}: what nose has the head?",
        (Choice("1", "round", also="r"), Choice("2", "flat", also="f")),
        (DONT_KNOW,),
    )
    return head | {"1": {"nose": "round"}, "2": {"nose": "flat"}}.get(nose, {})


def spring_told(name: str, like: str, usual: Usual) -> Told:
    """What is said of one spring."""
    spring = yield from _typed(SpringSheet, "spring", like, usual, {
        "length": f"{name}: how long is the spring?",
    })  # fmt: skip
    feel = yield Question(
        f"{name}: how does the spring feel?",
        (
            Choice("1", "soft: bends by itself", also="s"),
            Choice("2", "firm: bends only when pressed", also="f"),
        ),
        (DONT_KNOW,),
    )
    return spring | {"1": {"feel": "soft"}, "2": {"feel": "firm"}}.get(feel, {})


def rod_told(name: str, like: str, usual: Usual) -> Told:
    """What is said of one rod."""
    return (yield from _typed(RodSheet, "rod", like, usual, {
        "length": f"{name}: how much rod is on it?",
        "diameter": f"{name}: how thick is the rod, jacket and all?",
        "core": f"{name}: how thick is the bare core, seen at a cut end?",
        "minimum radius": f"{name}: smallest bend radius, as marked on jacket or reel?",
    }))  # fmt: skip


def guide_told(name: str, usual: Usual) -> Told:
    """What is said of one guide."""
    return (yield from _typed(GuideSheet, "guide", "", usual, {
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


def _reel(taken: set[str], springs: set[str], number: int, usual: Usual) -> Generator[Question, str, Reel]:
    kind = yield Question(
        f"Reel {number}: which is it nearer to? What you don't know is taken from that.",
        (
            Choice("1", f"small: a thin rod, a head about {usual.across('head', SMALL)} across"),
            Choice("2", f"large: a thick rod, a head about {usual.across('head', LARGE)} across"),
            Choice("3", "neither: such as a thick rod with a small head; asked part by part"),
        ),
    )
    like = {"1": SMALL, "2": LARGE}.get(kind, "")
    free = like or "reel"
    free = free if free not in taken else f"{free} {number}"
    name = (yield Question("What do you call this reel?", check=named(taken), empty=free)) or free
    head = yield from part_told("head", name, usual, like)
    own: dict[str, Entries] = {}
    while True:
        which = f"{name}, spring {len(own) + 1}" if own else name
        told = yield from part_told("spring", which, usual, like)
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
    return Reel(name, head, own, (yield from part_told("rod", name, usual, like)))


def goes_on(name: str, other: str, room: bool = True) -> Question:
    """Whether a part goes on a rod, or a guide on a head; where there is no room it cannot."""
    full = "" if room else f" There is no room: {MOST_LOADOUTS} loadouts at most."
    return Question(f"Does {name} go on {other}?{full}", yes_no() if room else yes_no()[1:])


def _guides(reels: Sequence[str], springs: int, usual: Usual) -> Generator[Question, str, list[NewGuide]]:
    found: list[NewGuide] = []
    # Each spring is carried bare and with each guide.
    while len(found) < _MOST_GUIDES and springs * (len(found) + 2) <= MOST_LOADOUTS:
        more = "Another guide?" if found else "Is there a guide: a ring or skid clamped behind the head?"
        if (yield Question(more, yes_no())) == "n":
            break
        free = "guide" if not found else f"guide {len(found) + 1}"
        taken = {each.name for each in found}
        name = (yield Question("What do you call it?", check=named(taken), empty=free)) or free
        told = yield from guide_told(name, usual)
        on: list[str] = []
        for reel in reels:
            if len(reels) == 1 or (yield goes_on(name, reel)) == "y":
                on.append(reel)
        found.append(NewGuide(name, told, tuple(on)))
    return found


def _typed(part: type[BaseModel], kind: str, like: str, usual: Usual, asked: dict[str, str]) -> Told:
    """What was typed for each entry; left out where nothing was."""
    told: Entries = {}
    for entry, words in asked.items():
        text = yield Question(
            words,
            check=_checked(part, {kind: "part", **told}, entry, usual.units),
            unit=usual.unit(kind, entry),
            units=usual.units,
            unusual=partial(usual.passed_by, kind, entry, like),
        )
        if text:
            told[entry] = text
    return told


def _checked(
    part: type[BaseModel], told: Entries, entry: str, units: Units | None = None
) -> Callable[[str], str | None]:
    """As the kit sheet itself would judge the value, beside what was told of the part before."""

    def check(text: str) -> str | None:
        try:
            part.model_validate({**told, entry: text}, context=units)
        except ValidationError as fault:
            return str(fault.errors()[0].get("ctx", {}).get("error", fault.errors()[0]["msg"]))
        return None

    return check
