"""The chance that an opening opens without damage, where nobody has told whether it does."""

from __future__ import annotations

from advisor.quantity import Estimate, Known
from advisor.site.network import Hole
from advisor.tables.load import Tables


def opens_share(hole: Hole, tables: Tables) -> Known | Estimate:
    """That of its kind; of one that was opened before only some of those that would not open still do not."""
    share = tables.openings[hole.kind].opens_share
    if not hole.opened:
        return share
    seized = tables.limits["seized_again"]
    pairs = ((share.low, seized.high), (share.likely, seized.likely), (share.high, seized.low))
    low, likely, high = (1 - (1 - opens) * again for opens, again in pairs)
    return Estimate(low, likely, high, share.evidence)
