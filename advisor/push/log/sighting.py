"""What the operator told, typed: sightings made from entries of the log."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from advisor.push.log.kinds import (
    BACK,
    END,
    MARK,
    OFFERED,
    PASSED,
    RESET,
    SIGHTING,
    START,
    STOPPED,
    TRY,
    WATER,
    WEDGED,
)
from advisor.push.log.log import Entry, entry_number

BORE, MATERIAL, PIPE_END = "bore", "material", "end"
BEND, CHAMBER, POOL, TIE_IN, TRAP = "bend", "chamber", "standing water", "tie-in", "trap"
LANDMARKS = (TIE_IN, BEND, BORE, MATERIAL, "two mouths", CHAMBER, POOL, TRAP, PIPE_END)
MOUTHS_SEEN = "two mouths, one close behind the other"  # as that landmark is told
AHEAD, BEHIND = "ahead", "behind"
DIRT = "blocked"  # the sign of something in the pipe, which may lie anywhere
RIM = "rim ahead"  # the sign of a standing edge, behind which the pipe goes on
STILL = "picture still"  # the sign under which the counter runs and the head does not
OVER_LENS = "water over the lens"  # the sign of a stop of which the picture shows nothing
NOT_BACK = "will not come back"  # the sign of a head that is held both ways, which a try may tell as well


@dataclass(frozen=True)
class Read:
    """A counter reading, m, and nothing that is worth telling."""

    counter: float


@dataclass(frozen=True)
class Seen:
    """A landmark before the lens: a tie-in, a bend, a change of bore or material, two mouths, a chamber,
    standing water, a trap, the end of the pipe.

    `clock` in hours, 12 at the top; `size` m of a tie-in, or of the pipe behind a change of bore.
    """

    counter: float
    kind: str
    clock: float | None = None
    size: float | None = None
    material: str | None = None


@dataclass(frozen=True)
class Water:
    """A fixture was run: its water came by after `seconds`, or not at all; `side` it came from."""

    counter: float | None
    fixture: str
    seconds: float | None
    side: str | None = None
    dye: bool = False


@dataclass(frozen=True)
class Stopped:
    """The head goes no further; `by_dirt` where roots, scale, waste or an object was seen before it, `by_rim`
    where a rim or step was: the pipe goes on behind it."""

    counter: float
    by_dirt: bool = False
    by_rim: bool = False


@dataclass(frozen=True)
class Still:
    """The counter runs and the picture stands: rod went in, the head did not move.

    `stood` is the reading at which it came to stand; None where nobody knows, and the head counts as where it
    was read last.
    """

    counter: float
    stood: float | None = None


@dataclass(frozen=True)
class Back:
    """Drawn back to this reading."""

    counter: float


@dataclass(frozen=True)
class Reset:
    """The counter now shows `now` where it showed `counter`."""

    counter: float | None
    now: float


Sighting = Read | Seen | Water | Stopped | Still | Back | Reset


def sign_names(entry: Entry) -> frozenset[str]:
    """The signs, seen and felt, that an entry names."""
    told = [str(entry.data.get(name) or "") for name in ("sign", "feel")]
    return frozenset(sign for text in told for sign in text.split(", ") if sign)


def in_words(entry: Entry) -> str:
    """All that an entry says in words."""
    return " ".join(value for value in entry.data.values() if isinstance(value, str))


def is_wet(entry: Entry) -> bool:
    """Whether it tells of water before the lens, which hides what lies in it."""
    told = sighting_of(entry)
    return (isinstance(told, Seen) and told.kind in (POOL, TRAP)) or OVER_LENS in sign_names(entry)


def is_dry(entry: Entry) -> bool:
    """Whether what it told is known, and no water: what was put into own words may be a blind picture."""
    return entry.data.get("what") == "nothing" or (isinstance(sighting_of(entry), Seen) and not is_wet(entry))


def wedged(entry: Entry) -> bool:
    """Whether it tells a try that wedged the head."""
    return entry.kind == TRY and entry.data.get("outcome") == WEDGED


def signs_at(entries: Sequence[Entry], place: int) -> frozenset[str]:
    """The signs of the stop at that place among the entries, and what the tries there have told of it."""
    found = sign_names(entries[place])
    for entry in entries[place + 1 :]:
        if entry.kind in (STOPPED, BACK, START):
            break
        if wedged(entry):
            found |= {NOT_BACK}
    return found


def comes_neither_way(entries: Iterable[Entry]) -> bool:
    """Whether the head was told to come neither way, and nothing since that it came back, free or past.

    A reading elsewhere tells none of that: it may be a slip, or the head was driven in further.
    """
    found = False
    for entry in entries:
        if entry.kind == BACK or entry.data.get("outcome") == PASSED or entry.data.get("free") is True:
            found = False
        found = found or wedged(entry) or (entry.kind == STOPPED and NOT_BACK in sign_names(entry))
    return found


def sighting_of(entry: Entry) -> Sighting | None:
    """The sighting that an entry tells; None where it says nothing of where the head is."""
    data, counter = entry.data, entry.counter
    if entry.kind == WATER:
        side = data.get("side")
        return Water(
            counter,
            str(data["fixture"]),
            entry_number(entry, "seconds"),
            str(side) if side in (AHEAD, BEHIND) else None,
            bool(data.get("dye")),
        )
    if entry.kind == RESET:
        return Reset(counter, entry_number(entry, "now") or 0.0)
    if counter is None:
        return None
    if entry.kind == BACK:
        return Back(counter)
    if entry.kind == STOPPED:
        signs = sign_names(entry)
        still = Still(counter, entry_number(entry, "stood"))
        return still if STILL in signs else Stopped(counter, DIRT in signs, RIM in signs)
    if entry.kind == SIGHTING:
        what = str(data["what"])
        if what not in LANDMARKS:
            return Read(counter)
        material = data.get("material")
        return Seen(
            counter,
            what,
            entry_number(entry, "clock"),
            entry_number(entry, "size"),
            None if material is None else str(material),
        )
    # Finds and marks may be told later, from the pictures: only a try is made where the head is.
    return Read(counter) if entry.kind == TRY else None


def lens_at(entry: Entry) -> float | None:
    """The reading at which an entry tells that the lens was, m.

    Where the picture stood still the counter ran without the head, and tries are told at that reading; the
    end tells where a head stays that may have gone on unseen.
    """
    if entry.counter is None or entry.kind in (BACK, MARK, TRY, OFFERED, END):
        return None
    told = sighting_of(entry)
    return told.stood if isinstance(told, Still) else entry.counter
