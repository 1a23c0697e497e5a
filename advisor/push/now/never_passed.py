"""Stops behind which the head never came: rod that went in is no proof that the pipe beyond was seen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from advisor.push.log.kinds import AS_PLANNED, PASSED, STOPPED, TRY, UNKNOWN
from advisor.push.log.went_in import lens_in
from advisor.push.now.seen import Run, stretch_of, way_in
from advisor.push.track.depth import path, path_length
from advisor.push.track.leg import NO_DISTANCE
from advisor.site.network import Network
from advisor.site.target import Target
from advisor.tables.load import Tables


@dataclass(frozen=True)
class NotPassed:
    """How far in from its opening a head was stopped and came no further, m."""

    opening: str
    inside: float


def never_passed(
    runs: Iterable[Run],
    network: Network,
    tables: Tables,
    target: Target,
    read: Callable[[Run], Mapping[str, float]],
) -> tuple[NotPassed, ...]:
    """The stops on the stretch that is to be seen, of pushes that nobody says saw all of it.

    A stop lies on it where it is no further in than the far end of it was read, else than the sheet lets
    that be: a length that is a guess may be longer. `read` as for what was seen.
    """
    runs = tuple(runs)
    longest = [_longest(run, network, tables, target, read(run)) for run in runs]
    if any((run.went_in or 0.0) > most > 0 for run, most in zip(runs, longest, strict=True)):
        return ()  # one push alone came through all of it
    found = []
    for place, run in enumerate(runs):
        inside = _stopped(run)
        if inside is None or inside > longest[place] or any(later.reached for later in runs[place:]):
            continue
        same = (each for each in runs if (each.opening, each.direction) == (run.opening, run.direction))
        if not any((each.went_in or 0.0) > inside + NO_DISTANCE for each in same):
            found.append(NotPassed(run.opening, inside))
    return tuple(dict.fromkeys(found))


def outrun(run: Run, runs: Iterable[Run]) -> bool:
    """Whether another came further in by the same opening and the same way, or saw all where this did not."""
    return any(
        (one.went_in or 0.0) > (run.went_in or 0.0) or (one.reached and not run.reached)
        for one in runs
        if (one.opening, one.direction) == (run.opening, run.direction) and run.direction != UNKNOWN
    )


def _stopped(run: Run) -> float | None:
    """How far in the lens was stopped last, m; nothing where it came past it or is told to have."""
    stopped: float | None = None
    lens = lens_in(run.entries)
    for entry in run.entries:
        if entry.kind == STOPPED and entry.counter is not None:
            stopped = lens.get(entry.number)
        elif entry.kind == TRY and entry.data.get("outcome") == PASSED:
            stopped = None
    if stopped is None or run.went_in is None or stopped < run.went_in - NO_DISTANCE:
        return None
    return max(stopped, 0.0)


def _longest(run: Run, network: Network, tables: Tables, target: Target, read: Mapping[str, float]) -> float:
    """How far in the far end of the stretch is at the most, m; 0 where the push cannot lead there."""
    start, most = way_in(run, network), 0.0
    tops = network.positions(target.line)
    for at in stretch_of(network, target):
        way = path(network, start.id, target.line, at) if start is not None else None
        length = path_length(network, tables, start, target.line, at) if start is not None else None
        if start is None or way is None or length is None:
            continue
        if run.direction == AS_PLANNED or way.leads(network, start, tables) in run.ports:
            guess = sum(piece.length.high - piece.along for piece, on in way.runs if on and piece.length)
            seen = (m for piece, m in read.items() if piece in tops and abs(tops[piece] - at) < NO_DISTANCE)
            most = max(most, next(seen, length + guess))
    return most
