"""What a way ends at: its name, and how the pipe goes on there, if it does."""

from __future__ import annotations

from advisor.result.study import Study
from advisor.routes.passage import STRAIGHT, Passage
from advisor.site.mouths import has_channel, surely_in_chamber
from advisor.site.network import Network
from advisor.tables.card import END_IN_CHAMBER, END_IN_MAIN, END_ON_LINE


def end_name(passage: Passage, study: Study) -> str:
    """What it is called; of a plain pipe what comes behind it, for "pipe" is nothing to be seen."""
    piece, enters = passage.piece, passage.enters
    if piece.kind == "mark":
        return piece.name
    if passage.leaves and piece.kind in STRAIGHT and not piece.landmark:
        link = study.network.links.get((piece.id, passage.leaves))
        if link is None:
            return f"the end of {piece.line}"
        piece, enters = study.network.pieces[link[0]], link[1]
    if piece.kind == "junction":
        into = enters == "branch"
        return f"where {passage.piece.line} joins {piece.line}" if into else f"where {piece.name} joins"
    return study.reader.call(piece.landmark or piece.name)


def goes_on(passage: Passage, study: Study) -> str:
    """How the pipe goes on where a way ends, as the card's words call it; empty where a head comes to a stop.

    In the open channel of a chamber, in a main that it comes into, past a pipe that joins.
    """
    network, piece, enters = study.network, passage.piece, passage.enters
    if passage.leaves and piece.kind in (*STRAIGHT, "mark"):
        link = network.links.get((piece.id, passage.leaves))
        if link is None:
            return ""
        piece, enters = network.pieces[link[0]], link[1]
    if has_channel(piece, study.tables):
        beyond = {"up": "down", "down": "up"}.get(enters)
        return END_IN_CHAMBER if beyond is None or (piece.id, beyond) in network.links else ""
    if piece.kind != "junction":
        return ""
    if piece.fitting is not None and surely_in_chamber(piece, study.tables):
        return END_IN_CHAMBER
    return END_IN_MAIN if enters == "branch" else END_ON_LINE


def unmarked(end: Passage, network: Network) -> bool:
    """Whether a way ends in the midst of a pipe, at a reading alone."""
    link = network.links.get((end.piece.id, end.leaves)) if end.leaves else None
    if link is None:
        return False
    plain = [each for each in (end.piece, network.pieces[link[0]]) if each.kind in ("pipe", "mark")]
    return len(plain) == 2 and not any(each.landmark for each in plain)
