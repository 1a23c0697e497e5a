"""Stretches of lines at which pushes have looked, and what that says of a section."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from advisor.site.network import Network
from advisor.tables.load import Tables
from advisor.tables.where import number

_ALL = 0.995  # layout: it would be told as 100 %


@dataclass(frozen=True)
class LookedAt:
    """A stretch of a line, in m down it; where on the line something was met that may hide or be the trouble,
    and where something was that is some."""

    line: str
    low: float
    high: float
    met: tuple[float, ...] = ()
    found: tuple[float, ...] = ()


def what_looks_say(
    network: Network, span: tuple[str, ...], looked: Iterable[LookedAt], tables: Tables
) -> tuple[float, str]:
    """How much likelier what was seen and not seen is with the trouble in that section than elsewhere, and
    that in words; 1 and none where nobody looked."""
    line, tops = network.pieces[span[0]].line, network.positions(network.pieces[span[0]].line)
    low, high = tops[span[0]], tops[span[-1]] + network.pieces[span[-1]].along
    here = [each for each in looked if each.line == line]
    near = number(tables.where.sure.near)

    def lie_in_it(places: Iterable[float]) -> bool:
        return any(low - near <= at <= high + near for at in places)

    if any(lie_in_it(each.found) for each in here):
        there, beside = (tables.signs[f"something found, {where}"].likely for where in ("there", "not there"))
        return there / beside, "a push found something in it"
    if any(lie_in_it(each.met) for each in here) or high <= low:
        return 1.0, ""
    seen, at = 0.0, low
    for each in sorted(here, key=lambda each: each.low):
        seen += max(min(each.high, high) - max(each.low, at), 0.0)
        at = max(at, min(each.high, high))
    share = seen / (high - low)
    missed = 1 - share * (1 - tables.signs["nothing found, there"].likely)
    how_much = "all" if share > _ALL else f"{share:.0%}"
    return missed, f"a push looked at {how_much} of it and met nothing" if share else ""
