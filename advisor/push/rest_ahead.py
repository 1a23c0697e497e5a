"""What is to be seen past the end of the part that a plan goes for, where the pipe goes on there."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.push.before.limit import limit_of
from advisor.push.now.now import Now
from advisor.push.now.seen import stretch_of
from advisor.result.study import Study
from advisor.site.network import Piece
from advisor.worlds.spread import middle


def goes_on(end: Piece) -> bool:
    """Whether the pipe goes on past what a way ends at: past a tie-in, or a place where nothing is."""
    return end.kind == "junction" or unmarked(end)


def unmarked(end: Piece) -> bool:
    """Whether nothing in the pipe shows that the head is there: a length, a wall above, a lost plug."""
    return end.kind == "mark"


def rest_ahead(made: Study, now: Now, outcome: RouteOutcome) -> float | None:
    """How far in the rest may be looked at in this push, m; None where none lies on past that end.

    No further than the push lasts by the plan, nor than where something that must not be passed may begin.
    """
    end = outcome.route.passages[-1]
    if made.part is None or not goes_on(end.piece) or end.piece.line != made.wanted.line:
        return None
    own = made.network.positions(made.wanted.line)[end.piece.id]
    first, last = stretch_of(made.network, made.wanted)
    ahead = last - own if end.enters == "up" else own - first
    stop, until = limit_of(now).stop, middle(outcome.march.reach)
    if stop is not None:
        until = min(until, stop.low - now.counted(0.0))
    return until if ahead > now.push.tracker.chart.cell and until > now.belief.rod else None
