"""What the rod runs through from the hand at an opening to the line that it opens."""

from __future__ import annotations

import numpy as np

from advisor.site.network import Piece
from advisor.site.pieces import OpeningEntry
from advisor.tables.load import Tables
from advisor.tables.openings import EntryStep
from advisor.tables.where import number
from advisor.worlds.draws import quantile


def entry_length(opening: Piece, port: str, tables: Tables) -> float:
    """From the hand to the line, m: the depth told, else the usual length of such an entry."""
    depth = _told(opening)
    return sum(number(step.length) for step in _steps(opening, port, tables)) if depth is None else depth


def entry_upright(opening: Piece, port: str, tables: Tables) -> float:
    """How much of that goes straight down, m: it leads nobody along the line.

    Where nobody measured it the middle case, as on the card: one riser is told with one length.
    """
    depth = _told(opening)
    middle = np.array([0.5], np.float32)
    upright = (
        float(quantile(middle, step.length)[0]) for step in _steps(opening, port, tables) if step.upright
    )
    return sum(upright) if depth is None else depth


def depth_told(opening: Piece) -> bool:
    """Whether somebody measured how far it is down to the line: not where the sheet only assumes it."""
    depth = opening.entry.depth if isinstance(opening.entry, OpeningEntry) else None
    return depth is not None and not depth.assumed


def _told(opening: Piece) -> float | None:
    assert opening.hole is not None
    return opening.hole.depth


def _steps(opening: Piece, port: str, tables: Tables) -> tuple[EntryStep, ...]:
    assert opening.hole is not None
    return tuple(step for step in tables.openings[opening.hole.kind].entry if step.to in ("both", port))
