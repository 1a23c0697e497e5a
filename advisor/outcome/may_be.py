"""What a pipe may well be made of, and the pipes of a drain that for it bear no jet and no cutter."""

from __future__ import annotations

from advisor.site.network import Network, Piece, Wall
from advisor.tables.load import Tables


def may_be(wall: Wall, tables: Tables) -> list[str]:
    """The materials that a pipe may well be of, likeliest first."""
    shares = sorted(wall.material.options, key=lambda each: -each[1])
    return [name for name, share in shares if share >= tables.limits["notable_share"].likely]


def no_tool_in(network: Network, tables: Tables, full: Piece | None = None) -> str | None:
    """The lines with such a pipe, each with what it is or may be; None where there is none.

    Where water stands in the lowest opening, `full`, the line is cleared from there down: what lies above it
    comes after what lies in the way, and is told to lie there.

    What may not be forced tears, or frees its fibres, under a jet or a cutter as it does under a push.
    """
    found: dict[str, None] = {}
    below = set(network.pieces if full is None else network.downstream(full.id))
    for piece in sorted(network.pieces.values(), key=lambda each: each.id not in below):
        for name in may_be(piece.wall, tables):
            if tables.materials[name].fragile:
                sure = len(piece.wall.material.options) == 1
                above = f", above {full.name}" if full is not None and piece.id not in below else ""
                found[f"{piece.line} ({name if sure else f'may be {name}'}{above})"] = None
    return ", ".join(found) or None
