"""What to say and do where water came as it cannot by where the head is said to be."""

from __future__ import annotations

from advisor.push.now import Now
from advisor.push.sighting import AHEAD


def contrary_words(now: Now) -> tuple[str, ...] | None:
    """What does not agree, what settles it, and what not to do until then; None where all agrees.

    Nobody is told to run what may come up indoors.
    """
    against = now.contrary
    if against is None:
        return None
    row, water = now.push.study.tables.where.contrary, against.water
    name = f"{'Dye' if water.dye else 'Water'} of the {water.fixture}"
    if against.passes:
        side, there = ("from ahead", "behind") if water.side == AHEAD else ("from behind", "ahead of")
        says = row.side.format(water=name, side=side, there=there)
    else:
        says = row.path.format(water=name)
    may_run = now.water_allowed and water.fixture not in now.not_to_run
    return says, *((row.again,) if may_run else ()), row.look, row.until
