"""Where the pushes of one way in end: every drawn case ends in one place, and the shares add up to one."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.walk import HardSpot
from advisor.quantity import show_counter, show_reading
from advisor.result.spots import place_name
from advisor.rulebase.reader import Reader
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle

OPENING, LENGTH = "the opening", "the length of the way"
ITSELF = "the opening itself"  # as the place where a way in is shut
BREAK = "a broken place"
EARLIER = "an earlier stop"
SHUT = "it does not open"  # told so of one that is there
LEAST = 0.005  # of all cases; layout: less would be told as "0 %"


@dataclass(frozen=True)
class End:
    """A place or cause that ends a share of the pushes; `why` completes "it ends because".

    `spot` is the hard spot, where it is one, and `came` the share that comes to it; `at` where a push was
    held before, m in.
    """

    where: str
    why: str
    share: float
    spot: HardSpot | None = None
    came: float = 1.0
    at: float | None = None


def ends_of(outcome: RouteOutcome, reader: Reader) -> tuple[End, ...]:
    """What ends this way in before its target, the worst first; with the chance they add up to one."""
    walk, march, way = outcome.walk, outcome.march, outcome.way
    found = [opening_end(outcome)]
    fades: Array = np.zeros_like(walk.arrived)
    easy: Array = np.zeros_like(walk.arrived)
    for index, spot in enumerate(outcome.spots):
        before, reaches = walk.survive[index], march.reach >= spot.spot.station.at
        stands = walk.stood[index]
        fades = fades + np.where(reaches, 0, before)
        easy = easy + np.where(reaches, before, 0) - stands
        name = place_name(spot, reader)
        lost = float((stands - walk.survive[index + 1]).mean())
        found.append(End(name, f"of the {name}", lost, spot, float(before.mean())))
    reaches, before = march.reach >= march.end.at, walk.survive[-1]
    fades = fades + np.where(reaches, 0, before)
    stands = np.where(reaches, before * way.easy[-1], 0)
    easy = easy + np.where(reaches, before, 0) - stands
    broke = stands * way.breaks
    got_in = float(walk.survive[0].mean())
    left = stands - broke
    for stop in way.stops:
        held, left = left * (1 - stop.passes), left * stop.passes
        why = f"what held a push at {show_counter(stop.at, reader.units)} before holds them too"
        found.append(End(EARLIER, why, float(held.mean()), came=got_in, at=stop.at))
    found += [
        End(where, why, float(share.mean()), came=got_in)
        for where, why, share in (
            (LENGTH, "the push dies or the rod ends before the target", fades),
            ("the easier turns", "the easier turns and joints stop it now and then", easy),
            (BREAK, "the pipe may be broken, anywhere on the way", broke),
            ("the way back", _kinks(outcome, reader), left - walk.arrived),
        )
    ]
    return tuple(sorted((e for e in found if e.share >= LEAST), key=lambda end: -end.share))


def _kinks(outcome: RouteOutcome, reader: Reader) -> str:
    """What happens to the rod besides at the hard spots, and at which of the easier turns most of all."""
    hard = {spot.index for spot in outcome.spots}
    met = zip(outcome.geometries, outcome.march.stations, strict=True)
    easy = [(shape, station) for index, (shape, station) in enumerate(met) if index not in hard]
    shape, station = max(easy, key=lambda each: each[0].bends_too_tight, default=(None, None))
    if shape is None or station is None or not shape.bends_too_tight:
        return "the rod kinks or cannot be drawn back"
    passage = shape.passage
    fitting = passage.piece.fitting.likeliest if passage.piece.fitting else passage.piece.kind
    turn = passage.step.kind if passage.step else reader.call(fitting)
    at = show_reading(middle(station.at), reader.units)
    return f"the rod kinks (most likely in the {turn} at {at}) or cannot be drawn back"


def opening_end(outcome: RouteOutcome) -> End:
    """The share that ends before anything is pushed."""
    hole = outcome.route.opening.hole
    assert hole is not None
    opens = float(outcome.walk.survive[0].mean())
    if (shut := outcome.closed_by) is not None:
        why = f"{shut.rule.title[:1].lower()}{shut.rule.title[1:]}"
    elif hole.opens is False:
        why = SHUT
    elif hole.there < opens / hole.there:
        # One share for both: the chance of its being there is told elsewhere, and is not what is left of it.
        why = "the opening may not be there, or may not open"
    elif hole.opened:
        why = "the opening may not open: it was opened before, for a machine, and may have seized since"
    else:
        there = "" if hole.there == 1 else ", or may not be there"
        why = f"the opening may not open{there}: nobody has tried it"
    return End(OPENING, why, 1 - opens)
