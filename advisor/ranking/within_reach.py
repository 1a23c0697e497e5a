"""The part of a stretch that lies within the rod's reach, where no way shows all of it.

A rod that ends a foot short of the far end shows the rest all the same; what lies beyond is told as not seen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, floor

from advisor.outcome.assess import RouteOutcome
from advisor.quantity import Dimension, Units, show
from advisor.routes.passage import Passage
from advisor.site.network import Network
from advisor.site.sheet import units_in
from advisor.site.suspects import end_name
from advisor.site.target import Target, target_in
from advisor.tables.load import Tables
from advisor.worlds.spread import below

_FOOT, _HALF_METRE = 0.3048, 0.5
_STEP = {Units.INCH: _FOOT, Units.METRIC: _HALF_METRE}  # a counter is read to no less
_TOP = "the top"


def within_reach(
    outcomes: Sequence[RouteOutcome], target: Target, network: Network, tables: Tables, units: Units
) -> tuple[Network, Target] | None:
    """The network with a mark where the reach of the best way ends in most cases, and what lies before it,
    called in these units."""
    failing = tables.costs["failing"].likely
    found: list[tuple[float, str, float]] = []
    for outcome in () if target.is_point else outcomes:
        far = _reach(outcome, tables)
        end = None if far is None else _end(outcome, far, target, network)
        if far is None or end is None:
            continue
        seen = far - _at(outcome)[outcome.route.target_from]
        whole = sum(network.pieces[key].along for key in target.span)
        shown = min(seen / whole, 1.0) * _chance(outcome, far)
        found.append((float(outcome.walk.minutes.mean()) + (1 - shown) * failing, *end))
    cost, words, below = min(found, default=(failing, "", 0.0))
    try:
        return _called_in(units, *target_in(words, network), below) if cost < failing else None
    except ValueError:  # a name that two things go by, or that reads as something else
        return None


def _called_in(units: Units, network: Network, near: Target, below: float) -> tuple[Network, Target]:
    """Mark and target with the length in their names told in these units."""
    was, now = (show(below, Dimension.LENGTH, each) for each in (units_in(network.region), units))
    mark = next(network.pieces[key] for key in near.span if network.pieces[key].kind == "mark")
    named = replace(mark, name=mark.name.replace(was, now, 1))
    called = replace(near, words=near.words.replace(mark.name, named.name, 1))
    return replace(network, pieces={**network.pieces, mark.id: named}), called


def _reach(outcome: RouteOutcome, tables: Tables) -> float | None:
    """How far in, m, the head gets in most cases, where that is within the target and short of its end."""
    far = below(outcome.march.reach, 1 - tables.limits["reach_share"].likely)
    starts = _at(outcome)[outcome.route.target_from]
    return far if starts < far < float(outcome.march.end.at.mean()) else None


def _chance(outcome: RouteOutcome, far: float) -> float:
    """The mean chance to come so far."""
    behind = sum(float(spot.spot.station.at.mean()) < far for spot in outcome.spots)
    return float((outcome.walk.survive[behind] * (outcome.march.reach >= far)).mean())


def _end(outcome: RouteOutcome, far: float, target: Target, network: Network) -> tuple[str, float] | None:
    """What is seen up to there, as `look at` takes it, short of it by less than a step of the counter; and
    how far its end lies, m, below what it is told by."""
    at, passages = _at(outcome), outcome.route.passages
    last = max(i for i, here in enumerate(at) if here <= far)
    piece, down = passages[last].piece, passages[last].enters != "down"
    if piece.line != target.line:
        return None
    # In the units of the sheet: which part it is may not hang on those that a plan is told in.
    units = units_in(network.region)
    tops, step = network.positions(target.line), _STEP[units]
    along = min(far - at[last], piece.along)
    place = tops[piece.id] + (along if down else piece.along - along)
    above = [
        (tops[key], name)
        for key in network.lines[target.line]
        if tops[key] <= place and (name := end_name(network, key, "")) and _alone(name, target.line, network)
    ]
    top, name = above[-1] if above else (0.0, _TOP)
    below = (floor if down else ceil)((place - top) / step) * step
    if below <= 0:
        return None
    told = f"{show(below, Dimension.LENGTH, units)} below {name}"
    first = _entered(outcome.route.passages[outcome.route.target_from :], target)
    begins = end_name(network, first, _TOP if down else "the bottom")
    ends = (begins, told) if down else (told, begins)
    return f"{target.line}, from {ends[0]} to {ends[1]}", below


def _entered(passages: Sequence[Passage], target: Target) -> str:
    """The piece at which the head comes to the target."""
    return next(passage.piece.id for passage in passages if passage.piece.id in target.span)


def _alone(name: str, line: str, network: Network) -> bool:
    """Whether nothing else on the line goes by that name."""
    return [end_name(network, key, "") for key in network.lines[line]].count(name) == 1


def _at(outcome: RouteOutcome) -> list[float]:
    """How far in each passage begins, m."""
    return [float(station.at.mean()) for station in outcome.march.stations]
