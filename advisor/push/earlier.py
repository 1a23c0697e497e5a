"""The pushes of a job before this one that went in as it does: what stopped them lies ahead of it."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.kinds import AS_PLANNED, HAD_OUT, SHUT, START, UNKNOWN
from advisor.push.log import Entry
from advisor.push.now import Now
from advisor.push.one_push import Push

_OPEN = (UNKNOWN, AS_PLANNED)  # which way was meant is not told: it may be the same


def earlier(push: Push, standing: Sequence[Entry]) -> tuple[Now, ...]:
    """Those from its opening that were not told to go the other way, each as it ended, the first first."""
    runs: list[list[Entry]] = []
    for entry in standing:
        if entry == push.began:
            break
        if entry.kind == START:
            runs.append([entry])
        elif runs and entry.kind not in (SHUT, HAD_OUT):
            runs[-1].append(entry)
    return tuple(Now(push.begun(run[0]), tuple(run[1:])) for run in runs if _same_way(push, run[0]))


def _same_way(push: Push, start: Entry) -> bool:
    ways = {push.direction, str(start.data.get("direction") or UNKNOWN)}
    return start.data["opening"] == push.opening.name and (len(ways) == 1 or not ways.isdisjoint(_OPEN))
