"""What a pipe may well be made of, and the pipes of a drain that for it bear no jet and no cutter."""

from __future__ import annotations

from advisor.site.network import Network, Wall
from advisor.tables.load import Tables


def may_be(wall: Wall, tables: Tables) -> list[str]:
    """The materials that a pipe may well be of, likeliest first."""
    shares = sorted(wall.material.options, key=lambda each: -each[1])
    return [name for name, share in shares if share >= tables.limits["notable_share"].likely]


def no_tool_in(network: Network, tables: Tables) -> str | None:
    """The lines with such a pipe, each with what it is or may be; None where there is none.

    What may not be forced tears, or frees its fibres, under a jet or a cutter as it does under a push.
    """
    found: dict[str, None] = {}
    for piece in network.pieces.values():
        for name in may_be(piece.wall, tables):
            if tables.materials[name].fragile:
                sure = len(piece.wall.material.options) == 1
                found[f"{piece.line} ({name if sure else f'may be {name}'})"] = None
    return ", ".join(found) or None
