"""What the rod runs through from the hand at an opening to the line that it opens.

One way of counting for plan, card, push and report: the middle case of every step. How far down the line a
place is, and how far along it to stand above ground, are both the counter less this.
"""

from __future__ import annotations

import numpy as np

from advisor.evidence import ASSUMED
from advisor.quantity import Estimate, Known
from advisor.quantity.belief import belief_of
from advisor.routes.passage import Passage
from advisor.site.network import Piece
from advisor.site.pieces import OpeningEntry
from advisor.tables.load import Tables
from advisor.tables.openings import EntryStep
from advisor.worlds.draws import quantile


def entry_length(opening: Piece, port: str, tables: Tables) -> float:
    """From the hand to the line, m: the depth told, else the middle case of such an entry."""
    depth = _told(opening)
    return sum(_middle(step.length) for step in _steps(opening, port, tables)) if depth is None else depth


def entry_upright(opening: Piece, port: str, tables: Tables) -> float:
    """How much of that leads nobody along the line, m: all of it where it goes down.

    A depth that was told reaches to the line, with the throat in it; so does one that is only usual. What
    enters level has no upright part.
    """
    down = _told(opening) is not None or any(step.upright for step in _steps(opening, port, tables))
    return entry_length(opening, port, tables) if down else 0.0


def step_length(passage: Passage, tables: Tables) -> Known | Estimate:
    """How long a step of an entry is: a riser whose depth was told leads down to the throat behind it."""
    step, opening, told = passage.step, passage.piece, _told(passage.piece)
    assert step is not None
    if told is None or not step.upright:
        return step.length
    steps = _steps(opening, passage.leaves, tables)
    rest = sum(_middle(each.length) for each in steps if not each.upright)
    stated = opening.entry.depth if isinstance(opening.entry, OpeningEntry) else None
    if stated is None or stated.likely != told:
        # A pit that counts as deep until it is measured: as likely less, down to what the sheet or such an
        # entry has, as more. So its middle is the depth that push, card and report count with.
        least = min(step.length.low + rest if stated is None else stated.low, told)
        depth: Known | Estimate = Estimate(least, told, 2 * told - least, ASSUMED)
    else:
        depth = belief_of(stated, tables.limits["rough_share"].likely)
    low, likely, high = (max(each - rest, 0.0) for each in (depth.low, depth.likely, depth.high))
    return Known(likely, depth.evidence) if low == high else Estimate(low, likely, high, depth.evidence)


def step_least(passage: Passage, tables: Tables) -> float:
    """How long a step is at the least, m: by the depth only where somebody measured that."""
    assert passage.step is not None
    low = step_length(passage, tables).low
    return low if depth_told(passage.piece) else min(low, passage.step.length.low)


def depth_told(opening: Piece) -> bool:
    """Whether somebody measured how far it is down to the line: not where the sheet only assumes it."""
    depth = opening.entry.depth if isinstance(opening.entry, OpeningEntry) else None
    return depth is not None and not depth.assumed


def _told(opening: Piece) -> float | None:
    assert opening.hole is not None
    return opening.hole.depth


def _middle(length: Known | Estimate) -> float:
    return float(quantile(np.array([0.5], np.float32), length)[0])


def _steps(opening: Piece, port: str, tables: Tables) -> tuple[EntryStep, ...]:
    assert opening.hole is not None
    return tuple(step for step in tables.openings[opening.hole.kind].entry if step.to in ("both", port))
