"""Whether water that was run ran away after what was told of a place was cut or cleaned.

That a machine came past it shows no drain: what it cut or pushed on may hold further down.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from advisor.push.log.cleared import cleared_at
from advisor.push.log.kinds import WATER
from advisor.push.log.log import Entry
from advisor.push.now.backs_up import ran_away
from advisor.tables.where import WhereFile


def ran_since_cleared(
    told: Sequence[Entry], place: int, where: WhereFile, above: Collection[str] | None = None
) -> bool:
    """`place` is where among the entries that was told; water of a fixture counts only if it is one of those
    `above` it, where these are known."""
    at = cleared_at(told, place, where)
    since = () if at is None else told[at + 1 :]
    return any(
        ran_away(entry)
        for entry in since
        if entry.kind != WATER or above is None or entry.data.get("fixture") in above
    )
