"""Where finding out sends somebody into a crawl space: to an opening in it, or to pipe that hangs there."""

from __future__ import annotations

from advisor.interview.subject import Subject
from advisor.site.network import Network, Piece
from advisor.site.pieces import OpeningEntry


def crawls_to(subject: Subject, network: Network) -> bool:
    """Whether somebody has to crawl to what is asked about.

    Pipe that an opening in a crawl space is drawn on hangs there, found or not, and so does what runs into
    it; what stands upright is seen from the rooms, the bend at its foot is not.
    """
    piece = subject.piece
    if piece is not None and piece.hole is not None:
        return piece.hole.crawl is True
    wall = subject.wall or (piece.wall if piece is not None else None)
    if wall is None or (piece is not None and piece.vertical and piece.kind != "bend"):
        return False
    hung = {each.wall.id for each in network.pieces.values() if _in_crawl_space(each)}
    lines: set[str] = set()
    while True:
        into = {
            each.branch
            for each in network.pieces.values()
            if each.branch is not None and (each.wall.id in hung or each.line in lines)
        }
        if into <= lines:
            return wall.id in hung or subject.line in lines
        lines |= into


def _in_crawl_space(piece: Piece) -> bool:
    """True of an opening that is drawn in one, be it there or not."""
    return isinstance(piece.entry, OpeningEntry) and piece.entry.crawl is True
