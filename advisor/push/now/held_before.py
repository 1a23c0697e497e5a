"""A head that is held where it was held before in its push: at the same place of the plan, most likely."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import TRY
from advisor.push.log.log import Entry
from advisor.push.now.course import Met


def held_before(
    entries: Sequence[Entry],
    rods: Sequence[float],
    last: int | None,
    spots: Sequence[tuple[Met, float]],
    near: float,
) -> Met | None:
    """The hard spot at which a stop was tried before the `last` one, within `near` m of it; None where there
    was none, or where the likeliest of the `spots` with their chances is another by now.

    `rods` are m out after each entry.
    """
    if last is None:
        return None
    tried = (
        entry.data.get("spot")
        for entry, rod in zip(entries[:last], rods[:last], strict=True)
        if entry.kind == TRY and abs(rod - rods[last]) <= near
    )
    best = max(spots, key=lambda each: each[1], default=None)
    return best[0] if best is not None and best[1] > 0 and best[0].name in set(tried) else None
