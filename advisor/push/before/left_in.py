"""Pushes whose head is still in the pipe, by what was told last: whoever opens or digs there must know."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import HAD_OUT
from advisor.push.log.log import Entry
from advisor.push.log.sighting import comes_neither_way, sighting_of
from advisor.push.now.seen import Run

_SAME = 0.005  # m; layout: half of the last digit that a counter is told with, so both would read alike


def left_in(runs: Sequence[Run]) -> tuple[tuple[Run, Entry], ...]:
    """Each such push with the entry that tells where the head was last; its start where none does.

    Whoever says at the end that it stays in is believed, till it is said to be out since; else it is the last
    push alone, that is told to come neither way: where another one began since, somebody had it out.
    """
    found = []
    for run in runs:
        out = None if run.ended is None else run.ended.data.get("out")
        stuck = run is runs[-1] and out is None and comes_neither_way(run.entries)
        since = any(entry.kind == HAD_OUT for entry in run.entries)
        if (out is False or stuck) and not since:
            found.append((run, _last_told(run)))
    return tuple(found)


def _last_told(run: Run) -> Entry:
    """Where the end says that it stays; as what was told before it where it is that reading, of which more
    may be known: that the counter ran on while the picture stood."""
    told = [entry for entry in run.entries if sighting_of(entry) is not None and entry.counter is not None]
    last = told[-1] if told else run.started
    end = run.ended
    if end is None or end.counter is None or abs(end.counter - (last.counter or 0.0)) < _SAME:
        return last
    return end
