"""How deep a pit is taken to be: by the sheet, and by what was told of pits at large."""

from __future__ import annotations

from advisor.quantity import Stated
from advisor.site.pieces import OpeningEntry
from advisor.site.sheet import SiteSheet
from advisor.tables.load import Tables

_TOLD = ", as a pit here is, or may be, deeper than a chest"


def pit_depth(site: SiteSheet, tables: Tables, kind: str, given: Stated | None) -> tuple[Stated | None, str]:
    """The depth of an opening, and why it is not what the sheet has.

    Where a pit was told to be deep, or nobody in a session ruled it out, and none is drawn so, any whose
    depth nobody has seen may be the one: it is assumed to be so deep, and not what is usual.
    """
    deep = tables.limits["retrieval_depth"].likely
    taken = given is None or (given.assumed and given.likely < deep)
    if not (site.deep_pits and taken and tables.openings[kind].place == "pit") or _drawn(site, deep):
        return given, ""
    return Stated(deep, deep, deep, assumed=True), _TOLD


def _drawn(site: SiteSheet, deep: float) -> bool:
    """Whether the sheet has an opening that somebody saw to be as deep as was told."""
    drawn = (each for line in site.lines for each in line.pieces if isinstance(each, OpeningEntry))
    depths = (each.depth for each in drawn if each.depth is not None)
    return any(not each.assumed and each.high >= deep for each in depths)
