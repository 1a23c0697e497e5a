"""What a head must not go past, on its way or straight on: a trap, valve or tank, or the end of the drain."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import shorten

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.result.model import RouteNote, SightNote
from advisor.result.study import Study
from advisor.result.way_model import FoundNote, NotPastNote
from advisor.site.network import Piece
from advisor.worlds.draws import Array

NOT_PAST = ("stop", "drain end")  # what such a thing is called among the sights
_NAME = 40  # layout: letters of what was seen, among the numbers of a card; its own row tells all of it
_WORTH_TELLING = 0.3  # m; layout: about the length of a head with its spring
# A head that is pushed on keeps to the straight pipe, and out of a branch it mostly goes down with the water.
_STRAIGHT_ON = {"up": "down", "down": "up", "branch": "down"}


def holds(piece: Piece, study: Study) -> str | None:
    """The kind of trap, valve or tank that a piece is, also where a line is told to end in one."""
    return piece.stopper or (piece.name if piece.name in study.tables.stoppers else None)


def limit_of(route: RouteNote) -> NotPastNote | None:
    """What the head may come to before the far end or at it: how far to push is then where it may begin."""
    note = route.not_past
    return note if note is not None and note.at_low_m <= route.length_m else None


def ended_by(way: RouteNote, found: Sequence[FoundNote]) -> RouteNote:
    """The way no further than the first of what pushes saw on it that no head goes past."""
    bars = (note for note in found if note.not_past and note.lies_on(way.opening, way.leaves))
    first = min(bars, key=lambda note: note.at_m, default=None)
    if first is None or (way.not_past is not None and way.not_past.at_low_m <= first.at_low_m):
        return way
    note = NotPastNote(
        name=shorten(first.what, _NAME, placeholder=" ..."),
        holds=False,
        behind=False,
        why="",
        instead="",
        at_m=first.at_m,
        at_low_m=first.at_low_m,
        at_high_m=2 * first.at_m - first.at_low_m,
    )
    return way.model_copy(update={"not_past": note})


def turn_before(sights: Sequence[SightNote], at_low_m: float) -> SightNote | None:
    """The last turn before what must not be passed, where it may come only behind `at_low_m`: the reading
    at which the other may begin. Nothing where the other may begin right behind it."""
    turns = [note for note in sights if note.to_stop_m is not None]
    last = turns[-1] if turns else None
    far = last is not None and last.at_high_m > at_low_m and (last.to_stop_m or 0.0) >= _WORTH_TELLING
    return last if far else None


def not_past(outcome: RouteOutcome, study: Study) -> NotPastNote | None:
    """The first thing on the way, or straight on behind it, that is not to be entered; where it lies.

    Behind the way it counts however far off it is: whoever misses the end pushes on.
    """
    found = stop_at(outcome, study)
    return _note(*found, study) if found else None


def least(distance: Array, study: Study) -> float:
    """What a distance may be with few cases left below it, m."""
    return float(np.quantile(distance, study.drawn.likely("unsafe_share")))


def stop_at(outcome: RouteOutcome, study: Study) -> tuple[Piece, Array, bool] | None:
    """That thing, the counter reading at it, m[N], and whether it lies behind the way."""
    route, stations = outcome.route, outcome.march.stations
    for passage, station in zip(route.passages, stations, strict=True):
        if passage.piece.kind == "stopper":
            return passage.piece, station.at, False
    end, at = route.passages[-1], outcome.march.end.at
    if end.piece.kind == "end":
        return end.piece, at, False
    met = {passage.piece.id for passage in route.passages}
    link = study.network.links.get((end.piece.id, end.leaves or _STRAIGHT_ON[end.enters]))
    while link is not None and link[0] not in met:
        piece, enters = study.network.pieces[link[0]], link[1]
        if piece.kind in ("stopper", "end"):
            return piece, at, True
        met.add(piece.id)
        at = at + study.drawn.length(piece)
        link = study.network.links.get((piece.id, _STRAIGHT_ON[enters]))
    return None


def _note(piece: Piece, at: Array, behind: bool, study: Study) -> NotPastNote:
    kind = holds(piece, study)
    stopper = study.tables.stoppers[kind] if kind else None
    return NotPastNote(
        name=study.reader.call(kind or piece.name),
        holds=stopper is not None,
        behind=behind,
        why=stopper.why if stopper else "",
        instead=stopper.told_instead(piece.shut_beside) if stopper else "",
        at_m=float(np.median(at)),
        at_low_m=least(at, study),
        at_high_m=float(np.quantile(at, 1 - study.drawn.likely("unsafe_share"))),
    )
