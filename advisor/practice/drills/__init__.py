"""The kinds of drill, one module each: `make(school, seed, after)` gives the drill of a seed."""

from __future__ import annotations

from collections.abc import Callable

from advisor.practice.drill import Drill
from advisor.practice.drills import bring, hands, hard_fitting, opening, signs, stop, technique
from advisor.practice.scene import School

Make = Callable[[School, int, str], Drill]

# In the order in which they are first met: where to go in, what will stop you, then what to do there.
KINDS: dict[str, Make] = {
    "opening": opening.make,
    "fitting": hard_fitting.make,
    "technique": technique.make,
    "hands": hands.make,
    "signs": signs.make,
    "stop": stop.make,
    "bring": bring.make,
}
TITLES = {
    "opening": "choose the opening",
    "fitting": "find the hard fitting",
    "technique": "choose and order the technique",
    "hands": "set the hands",
    "signs": "read the signs",
    "stop": "stop or go on",
    "bring": "what would you bring",
}


def make(kind: str, school: School, seed: int, after: str = "") -> Drill:
    """The drill of a kind and seed; `after` is what the last one of its kind was about."""
    return KINDS[kind](school, seed, after)
