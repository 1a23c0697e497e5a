"""What is asked beside the opening: a reading, an hour of the clock, a size, a fixture, signs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from advisor.errors import QuantityError
from advisor.push.kinds import HELD, KINKED, PASSED, WEDGED, Value
from advisor.push.sighting import AHEAD, BEHIND, BORE, MATERIAL, PIPE_END
from advisor.quantity import Dimension, Units, parse, show
from advisor.tables.stuck import StuckFile
from advisor.tables.where import WaterRow, number
from advisor.terminal.choose import BACK, DONT_KNOW, Choice, choose, type_in, yes_no
from advisor.terminal.page import Page

Data = dict[str, Value]
_KEYS = "123456789acefghijklmnopqrstuvwxyz"  # b and d stand for back and don't know
_HOURS = (
    ("l", "left (9 o'clock)", 9.0),
    ("u", "upper left", 10.5),
    ("t", "top (12)", 12.0),
    ("i", "upper right", 1.5),
    ("r", "right (3)", 3.0),
    ("o", "bottom (6)", 6.0),
)
_SIZES = {
    Units.INCH: (("1", "1-1/2 in"), ("2", "2 in"), ("3", "3 in"), ("4", "4 in"), ("6", "6 in")),
    Units.METRIC: (("3", "32 mm"), ("4", "40 mm"), ("5", "50 mm"), ("7", "75 mm"), ("0", "100 mm")),
}
SEEN = (
    Choice("n", "nothing new"),
    Choice("t", "a tie-in (side mouth)"),
    Choice("e", "a bend"),
    Choice("c", "pipe changes size"),
    Choice("m", "pipe changes material"),
    Choice("o", "two mouths a foot apart"),
    Choice("a", "the end: wall, open sewer or tank"),
    Choice("s", "it goes no further"),
)
KINDS = {"t": "tie-in", "e": "bend", "c": BORE, "m": MATERIAL, "o": "two mouths", "a": PIPE_END}


class Asks:
    """Asks at one terminal in one kind of units; a counter beyond `reel` m is asked about."""

    def __init__(self, page: Page, units: Units, reel: float | None = None) -> None:
        self.page, self.units, self.reel = page, units, reel  # what the reel holds at most, m

    def counter(self, question: str, empty: float | None = None) -> float | None:
        """A counter reading in m; a bare number is in the counter's unit. None: back.

        An empty line means `empty`.
        """
        unit = "ft" if self.units is Units.INCH else "m"
        while True:
            typed = type_in(self.page, f"{question} ({unit})", lambda text: _wrong(text, unit))
            if not typed:
                return empty if typed == "" else None
            read = _length(typed, unit)
            if self.reel is None or read <= self.reel:
                return read
            shown, held = (show(each, Dimension.LENGTH, self.units) for each in (read, self.reel))
            sure = yes_no("yes, it reads that", "no, let me type it again")
            asked = f"{shown} is more than the reel holds ({held}). Is that right?"
            if choose(self.page, asked, sure) == "y":
                return read

    def seconds(self, question: str) -> float | None:
        """Seconds; a bare number is one. None: back."""

        def wrong(text: str) -> str | None:
            try:
                _seconds(text)
            except QuantityError:
                return f"{text!r} is no time. Type the seconds, such as 12, or a time such as 1 min 30 s."
            return None

        typed = type_in(self.page, f"{question} (s)", wrong)
        return _seconds(typed) if typed else None

    def hour(self) -> float | None:
        """Where on the clock; None where it was not seen."""
        choices = [Choice(key, words) for key, words, _ in _HOURS]
        key = choose(self.page, "Where in the pipe, with the water at the bottom?", choices, (DONT_KNOW,))
        return next((hour for k, _, hour in _HOURS if k == key), None)

    def size(self, question: str) -> float | None:
        """A size of pipe in m; None where it was not seen."""
        sizes = _SIZES[self.units]
        key = choose(self.page, question, [Choice(k, text) for k, text in sizes], (DONT_KNOW,))
        text = next((text for k, text in sizes if k == key), None)
        return None if text is None else parse(text, Dimension.LENGTH)

    def one_of(self, question: str, names: Sequence[str], more: Sequence[Choice] = (BACK,)) -> str | None:
        """One of some names by a key, a screenful at a time; None for any of `more`."""
        onward = (Choice("0", "more of them"),) if len(names) > len(_KEYS) else ()
        first = 0
        while True:
            shown = names[first : first + len(_KEYS)]
            choices = [Choice(key, name) for key, name in zip(_KEYS, shown, strict=False)]
            key = choose(self.page, question, choices, (*onward, *more))
            if key != "0":
                return next((c.words for c in choices if c.key == key), None)
            first = first + len(_KEYS) if first + len(_KEYS) < len(names) else 0

    def came(self, table: WaterRow) -> str:
        """Whether water came: y or n, c or o of dye, or the key of back."""
        water, dye = (show(number(wait), Dimension.TIME, self.units) for wait in (table.wait, table.dye_wait))
        choices = (
            *yes_no(no=f"not within {water}"),
            Choice("c", "its dye came"),
            Choice("o", f"dye, not within {dye}"),
        )
        return choose(self.page, "Did its water come by?", choices, (BACK,))

    def side(self) -> str | None:
        """From which side water came."""
        choices = (Choice("a", "from ahead, toward the lens"), Choice("f", "from behind, past the head"))
        key = choose(self.page, "Where does it come from?", choices, (DONT_KNOW,))
        return {"a": AHEAD, "f": BEHIND}.get(key)

    def signs(self, table: StuckFile) -> tuple[str, ...]:
        """What is seen and felt while the head is held, as names of signs."""
        found: list[str] = []
        for question, by in (("What do you see?", "eye"), ("What do you feel?", "hand")):
            names = [name for name, sign in table.signs.items() if sign.by == by]
            keys = dict(zip(_KEYS, names, strict=False))  # a sign keeps its key while others are told
            while keys:
                choices = [Choice(key, table.signs[name].words) for key, name in keys.items()]
                more = (Choice("0", "nothing of these" if not found else "that is all"),)
                key = choose(self.page, question, choices, more)
                if key == "0":
                    break
                found.append(keys.pop(key))
                question = "What else?"
        return tuple(found)

    def outcome(self) -> Data | None:
        """What came of a try, and how hard it was pushed; None: back."""
        results = {"p": PASSED, "h": HELD, "w": WEDGED, "k": KINKED}
        choices = (
            Choice("p", "passed"),
            Choice("h", "still held"),
            Choice("w", "wedged: it comes neither way"),
            Choice("k", "rod or spring kinked"),
        )
        key = choose(self.page, "What came of it?", choices, (BACK,))
        if key == BACK.key:
            return None
        forces = {"l": "light", "f": "firm", "h": "hard"}
        force = choose(
            self.page, "How hard did you push?", [Choice(k, word) for k, word in forces.items()], (DONT_KNOW,)
        )
        water = {"n": "none", "t": "trickle", "r": "running"}
        ran = choose(self.page, "Water?", [Choice(k, word) for k, word in water.items()], (DONT_KNOW,))
        data: Mapping[str, Value] = {
            "outcome": results[key],
            "force": forces.get(force),
            "water": water.get(ran),
        }
        return dict(data)


def _length(text: str, unit: str) -> float:
    return parse(f"{text} {unit}" if _bare(text) else text, Dimension.LENGTH)


def _wrong(text: str, unit: str) -> str | None:
    try:
        _length(text, unit)
    except QuantityError as fault:
        return str(fault)
    return None


def _seconds(text: str) -> float:
    return parse(f"{text} s" if _bare(text) else text, Dimension.TIME)


def _bare(text: str) -> bool:
    """Whether it is a number alone."""
    return text.replace(",", ".").replace(".", "", 1).isdigit()
