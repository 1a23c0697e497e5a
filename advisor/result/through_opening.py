"""Where a way comes to what a push met that began at an opening on it: by the pipe that begins there.

That pipe is one, whatever the sheet calls it: nothing need be recognized in it, as far as nothing joins it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from advisor.outcome.assess import RouteOutcome
from advisor.site.mouths import line_by, port_of, up_mouths
from advisor.site.network import Network
from advisor.tables.load import Tables
from advisor.worlds.spread import middle

Leads = Mapping[tuple[str, str, str], float]  # of an opening, the port and the line of a mouth: rod to it, m


def leads_of(outcomes: Iterable[RouteOutcome], tables: Tables) -> Leads:
    """How much rod each opening takes before its pipe begins, m: what is counted there from hand to line."""
    found: dict[tuple[str, str, str], float] = {}
    for each in outcomes:
        passages = each.route.passages
        key = (each.route.opening.name, port_of(passages, tables), line_by(passages, tables))
        past = (i for i, passage in enumerate(passages) if passage.enters != "hole")
        first = next(past, None)
        if first is not None:
            found.setdefault(key, middle(each.march.stations[first].at))
    return found


def comes_through(
    opening: str,
    ports: tuple[str, ...],
    mouth: str | None,
    outcome: RouteOutcome,
    network: Network,
    tables: Tables,
    leads: Leads,
) -> tuple[float, float] | None:
    """How far in on that way the reading 0 of a push is that began at the opening and went so, and how far
    in, m, something joins behind it, so that the two may part; None where it does not surely go through there
    the same way."""
    passages = outcome.route.passages
    place = next(
        (
            i
            for i, each in enumerate(passages)
            if each.piece.name == opening and each.enters in ("up", "down")
        ),
        None,
    )
    if place is None or not passages[place].leaves or len(ports) != 1:
        return None
    on = passages[place:]
    port, line = port_of(on, tables), line_by(on, tables)
    if mouth is None and port == "up" and len(up_mouths(network, on[0].piece, tables)) > 1:
        return None  # nobody knows into which of them that push went
    lead = leads.get((opening, port, line))
    if port not in ports or mouth not in (None, line) or lead is None:
        return None
    start = middle(outcome.march.stations[place].at)
    parts = (
        at
        for each, station in zip(on, outcome.march.stations[place:], strict=True)
        if each.piece.kind == "junction" and each.enters == "down" and (at := middle(station.at)) > start
    )
    return start - lead, next(parts, float("inf"))
