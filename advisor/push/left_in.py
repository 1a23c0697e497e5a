"""Pushes whose head is still in the pipe, by what was told last: whoever opens or digs there must know."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.kinds import STOPPED, TRY
from advisor.push.log import Entry
from advisor.push.seen import Run
from advisor.push.sighting import comes_neither_way


def left_in(runs: Sequence[Run], cell: float) -> tuple[tuple[Run, Entry], ...]:
    """Each such push with the entry that tells where the head was held, or with its start where none does.

    Whoever says at the end that it stays in is believed; else it is the last push alone, that is told to come
    neither way: where another one began since, somebody had it out.
    """
    found = []
    for run in runs:
        out = None if run.ended is None else run.ended.data.get("out")
        stuck = run is runs[-1] and out is None and comes_neither_way(run.entries, cell)
        if out is False or stuck:
            held = [entry for entry in run.entries if entry.kind in (STOPPED, TRY)]
            found.append((run, held[-1] if held else run.started))
    return tuple(found)
