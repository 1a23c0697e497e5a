"""What may first hold or hurt the head straight on behind the end of a way, for whoever misses the end."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.result.beyond import least, length_along, straight_behind, way_leasts
from advisor.result.study import Study
from advisor.result.way_model import BehindNote
from advisor.routes.passage import JOINTED
from advisor.site.network import Piece
from advisor.tables.conditions import ROOTS

_UPRIGHT = ("drop", "rise")


def behind_end(outcome: RouteOutcome, study: Study) -> tuple[BehindNote, ...]:
    """All that may come at the first reading at which something may, by the least lengths of the sheet; then
    the first roots, where they come later.

    What is drawn there as a mark, as a wall, is told with it: by that the place is known.
    """
    if outcome.route.passages[-1].piece.kind == "end":
        return ()
    at = sum(way_leasts(outcome, study.tables))
    found: dict[float, list[str]] = {}
    marks: list[str] = []
    for piece, enters in straight_behind(outcome, study):
        if piece.kind == "mark":
            marks.append(piece.landmark or piece.name)
        elif name := _may_hurt(piece, enters, study):
            found.setdefault(at, marks).append(name)
        if length := least(length_along(piece)):
            at, marks = at + length, []
    rooted = [each for each, names in found.items() if ROOTS in names]
    first = sorted({*[*found][:1], *rooted[:1]})
    return tuple(BehindNote(names=tuple(dict.fromkeys(found[each])), at_low_m=each) for each in first)


def _may_hurt(piece: Piece, enters: str, study: Study) -> str:
    call = study.reader.call
    if piece.kind == "junction":  # straight on along the main nothing is in the way
        return f"turn into {piece.line}" if enters == "branch" else ""
    if piece.kind in ("bend", "stopper", "end"):
        return call(piece.holds or (piece.fitting.likeliest if piece.fitting else piece.name))
    if piece.kind in ("reducer", "joint"):
        return call(piece.name)
    roots = sum(share for name, share in piece.wall.condition.options if name == ROOTS)
    if piece.kind in JOINTED and roots >= study.drawn.likely("notable_share"):
        return ROOTS
    return "upright pipe" if piece.kind in _UPRIGHT else ""
