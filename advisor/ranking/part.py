"""The part of a stretch that one push shows, where no opening is worth its minutes for all of it.

A cleanout often stands inside the stretch that is to be seen: it shows one side of itself, and what cannot be
reached for the rest does not make that view worth nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.ranking.score import minutes_with
from advisor.site.network import BELOW_MARK, Network
from advisor.site.suspects import Suspect, end_name
from advisor.site.target import Target
from advisor.tables.load import Tables
from advisor.worlds.draws import Array

_Span = tuple[str, ...]


@dataclass(frozen=True)
class Rest:
    """A part that one push shows: what it is called, from where, its share, and the chance of that push."""

    words: str
    opening: str
    covers: float
    chance: float
    span: _Span


@dataclass(frozen=True)
class Part:
    """What is looked at instead of the whole; shares are 0 to 1.

    `covers` is its share of the whole's length, `trouble` the chance that the trouble lies in it if it lies
    in the whole, by where the complaint points; without a complaint the share of the length. `minutes` is
    what it comes to with the cost of failing, `rest` what other pushes show, `own` it as another's rest.
    """

    target: Target
    of: Target
    covers: float
    trouble: float
    minutes: float
    rest: tuple[Rest, ...]
    own: Rest | None = None


def part_worth(
    outcomes: Sequence[RouteOutcome],
    target: Target,
    suspected: Sequence[Suspect],
    network: Network,
    tables: Tables,
) -> Part | None:
    """The part whose push saves most against leaving it, or None where none saves anything.

    A push that shows a part ends the job only where the trouble lies in that part, so its chance counts by
    as much as the part may hold of it.
    """
    failing, least = tables.costs["failing"].likely, tables.limits["least_chance"].likely
    found: dict[_Span, tuple[float, RouteOutcome]] = {}
    for outcome in outcomes:
        if outcome.route.covers >= 1 or outcome.part_chance < least:
            continue
        span = _seen_of(outcome, target)
        shown = ends_job(outcome, target, target, suspected, network)
        cost = float(minutes_with(outcome, shown, tables).mean())
        if span not in found or cost < found[span][0]:
            found[span] = (cost, outcome)
    if not found:
        return None
    best = min(found, key=lambda span: (found[span][0], span))
    if found[best][0] >= failing:
        return None
    parts = [
        Rest(
            _words(span, target, network),
            outcome.route.opening.name,
            outcome.route.covers,
            outcome.part_chance,
            span,
        )
        for span, (_, outcome) in sorted(found.items(), key=lambda item: item[1][0])
    ]
    own = next(each for each in parts if each.span == best)
    return Part(
        Target(own.words, "stretch", target.line, best),
        target,
        own.covers,
        _trouble_in(best, target, suspected, network),
        found[best][0],
        tuple(each for each in parts if _apart(each.span, best, network)),
        own,
    )


def reach_part(
    outcomes: Sequence[RouteOutcome],
    target: Target,
    whole: Target,
    suspected: Sequence[Suspect],
    network: Network,
    tables: Tables,
    section: Part | None = None,
) -> Part | None:
    """What lies within the rod's reach as a part of the `whole`, in the network in which its end is marked;
    None where no push for it saves anything, or none as much as that for the `section` which is worth one."""
    ids = network.lines[whole.line]
    last = next(key for key in (f"{whole.span[-1]}{BELOW_MARK}", whole.span[-1]) if key in ids)
    of = replace(whole, span=ids[ids.index(whole.span[0]) : ids.index(last) + 1])
    held = _trouble_in(target.span, of, suspected, network)
    failing, least = tables.costs["failing"].likely, tables.limits["least_chance"].likely
    costs = (
        float(minutes_with(each, np.asarray(each.walk.arrived * held, np.float32), tables).mean())
        for each in outcomes
        if each.chance >= least
    )
    cost = min(costs, default=failing)
    if cost >= (failing if section is None else section.minutes):
        return None
    shown = () if section is None or section.own is None else (section.own, *section.rest)
    rest = tuple(each for each in shown if _apart(each.span, target.span, network))
    return Part(target, of, _length(target.span, network) / _length(of.span, network), held, cost, rest)


def ends_job(
    outcome: RouteOutcome, target: Target, wanted: Target, suspected: Sequence[Suspect], network: Network
) -> Array:
    """The chance, float32[N], that what a push towards `target` shows of it holds the trouble in `wanted`."""
    held = _trouble_in(_seen_of(outcome, target), wanted, suspected, network)
    return np.asarray(outcome.walk.arrived * held, np.float32)


def _seen_of(outcome: RouteOutcome, target: Target) -> _Span:
    """The run of the target that a route passes, upper end first."""
    passed = {passage.piece.id for passage in outcome.route.passages[outcome.route.target_from :]}
    return tuple(key for key in target.span if key in passed)


def _trouble_in(span: _Span, target: Target, suspected: Sequence[Suspect], network: Network) -> float:
    """The chance that the trouble lies in `span` if it lies in the target."""
    inside, within = (points_at(each, suspected, network) for each in (target.span, span))
    if inside <= 0:
        return _length(span, network) / (_length(target.span, network) or 1.0)
    return within / inside


def points_at(span: _Span, suspected: Sequence[Suspect], network: Network) -> float:
    """The chance that the complaint gives a run: as far as a section is known to hold the trouble, every
    metre of it is as likely."""
    return sum(
        each.share * _length({*span} & {*each.span}, network) / (_length(each.span, network) or 1.0)
        for each in suspected
    )


def _apart(one: _Span, other: _Span, network: Network) -> bool:
    """Whether two runs share no pipe; both parts of one in which a mark was set are that pipe."""
    pipes, others = (
        {key.removesuffix(BELOW_MARK) for key in span if network.pieces[key].along > 0}
        for span in (one, other)
    )
    return pipes.isdisjoint(others)


def _length(keys: Sequence[str] | set[str], network: Network) -> float:
    return sum(network.pieces[key].along for key in keys)


def _words(span: _Span, target: Target, network: Network) -> str:
    """As `look at` takes it."""
    upper = end_name(network, span[0], "the top")
    return f"{target.line}, from {upper} to {end_name(network, span[-1], 'the bottom')}"
