"""In which run of a drain roots are to be expected, before any way in is looked at."""

from __future__ import annotations

from collections import defaultdict

from advisor.routes.passage import JOINTED
from advisor.site.network import Network, Piece
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables


def likeliest_run(network: Network, tables: Tables) -> str | None:
    """The stretch of one pipe with the most joints that may have roots, in words; None where none may."""
    joints: dict[str, float] = defaultdict(float)
    words: dict[str, str] = {}
    for line, keys in network.lines.items():
        since = ""
        for key in keys:
            piece = network.pieces[key]
            wall = piece.wall
            material = wall.material.likeliest
            # A run is told by what was last named before it; without that it is the whole line from its top.
            below = f" below {since}" if since else ""
            words.setdefault(wall.id, f"{line}{below} ({material})")
            if piece.kind in JOINTED:
                chance = sum(share for name, share in wall.condition.options if name == ROOTS)
                joints[wall.id] += chance * piece.along / tables.joint_length(material).likely
            since = _named(piece) or since
    most = max(joints, key=lambda wall: joints[wall], default="")
    return words[most] if joints.get(most) else None


def _named(piece: Piece) -> str:
    return piece.landmark or (piece.name if piece.kind in ("opening", "junction", "stopper") else "")
