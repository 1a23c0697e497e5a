"""What is asked beside the opening: a reading, an hour of the clock, a size, a fixture, signs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from math import inf
from types import MappingProxyType

from advisor.errors import QuantityError
from advisor.kit.model import Loadout
from advisor.outcome.attempts import CLEANED
from advisor.push.log.kinds import HELD, KINKED, PASSED, WEDGED, Value
from advisor.push.log.sighting import (
    AHEAD,
    BEHIND,
    BORE,
    CHAMBER,
    MATERIAL,
    MOUTHS_SEEN,
    PIPE_END,
    POOL,
    TRAP,
)
from advisor.quantity import Dimension, Units, parse, show, show_counter, with_unit
from advisor.result.study import Study
from advisor.tables.stuck import RiggedRow
from advisor.tables.tables import Tables
from advisor.tables.where import WaterRow, number
from advisor.terminal.choose import BACK, DONT_KNOW, MORE, Choice, choose, type_in, yes_no
from advisor.terminal.number import ALONG
from advisor.terminal.page import Page
from advisor.terminal.push.sizes import House, as_drawn, changed_to
from advisor.terminal.push.steps import in_turn

Data = dict[str, Value]
KEYS = "123456789acefghijklnopqrstuvwxyz"  # b, d and m stand for back, don't know and more
_HOURS = (
    ("l", "left (9 o'clock)", 9.0),
    ("u", "upper left", 10.5),
    ("t", "top (12)", 12.0),
    ("i", "upper right", 1.5),
    ("r", "right (3)", 3.0),
    ("o", "bottom (6)", 6.0),
)
_FIGURES = {"l": "9", "r": "3", "o": "6"}  # taken for these keys too; 12 takes two
_WHERE = "Where in the pipe, with the water at the bottom? A pipe that stands has no bottom: don't know."
_ALL_ROUND = "all round the pipe"
_SIDES = (("a", "from ahead, toward the lens", AHEAD), ("f", "from behind, past the head", BEHIND))
_CAME = (
    Choice("p", "passed"),
    Choice("h", "still held"),
    Choice("w", "wedged: it comes neither way"),
    Choice("k", "rod or spring kinked"),
)
_OUTCOMES = {"p": PASSED, "h": HELD, "w": WEDGED, "k": KINKED}
_FORCES = tuple((word[0], word, word) for word in ("light", "firm", "hard"))
_WATER = tuple((word[0], word, word) for word in ("none", "trickle", "running"))
SEEN = (
    Choice("n", "nothing new"),
    Choice("t", "a tie-in (side mouth)"),
    Choice("e", "a bend"),
    Choice("c", "pipe changes size"),
    Choice("m", "pipe changes material"),
    Choice("o", MOUTHS_SEEN),
    Choice("h", "a chamber (open channel, light from above)"),
    Choice("w", "standing water"),
    Choice("i", "a trap (the pipe dips under water)"),
    Choice("a", "the end: wall, open sewer or tank"),
    Choice("s", "it goes no further"),
)
KINDS = {
    "t": "tie-in",
    "e": "bend",
    "c": BORE,
    "m": MATERIAL,
    "o": "two mouths",
    "h": CHAMBER,
    "w": POOL,
    "i": TRAP,
    "a": PIPE_END,
}


class Asks:
    """Asks at one terminal in one kind of units; a counter beyond `reel` m is asked about."""

    def __init__(self, page: Page, units: Units, reel: float | None = None) -> None:
        self.page, self.units, self.reel = page, units, reel  # what the reel holds at most, m
        self.house: House | None = None  # whose own sizes are offered
        self.below = False  # whether the counter was set anew further in, so that it may show less than 0

    def go_by(self, study: Study, loadout: Loadout) -> None:
        """What the reel of that gear holds bounds a counter, the drain's own sizes are offered."""
        self.reel = float(study.drawn.kit(loadout).reel.max())
        self.house = House(study.network, study.tables.files.pipes)

    def counter(self, question: str, empty: float | None = None) -> float | None:
        """A counter reading in m; a bare number is in the counter's unit. None: back.

        An empty line means `empty`.
        """
        while True:
            read = self.length(question, empty, self.below)
            if read is None or read == empty or self.reel is None or read <= self.reel:
                return read
            shown, held = (show_counter(each, self.units) for each in (read, self.reel))
            if self.right(f"{shown} is more than the reel holds ({held}).", shown):
                return read

    def length(self, question: str, empty: float | None = None, below: bool = False) -> float | None:
        """A length in m, perhaps `below` 0; else as a counter's reading."""
        check = partial(_wrong, self.units, below)
        typed = type_in(self.page, question, check, unit=ALONG[self.units])
        if not typed:
            return empty if typed == "" else None
        return _read(self.units, below, typed)

    def right(self, odd: str, shown: str) -> bool:
        """Whether a reading, `shown` as it was typed, is right though it is odd; else it is typed again."""
        sure = yes_no(f"yes, it is {shown}", "no, let me type it again")
        return choose(self.page, f"{odd} Is it {shown} all the same?", sure) == "y"

    def lies_within(self, read: float, low: float, high: float, off: float) -> bool:
        """Whether a reading lies between what was told before and after it, m, or is right all the same.

        One place may be read `off` m apart.
        """
        if low - off <= read <= high + off:
            return True
        shown, first, last = (show_counter(each, self.units) for each in (read, low, high))
        return self.right(f"The counter was between {first} and {last} then.", shown)

    def seconds(self, question: str, most: float, empty: float | None = None) -> float | None:
        """Seconds; a bare number is one. None: back.

        An empty line means `empty`; more than `most` is asked about.
        """

        def wrong(text: str) -> str | None:
            try:
                parse(text, Dimension.TIME)
            except QuantityError:
                return f"{text!r} is no time. Type the seconds, such as 12, or a time such as 1 min 30 s."
            return None

        while True:
            typed = type_in(self.page, question, wrong, unit="s")
            if not typed:
                return empty if typed == "" else None
            read = parse(typed, Dimension.TIME)
            shown, wait = (show(each, Dimension.TIME, self.units) for each in (read, most))
            if read <= most or self.right(f"{shown} is longer than anybody waits ({wait}).", shown):
                return read

    def hour(self, data: Data) -> bool:
        """Where on the clock, as `clock`. False: back."""
        return self.into(data, "clock", _WHERE, _HOURS, _FIGURES)

    def hour_of_find(self, data: Data) -> bool:
        """Where on the clock, as `clock`; all round, as a root ball is, is no hour and goes into the note."""
        told = self.into(data, "clock", _WHERE, (*_HOURS, ("a", "all round", _ALL_ROUND)), _FIGURES)
        if data["clock"] == _ALL_ROUND:
            data["clock"], data["note"] = None, _ALL_ROUND
        return told

    def size(self, question: str, data: Data) -> bool:
        """A size of pipe in m, as `size`. False: back."""
        sizes = as_drawn(self.house, self.units)
        return self.into(data, "size", f"{question} Press its first figure.", sizes)

    def new_size(self, data: Data) -> bool:
        """The size in m that the pipe changes to, as `size`. False: back."""
        return self.into(data, "size", "To what size?", changed_to(self.house, self.units))

    def material(self, tables: Tables, data: Data) -> bool:
        """To which material it changes, as `material`. False: back."""
        names = [(key, name, name) for key, name in zip(KEYS, tables.materials, strict=False)]
        return self.into(data, "material", "To what?", names)

    def into(
        self,
        data: Data,
        name: str,
        question: str,
        choices: Sequence[tuple[str, str, Value]],
        also: Mapping[str, str] = MappingProxyType({}),
    ) -> bool:
        """One of some values by its key, or what is taken for it `also`, put into `data`; none where nobody
        knows. False: back."""
        shown = [Choice(key, words, also.get(key, "")) for key, words, _ in choices]
        chosen = choose(self.page, question, shown, (DONT_KNOW, BACK))
        data[name] = next((value for key, _, value in choices if key == chosen), None)
        return chosen != BACK.key

    def one_of(self, question: str, names: Sequence[str], more: Sequence[Choice] = (BACK,)) -> str | None:
        """One of some names by a key, a screenful at a time; None for any of `more`."""
        onward = (MORE,) if len(names) > len(KEYS) else ()
        first = 0
        while True:
            shown = names[first : first + len(KEYS)]
            choices = [Choice(key, name) for key, name in zip(KEYS, shown, strict=False)]
            key = choose(self.page, question, choices, (*onward, *more))
            if key != MORE.key:
                return next((c.words for c in choices if c.key == key), None)
            first = first + len(KEYS) if first + len(KEYS) < len(names) else 0

    def came(self, table: WaterRow) -> str:
        """Whether water came: y or n, c or o of dye, or the key of back."""
        water, dye = (show(number(wait), Dimension.TIME, self.units) for wait in (table.wait, table.dye_wait))
        choices = (
            *yes_no(no=f"not within {water}"),
            Choice("c", "its dye came"),
            Choice("o", f"dye, not within {dye}"),
        )
        return choose(self.page, "Did its water come by?", choices, (BACK,))

    def side(self, data: Data) -> bool:
        """From which side water came, as `side`. False: back."""
        return self.into(data, "side", "Where does it come from?", _SIDES)

    def stood(self, counter: float, data: Data) -> bool:
        """The reading at which the picture came to stand, as `stood`, at most `counter`. False: back."""
        asked = "What did the counter show when the picture stopped? Empty: not known"
        while True:
            read = self.counter(asked, inf)
            if read is None or read == inf:
                return read is not None
            if read <= counter:
                data["stood"] = read
                return True
            self.page.line(f"That is more than it shows now, {show_counter(counter, self.units)}.")

    def drawn_out(self, technique: str, row: RiggedRow, data: Data) -> bool | None:
        """Whether all of the rod was out for what is done outside the pipe: without that it was no try.

        False: back, or it was none; None where that is not asked.
        """
        data.pop("outside", None)
        if technique not in row.head_out:
            return None
        key = choose(self.page, f"{technique}. {row.asked}", yes_no(), (BACK,))
        if key == "n":
            self.page.line(row.not_out)
        data.update({"outside": True} if key == "y" else {})
        return key == "y"

    def outcome(self, technique: str, data: Data) -> bool:
        """What came of a try, how hard it was pushed, and the water there was. False: back.

        A cutter or a jet pushes no rod. A head that is wedged or a rod that is kinked is helped at once:
        neither answer changes how.
        """

        def came() -> bool:
            for name in ("outcome", "force", "water"):
                data.pop(name, None)
            key = choose(self.page, "What came of it?", _CAME, (BACK,))
            data["outcome"] = _OUTCOMES.get(key)
            return key != BACK.key

        def more(name: str, question: str, choices: Sequence[tuple[str, str, Value]]) -> bool | None:
            helped = data["outcome"] in (WEDGED, KINKED)
            return None if helped else self.into(data, name, question, choices)

        return in_turn(
            came,
            lambda: None if technique == CLEANED else more("force", "How hard did you push?", _FORCES),
            lambda: more("water", "Water?", _WATER),
        )

    def drawn_back(self, now: float) -> float | None:
        """The counter after pulling back, m, where it is less than `now`. None: nothing was drawn back."""
        counter = self.counter("Counter after pulling back?")
        if counter is not None and counter >= now:
            self.page.line("That is no less than it shows now, so nothing was drawn back: told nothing.")
            return None
        return counter


def _read(units: Units, below: bool, text: str) -> float:
    if not (below and text.startswith("-")):
        return parse(text, Dimension.LENGTH, units)
    return 0.0 - parse(with_unit(text[1:], ALONG[units]), Dimension.LENGTH, units)


def _wrong(units: Units, below: bool, text: str) -> str | None:
    try:
        _read(units, below, text)
    except QuantityError as fault:
        return str(fault)
    return None
