"""Whether the end of what was to be seen came into view: the far one, where a push comes in proves none."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from advisor.push.now.seen import Coverage, Run, way_in
from advisor.push.track.depth import path
from advisor.push.track.leg import NO_DISTANCE
from advisor.result.study import Study

_PLAIN = ("pipe", "belly", "drop", "rise", "joint", "mark")  # kinds of pieces by which no lens knows a place


def end_seen(runs: Sequence[Run], seen: Iterable[tuple[Run, float]], cover: Coverage, study: Study) -> bool:
    """It, by the ends that each push surely `seen`, m down the line.

    That of one push will do; so will all of them together, each from its own side. Where nothing stands at
    the far end that a lens could know, the other end and the counter tell it.
    """
    by_run: dict[int, set[float]] = {}
    for run, at in seen:
        by_run.setdefault(run.started.number, set()).add(at)
    all_seen = set().union(*by_run.values())
    far = {run.started.number: _far_ends(run, cover, study) for run in runs}
    if not any(far.values()):
        return bool(all_seen)
    each = any(ends and ends <= by_run.get(number, set()) for number, ends in far.items())
    return each or set().union(*far.values()) <= all_seen


def _far_ends(run: Run, cover: Coverage, study: Study) -> set[float]:
    """The end that each way out of its opening comes to last, m down the line."""
    network, start = study.network, way_in(run, study.network)
    found: dict[str, tuple[float, float]] = {}
    for at in (cover.low, cover.high) if start is not None else ():
        assert start is not None
        way = path(network, start.id, cover.line, at)
        if way is None or way.length < NO_DISTANCE:
            continue
        port = way.leads(network, start, study.tables)
        if run.told_to(port) or port in run.ports:
            found[port] = max(found.get(port, (0.0, at)), (way.length, at))
    return {at for _, at in found.values() if _is_known_by(at, cover.line, study)}


def _is_known_by(at: float, line: str, study: Study) -> bool:
    """Whether something stands there that a lens knows again."""
    network, near = study.network, study.drawn.likely("same_place")
    tops = network.positions(line)
    here = (network.pieces[each] for each, top in tops.items() if abs(top - at) < near)
    return any(piece.kind not in _PLAIN for piece in here)
