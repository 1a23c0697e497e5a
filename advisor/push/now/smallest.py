"""Which fixture is run first on a line that may back up: the smallest flow, that is stopped at once."""

from __future__ import annotations

from collections.abc import Mapping

from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.tables.load import Tables


def smallest_first(fixtures: Mapping[str, str], network: Network, tables: Tables) -> dict[str, int]:
    """The fixtures, named with their pieces, in that order: what is of no known kind comes before what a
    pump empties, for that cannot be stopped; those of one kind stand as they did."""
    row = tables.in_pipe.drained_before
    order = (*row.smallest_first, "", *row.pumped)
    place = {name: order.index(_kind(network.pieces[at], tables, order)) for name, at in fixtures.items()}
    return {name: rank for rank, name in enumerate(sorted(fixtures, key=lambda each: place[each]))}


def _kind(piece: Piece, tables: Tables, known: tuple[str, ...]) -> str:
    """The kind of fixture that stands there, if it is one of those; else nothing."""
    hole = piece.hole
    kind = hole.fixture if hole is not None else None
    if kind is None and isinstance(piece.entry, FixtureEntry):
        kind = fixture_kind(piece.entry, tables)
    kind = kind or ("toilet" if hole is not None and hole.toilet else "")
    return kind if kind in known else ""
