"""The drain as understood, in plain text: line by line, what stands where, and what nobody has seen.

house drain, 4 in cast iron?
    0 ft   opening: floor cleanout? 55 % there
   12 ft?  main stack joins: combination or wye?
   30 ft?  end: public sewer
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain
from textwrap import wrap

from advisor.evidence import Grade
from advisor.quantity import Chances, Dimension, Known, Units, show
from advisor.site.network import Network, Piece, Wall
from advisor.site.pieces import BendEntry

_INDENT = 2
_LEGEND = "?: nobody has seen it. Distances count from the top of each line."
_Entries = list[tuple[str, ...]]  # of one line: its head and each thing on it, each as rows
_UPRIGHT = {"drop": "falls", "rise": "is pumped up", "belly": "sags over"}


def sketch(network: Network, units: Units, width: int, lines: Sequence[str] | None = None) -> tuple[str, ...]:
    """Rows of text no wider than `width`, of all lines or of these; `?` marks what nobody has seen."""
    drawn = _drawn(network, units, width)
    return _rows((each for name, each in drawn.items() if lines is None or name in lines), width)


def sketch_changes(before: Network, now: Network, units: Units, width: int) -> tuple[str, ...]:
    """The rows of the sketch that are others than before, below the head of their line; none where all is as
    it was."""
    was, drawn = _drawn(before, units, width), _drawn(now, units, width)
    found: list[_Entries] = [
        [tuple(wrap(f"{name}: not drawn any more", width))] for name in was if name not in drawn
    ]
    for name, entries in drawn.items():
        new = [each for each in entries if each not in was.get(name, ())]
        if new:
            found.append(new if new[0] == entries[0] else [entries[0], *new])
    return _rows(found, width) if found else ()


def _rows(lines: Iterable[_Entries], width: int) -> tuple[str, ...]:
    rows = [row for entries in lines for row in (*chain.from_iterable(entries), "")]
    return (*rows, *wrap(_LEGEND, width))


def _drawn(network: Network, units: Units, width: int) -> dict[str, _Entries]:
    found = {}
    for name, ids in network.lines.items():
        if is_arm(network, name):
            continue
        pieces = [network.pieces[key] for key in ids]
        pipe = _pipe(pieces[0].wall, units)
        called = f"{name}, {pipe}{_joins(network, name)}"
        entries = [tuple(wrap(called, width, subsequent_indent="  "))]
        at, sure = 0.0, True
        for piece in pieces:
            was, pipe = pipe, _pipe(piece.wall, units)
            for told in filter(None, (f"from here {pipe}" if pipe != was else "", _told(piece, units))):
                where = show(at, Dimension.LENGTH, units) if at else "0"
                where += "" if sure else "?"
                head = f"{where:>{_INDENT + 8}}  "
                entries.append(tuple(wrap(head + told, width, subsequent_indent=" " * len(head))))
            at += piece.along
            sure = sure and (piece.along == 0 or piece.length is None or _seen(piece))
        found[name] = entries
    return found


def _told(piece: Piece, units: Units) -> str:
    """One thing on a line; nothing for a plain pipe."""
    if piece.kind in ("opening", "cap"):
        there = (
            "" if piece.hole is None or piece.hole.there == 1 else f", {piece.hole.there:.0%} likely there"
        )
        if piece.hole is not None and piece.hole.there == 0:
            there = ", not there"
        opens = ", does not open" if piece.hole is not None and piece.hole.opens is False else ""
        water = f", water {piece.hole.water}" if piece.hole is not None and piece.hole.water else ""
        what = "opening" if piece.hole is not None else "no way in"
        return f"{what}: {piece.name}{there}{opens}{water}"
    if piece.kind == "junction":
        fitting = "" if piece.fitting is None else f", {_one_of(piece.fitting)}"
        return f"{piece.name} joins{fitting}"
    if piece.kind == "bend":
        return "bend" if piece.fitting is None else _one_of(piece.fitting)
    if piece.kind in _UPRIGHT:
        return f"{_UPRIGHT[piece.kind]} {show(piece.along, Dimension.LENGTH, units)}"
    if piece.absent:
        return f"no opening: {piece.name} is not there"
    if piece.kind == "mark":
        return "" if isinstance(piece.entry, BendEntry) else f"mark: {piece.name}"
    if piece.kind == "stopper":
        return f"in the way: {piece.name}"
    if piece.kind == "end":
        return f"end: {piece.name}"
    if piece.kind == "joint":
        return piece.name
    return ""  # a change of size is told by the pipe that follows


def _pipe(wall: Wall, units: Units) -> str:
    """What pipe it is, by size and material."""
    size = show(wall.nominal.value, Dimension.LENGTH, units) + _doubt(wall.nominal)
    return f"{size} {_one_of(wall.material)}"


def _one_of(chances: Chances) -> str:
    """The name, or the two likeliest with a question mark."""
    ranked = sorted(chances.options, key=lambda option: (-option[1], option[0]))
    names = " or ".join(name for name, _ in ranked[:2])
    return names if len(ranked) == 1 and chances.evidence.grade is Grade.TOLD else f"{names}?"


def _doubt(value: Known) -> str:
    return "" if value.evidence.grade is Grade.TOLD else "?"


def _seen(piece: Piece) -> bool:
    return piece.length is not None and piece.length.evidence.grade is Grade.TOLD


def is_arm(network: Network, line: str) -> bool:
    """A fixture's short arm is told where it joins."""
    return any(network.pieces[key].name == "trap arm" for key in network.lines[line])


def _joins(network: Network, line: str) -> str:
    link = network.links.get((network.lines[line][-1], "down"))
    return "" if link is None else f", joins {network.pieces[link[0]].line}"
