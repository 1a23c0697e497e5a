"""What is to be seen: the words of `look at` to a run of pieces on one line.

house drain                                      the whole line
house drain, from main stack to public sewer     a stretch
house drain, from yard cleanout to 40 ft below yard cleanout     a stretch
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
from advisor.quantity import Dimension, Units, parse
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet, units_in
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest

SUSPECT = "suspect"  # worked out from the complaint
UNPOINTED = "unpointed"  # nobody has said what is to be seen, and nothing told points anywhere


@dataclass(frozen=True)
class Target:
    """Pieces `span` of `line`, upper end first; one piece is a point."""

    words: str
    kind: str  # point | stretch | line | connection | opening | SUSPECT | UNPOINTED
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
        return target_in(words, network)
    except (ValueError, QuantityError) as fault:
        raise BadInput([sheet.fault(f"look at: {fault}", "task", "look at")]) from None


def target_in(words: str, network: Network) -> tuple[Network, Target]:
    """The same of words alone; raises ValueError or QuantityError."""
    joins = re.fullmatch(r"where (.+?) joins(?: (.+))?", words)
    if joins:
        return network, _connection(words, joins[1], joins[2], network)
    # A name may hold a comma itself, so the lines are asked rather than the text cut.
    heads = [line for line in network.lines if words.startswith(f"{line},")]
    whole = words in network.lines or any(piece.name == words for piece in network.openings())
    if whole or not ("," in words or heads):
        return network, _whole(words, words, network)
    if not heads:
        head = words.partition(",")[0].strip()
        raise ValueError(f"no line is called {head!r}{nearest(head, list(network.lines))}")
    head = max(heads, key=len)
    rest = words[len(head) + 1 :].strip()
    stretch = re.fullmatch(r"from (.+?) to (.+)", rest)
    if stretch:
        return _stretch(words, head, (stretch[1], stretch[2]), network)
    units = units_in(network.region)
    at = re.fullmatch(r"at (.+)", rest)
    below = re.fullmatch(r"(.+?) below (.+)", rest)
    if at:
        distance = parse(at[1], Dimension.LENGTH, units)
    elif below:
        from_there = network.positions(head)[_on(head, below[2], network)]
        distance = from_there + parse(below[1], Dimension.LENGTH, units)
    else:
        one, other = ("24 ft", "12 ft") if units is Units.INCH else ("7 m", "4 m")
        raise ValueError(
            f"got {rest!r}; expected `from A to B`, `at {one}` or `{other} below A` behind the line's name"
        )
    marked, mark = network.with_mark(head, distance, words)
    return marked, Target(words, "point", head, (mark,))


def _stretch(words: str, line: str, ends: tuple[str, str], network: Network) -> tuple[Network, Target]:
    """Between two named pieces, or so far below one; such an end is marked."""
    found: list[str] = []
    for end in ends:
        try:
            found.append(_on(line, end, network))
        except ValueError:
            below = re.fullmatch(r"(.+?) below (.+)", end)
            if below is None or any(network.pieces[each].kind == "mark" for each in found):
                raise
            top = network.positions(line)[_on(line, below[2], network)]
            distance = top + parse(below[1], Dimension.LENGTH, units_in(network.region))
            network, mark = network.with_mark(line, distance, end)
            found.append(mark)
    ids = list(network.lines[line])
    first, last = sorted(ids.index(each) for each in found)
    return network, Target(words, "stretch", line, tuple(ids[first : last + 1]))


def _connection(words: str, name: str, other: str | None, network: Network) -> Target:
    """Where a line or a fixture's arm joins; a line that is tied at its upper end joins twice."""
    met = [p for p in network.pieces.values() if p.kind == "junction" and name in (p.branch, p.name)]
    if not met:
        known = [p.name for p in network.pieces.values() if p.kind == "junction"]
        raise ValueError(f"no line that joins is called {name!r}{nearest(name, known)}")
    found = [piece for piece in met if other in (None, piece.line)]
    if not found:
        raise ValueError(f"{name!r} does not join {other!r}; it joins {' and '.join(p.line for p in met)}")
    if len(found) > 1:
        lines = " or ".join(f"`where {name} joins {piece.line}`" for piece in found)
        raise ValueError(f"{name!r} joins in {len(found)} places; expected {lines}")
    return Target(words, "connection", found[0].line, (found[0].id,))


def _whole(words: str, name: str, network: Network) -> Target:
    if name in network.lines:
        return Target(words, "line", name, network.lines[name])
    found = [piece for piece in network.openings() if piece.name == name]
    if len(found) > 1:
        raise ValueError(f"{len(found)} openings are called {name!r}; expected a name of its own for each")
    if found:
        return Target(words, "opening", found[0].line, (found[0].id,))
    known = [*network.lines, *(piece.name for piece in network.openings())]
    raise ValueError(f"no line or opening is called {name!r}{nearest(name, known)}")


def _on(line: str, name: str, network: Network) -> str:
    """The piece of `line` that goes by `name`: an opening, a line that joins, a landmark or an end."""
    known: dict[str, list[str]] = {}
    for piece_id in network.lines[line]:
        piece = network.pieces[piece_id]
        names = {piece.landmark, piece.branch}
        if piece.kind not in ("pipe", "drop", "belly", "rise") or piece.name != piece.kind:
            names.add(piece.name)
        for each in sorted(filter(None, names)):
            known.setdefault(each, []).append(piece_id)
    if name in ("the top", "upper end", "the upper end"):  # the last as sections of a complaint are called
        return network.lines[line][0]
    if name in ("the bottom", "lower end", "the lower end"):
        return network.lines[line][-1]
    if name not in known:
        raise ValueError(f"nothing on {line} is called {name!r}{nearest(name, list(known))}")
    if len(known[name]) > 1:
        raise ValueError(
            f"{len(known[name])} pieces of {line} are called {name!r}; expected a `name` for each"
        )
    return known[name][0]
