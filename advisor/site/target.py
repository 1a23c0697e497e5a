"""What is to be seen: the words of `look at` to a run of pieces on one line.

house drain                                      the whole line
house drain, from main stack to public sewer     a stretch
house drain, at 24 ft                            a point, from the upper end of the line
house drain, 12 ft below basement cleanout       a point
where laundry line joins                         a branch connection
yard cleanout                                    an opening, buried or not
suspect section                                  worked out from the complaint
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from advisor.errors import BadInput, QuantityError
from advisor.quantity import Dimension, parse
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest


@dataclass(frozen=True)
class Target:
    """Pieces `span` of `line`, upper end first; one piece is a point."""

    words: str
    kind: str  # point | stretch | line | connection | opening | suspect
    line: str
    span: tuple[str, ...]

    @property
    def is_point(self) -> bool:
        """True where only one place is to be seen."""
        return len(self.span) == 1


def target_of(sheet: Sheet[SiteSheet], network: Network) -> tuple[Network, Target | None]:
    """The network (with a mark where the target is a point) and the target.

    The target is None for `suspect section`, which `suspects` works out. Raises BadInput.
    """
    words = sheet.model.task.look_at
    if words.lower() == "suspect section":
        return network, None
    try:
        return _read(words, network)
    except (ValueError, QuantityError) as fault:
        raise BadInput([sheet.fault(f"look at: {fault}", "task", "look at")]) from None


def _read(words: str, network: Network) -> tuple[Network, Target]:
    joins = re.fullmatch(r"where (.+?) joins(?: .+)?", words)
    if joins:
        found = [piece for piece in network.pieces.values() if piece.branch == joins[1]]
        if not found:
            raise ValueError(f"no line is called {joins[1]!r}{nearest(joins[1], list(network.lines))}")
        return network, Target(words, "connection", found[0].line, (found[0].id,))
    head, comma, rest = (part.strip() for part in words.partition(","))
    if not comma:
        return network, _whole(words, head, network)
    if head not in network.lines:
        raise ValueError(f"no line is called {head!r}{nearest(head, list(network.lines))}")
    stretch = re.fullmatch(r"from (.+?) to (.+)", rest)
    if stretch:
        ids = list(network.lines[head])
        ends = sorted((ids.index(_on(head, stretch[1], network)), ids.index(_on(head, stretch[2], network))))
        return network, Target(words, "stretch", head, tuple(ids[ends[0] : ends[1] + 1]))
    at = re.fullmatch(r"at (.+)", rest)
    below = re.fullmatch(r"(.+?) below (.+)", rest)
    if at:
        distance = parse(at[1], Dimension.LENGTH)
    elif below:
        from_there = network.positions(head)[_on(head, below[2], network)]
        distance = from_there + parse(below[1], Dimension.LENGTH)
    else:
        raise ValueError(
            f"got {rest!r}; expected `from A to B`, `at 24 ft` or `12 ft below A` after the name of the line"
        )
    marked, mark = network.with_mark(head, distance, words)
    return marked, Target(words, "point", head, (mark,))


def _whole(words: str, name: str, network: Network) -> Target:
    if name in network.lines:
        return Target(words, "line", name, network.lines[name])
    for piece in network.pieces.values():
        if piece.hole is not None and piece.name == name:
            return Target(words, "opening", piece.line, (piece.id,))
    known = [*network.lines, *(piece.name for piece in network.openings())]
    raise ValueError(f"no line or opening is called {name!r}{nearest(name, known)}")


def _on(line: str, name: str, network: Network) -> str:
    """The piece of `line` that goes by `name`: an opening, a line that joins, a landmark or an end."""
    known: dict[str, str] = {}
    for piece_id in network.lines[line]:
        piece = network.pieces[piece_id]
        for each in (piece.landmark, piece.branch, piece.name):
            if each and piece.kind not in ("pipe", "drop", "belly", "rise"):
                known.setdefault(each, piece_id)
        if piece.landmark:
            known.setdefault(piece.landmark, piece_id)
    if name in ("the top", "upper end"):
        return network.lines[line][0]
    if name not in known:
        raise ValueError(f"nothing on {line} is called {name!r}{nearest(name, list(known))}")
    return known[name]
