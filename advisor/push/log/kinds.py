"""The kinds of entry of a push log, and what each may say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite

from advisor.quantity import Dimension
from advisor.site.history import CAME_BACK
from advisor.strict_yaml.model import nearest
from advisor.tables.open_past import OPEN_PAST

Value = str | float | bool | None

SHUT = "shut"  # an opening that was to be pushed from and does not open; it belongs to no push
HAD_OUT = "had out"  # head and rod that an earlier push had left in the pipe; it belongs to that one
ANEW = "asked anew"  # what must be so before any push, where an open one is gone on with
START, SIGHTING, TRY, OFFERED, WATER = "start", "sighting", "try", "offered", "water"
LOOKED = "looked"  # whether the line drains, with a little water by hand
STOPPED, BACK, RESET = "stopped", "pulled back", "counter reset"
FIND, MARK, NOTE, END, UNDO = "find", "mark", "note", "end", "undo"
MACHINE = "machine run"  # by somebody licensed

# Which way an opening leads, as it was told. `known` is of older logs: the way that the plan went.
DOWN, UP, UNKNOWN, AS_PLANNED = "downstream", "upstream", "unknown", "known"
DIRECTIONS = (DOWN, UP, UNKNOWN, AS_PLANNED)
# The ports of an opening that a told direction may mean; as planned, it is that of the plan.
PORTS: dict[str, tuple[str, ...]] = {DOWN: ("down",), UP: ("up",), UNKNOWN: ("down", "up")}
PASSED, HELD, WEDGED, KINKED = "passed", "stopped", "wedged", "kinked"
OUTCOMES = (PASSED, HELD, WEDGED, KINKED)
LONGEST_TEXT = 2000
FARTHEST = 10_000.0  # m: no rod is as long, so a longer length is a slip


@dataclass(frozen=True)
class Says:
    """One thing that an entry may say: text, a number in SI, or yes and no; perhaps one of a few words."""

    type: type[str] | type[float] | type[bool]
    words: tuple[str, ...] = ()
    needed: bool = False
    unit: Dimension | None = None  # of a number; a clock position is in hours, 12 at the top
    wide: bool = False  # of a pipe, so more than nothing


_TEXT, _NEEDED, _FLAG = Says(str), Says(str, needed=True), Says(bool)
_CLOCK, _READING, _NUMBER = Says(float), Says(float), Says(float, needed=True)
_LENGTH, _TIME, _SHARE = (
    Says(float, unit=unit) for unit in (Dimension.LENGTH, Dimension.TIME, Dimension.SHARE)
)

# How sure the tracker was of the place: the chance of the pipe, 80 % of it by the sheet, and how far past
# what was seen before it by the counter, so much either way; whether no one figure by the sheet told it.
DOUBT = {
    "sure": _SHARE,
    "low": _LENGTH,
    "high": _LENGTH,
    "somewhere": _FLAG,
    "past": _TEXT,
    "run": _LENGTH,
    "off": _LENGTH,
}

KINDS: dict[str, dict[str, Says]] = {
    START: {
        "opening": _NEEDED,
        "direction": Says(str, DIRECTIONS),
        "found": Says(str, (DOWN, UP)),  # which way earlier pushes found it to lead, whatever was told
        "mouth": _TEXT,  # of an open channel, by the line whose pipe begins there; without it any that way
        "loadout": _TEXT,
        "target": _TEXT,
        "sheet": _TEXT,  # the version of the sheet, as far as places hang on it
        "operator": _TEXT,
        "told": _TEXT,  # what stood before any push, and is so now
        "drains": _FLAG,  # whether the line was seen to run away just then
        "renewed": _FLAG,  # what had kinked of this gear before is replaced, or cut back to sound rod
        "anew": _FLAG,  # the head was lifted out of the channel and led in anew: the push before ended there
        "looked": _FLAG,  # head, spring and coupling of this gear, after it was held both ways
    },
    ANEW: {"told": _TEXT, "drains": _FLAG},  # as of the start
    SHUT: {"opening": _NEEDED},
    HAD_OUT: {"opening": _NEEDED, "push": _NUMBER},  # the number of the start of that push
    SIGHTING: {
        "what": _NEEDED,
        "clock": _CLOCK,
        "name": _TEXT,
        "line": _TEXT,
        "material": _TEXT,
        "free": _FLAG,  # that the head, told to come neither way before, comes back again
        # That standing water was told to end there, and not only to be no more; no: that nobody saw its end.
        "dry": _FLAG,
        "size": Says(float, unit=Dimension.LENGTH, wide=True),
        "photo": _TEXT,
        "note": _TEXT,
    },
    TRY: {
        "spot": _TEXT,
        "technique": _NEEDED,
        "way": _TEXT,  # the class of fitting: shape.turn.way
        "outcome": Says(str, OUTCOMES, needed=True),
        "force": Says(str, ("light", "firm", "hard")),
        "water": Says(str, ("none", "trickle", "running")),
        "loadout": _TEXT,
        "book": _SHARE,  # the planner's mean chance of one try there, when it was planned
        "planned": _FLAG,
        "outside": _FLAG,  # all of the rod was drawn out for it: rigged outside, or cleaned meanwhile
        "note": _TEXT,
    },
    OFFERED: {"spot": _TEXT, "technique": _NEEDED, "way": _TEXT, "book": _SHARE},
    WATER: {
        "fixture": _NEEDED,
        "seconds": _TIME,
        "side": Says(str, ("ahead", "behind")),  # of the lens: where it came from
        "dye": _FLAG,
        "drains": _FLAG,  # whether it was seen to run away
        "note": _TEXT,
    },
    LOOKED: {"drains": Says(bool, needed=True)},
    STOPPED: {
        "sign": _TEXT,
        "feel": _TEXT,
        "free": _FLAG,  # as of a sighting
        "stood": _LENGTH,  # the counter where the picture came to stand, though rod went in beyond that
        "spot": _TEXT,
        "note": _TEXT,
    },
    BACK: {"note": _TEXT},  # the counter is that after the pull
    RESET: {"now": _LENGTH, "note": _TEXT},
    FIND: {
        "what": _NEEDED,
        "open": Says(str, OPEN_PAST),  # of what may fill it; older logs say nothing
        "line": _TEXT,
        "distance": _LENGTH,  # along the line from its upper end
        "clock": _CLOCK,
        **DOUBT,
        "advice": _TEXT,
        "photo": _TEXT,
        "note": _TEXT,
    },
    MARK: {
        "name": _NEEDED,
        "line": _TEXT,
        "distance": _LENGTH,
        **DOUBT,
        "depth": _LENGTH,  # from the ground to the middle of the transmitter
        "how": Says(str, ("read off", "dug")),
        "near": _READING,  # signal low over the spot
        "far": _READING,  # and raised
        "raised": _LENGTH,  # by this much
        "spacing": _LENGTH,  # from null to null along the pipe
        "receiver": _LENGTH,  # height of the receiver's coil over the ground when low
        "offset": _LENGTH,  # from the lens back to the transmitter
        "sure": _SHARE,  # the chance of that place on the sheet, when it was marked
        "upright": _FLAG,  # the head stands in a riser
        "tape_a": _TEXT,  # a fixed point
        "from_a": _LENGTH,
        "tape_b": _TEXT,
        "from_b": _LENGTH,
        "between": _LENGTH,  # from the one fixed point to the other
        "photo": _TEXT,
        "note": _TEXT,
    },
    NOTE: {"text": _NEEDED, "photo": _TEXT},
    MACHINE: {
        "what": _NEEDED,
        "outside": _FLAG,  # all of the rod was out of the pipe then, and nobody knows of a head left in it
        "opening": _TEXT,  # by which it went in, and which way
        "direction": Says(str, DIRECTIONS),
        "to": _LENGTH,  # m in from the opening, by its own cable
        "brought": Says(str, (*CAME_BACK, "nothing")),
        "note": _TEXT,
    },
    END: {"reached": _FLAG, "why": _TEXT, "out": _FLAG, "note": _TEXT},  # out: the head is out of the pipe
    UNDO: {"of": _NUMBER},
}


def entry_faults(kind: str, counter: float | None, data: Mapping[str, Value]) -> list[str]:
    """What is wrong with an entry, each with what was expected; nothing where it may be logged."""
    says = KINDS.get(kind)
    if says is None:
        return [f"no kind of entry {kind!r}{nearest(kind, list(KINDS))}"]
    wrong = [
        f"{kind}: {name} is missing" for name, say in says.items() if say.needed and data.get(name) is None
    ]
    if counter is not None and not abs(counter) <= FARTHEST:
        wrong.append(f"{kind}: a counter of {counter} m; expected one within {FARTHEST:.0f} m")
    for name, value in data.items():
        if name not in says:
            wrong.append(f"{kind}: nothing is called {name!r}{nearest(name, list(says))}")
        elif value is not None:
            wrong += [f"{kind}: {name}: {fault}" for fault in _value_faults(says[name], value)]
    return wrong


def _value_faults(say: Says, value: Value) -> list[str]:
    if say.type is float:
        if not isinstance(value, int | float) or isinstance(value, bool) or not isfinite(value):
            return [f"got {value!r}; expected a number"]
        if say.wide and value <= 0:
            return [f"got {value} m; expected more than 0 m"]
        long = say.unit is Dimension.LENGTH and abs(value) > FARTHEST
        return [f"got {value} m; expected one within {FARTHEST:.0f} m"] if long else []
    if say.type is bool:
        return [] if isinstance(value, bool) else [f"got {value!r}; expected yes or no"]
    if not isinstance(value, str):
        return [f"got {value!r}; expected text"]
    if say.words and value not in say.words:
        return [f"got {value!r}{nearest(value, list(say.words))}"]
    if len(value) > LONGEST_TEXT:
        return [f"{len(value)} characters; expected at most {LONGEST_TEXT}"]
    # A lone half of a surrogate pair cannot be written to any file.
    return [] if value.isascii() or value.encode("utf-8", "replace").decode() == value else ["not text"]
