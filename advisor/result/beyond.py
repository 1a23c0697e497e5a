"""What a head must not go past, on its way or straight on: a trap, valve or tank, or the end of the drain."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from textwrap import shorten
from typing import TypeVar

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.entry import step_least
from advisor.quantity import Estimate
from advisor.result.model import PassageNote, RouteNote, SightNote
from advisor.result.study import Study
from advisor.result.way_model import FoundNote, NotPastNote
from advisor.site.network import Length, Piece
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import below, middle

_Run = TypeVar("_Run", PassageNote, SightNote)
NOT_PAST = ("stop", "drain end")  # what such a thing is called among the sights
_NAME = 40  # layout: letters of what was seen, among the numbers of a card; its own row tells all of it
_WORTH_TELLING = 0.3  # m; layout: about the length of a head with its spring
# A head that is pushed on keeps to the straight pipe, and out of a branch it mostly goes down with the water.
_STRAIGHT_ON = {"up": "down", "down": "up", "branch": "down"}


def limit_of(route: RouteNote) -> NotPastNote | None:
    """What the head may come to before the far end or at it: how far to push is then where it may begin."""
    note = route.not_past
    return note if note is not None and note.at_low_m <= route.length_m else None


def bar_on(way: RouteNote, found: Sequence[FoundNote]) -> FoundNote | None:
    """The first of what pushes saw on the way that no head goes past, if it ends the way.

    What may only begin before that, by the lengths of the sheet, ends it no more: the lens came so far.
    """
    on_it = (note for note in found if note.lies_on(*way.led, way.loadout.name))
    first = min((note for note in on_it if note.bars(way.length_m)), key=lambda note: note.at_m, default=None)
    limit = way.not_past
    if first is None or limit is None or limit.unless or limit.at_low_m >= first.at_low_m:
        return first
    # A trap that may be that of the sheet by both is that one, though the sheet leaves it no room.
    return first if first.trap and limit.at_high_m >= first.at_low_m else None


def end_seen(way: RouteNote, found: Sequence[FoundNote]) -> FoundNote | None:
    """The end that a push saw on the way, the nearest: the line is no longer, whatever the sheet has."""
    on_it = (note for note in found if note.lies_on(*way.led, way.loadout.name))
    return next((note for note in on_it if note.pipe_end), None)


def ended_by(way: RouteNote, found: Sequence[FoundNote]) -> RouteNote:
    """The way no further than that: nobody comes to what lies behind it, and no chance knows of it."""
    first = bar_on(way, found)
    if first is None:
        return way
    note = NotPastNote(
        name=shorten(first.what, _NAME, placeholder=" ..."),
        holds=False,
        behind=False,
        why="",
        instead="",
        unless="",
        at_m=first.at_m,
        at_low_m=first.at_low_m,
        at_high_m=2 * first.at_m - first.at_low_m,
        met=first.at_low_m <= way.length_m,
    )
    way = way.model_copy(update={"not_past": note})
    before = [place for place, each in enumerate(way.passages) if each.at_low_m <= note.at_m]
    at = {place: at for at, place in enumerate(before)}
    # The trap or the end that a push saw is the one that the sheet has elsewhere.
    seen = first.pipe_end or first.trap
    there = [each for each in way.sights if not seen or each.sight not in NOT_PAST]
    # A turn or chamber tells no more how far on the end is: that was read.
    sights = tuple(
        each.model_copy(update={"to_stop_m": None, "hard": None if each.hard is None else at[each.hard]})
        for each in there
        if (each.hard in at if each.hard is not None else each.at_low_m <= _until(each, note))
    )
    sooner = way.covers >= 1 and way.blocked_at_m is not None and way.blocked_at_m < note.at_low_m
    passages = tuple(way.passages[place] for place in before)
    if seen:  # the pipe itself ends there, and with it what may stand at any of its joints
        sights = tuple(_cut_off(each, note.at_m) if each.sight == ROOTS else each for each in sights)
        passages = tuple(_cut_off(each, note.at_m) if each.somewhere else each for each in passages)
    stops = tuple(each for each in way.stops if each.at_m < note.at_low_m)
    less = {"sights": sights, "passages": passages, "stops": stops}
    untold = {"chance": 0.0, "part_chance": 0.0, "leads": 0.0} if note.met else {}
    past = {} if sooner or not note.met else {"ends": (), "blocked_by": None, "blocked_at_m": None}
    return way.model_copy(update={**less, **untold, **past})


def _cut_off(run: _Run, at_m: float) -> _Run:
    """A run of roots no further than the trap or end that was seen."""
    return run.model_copy(update={"at_high_m": max(min(run.at_high_m, at_m), run.at_low_m)})


def _until(each: SightNote, end: NotPastNote) -> float:
    """Till where a sight has its row on a way that ends there: of what must not be passed in any case."""
    return end.at_high_m if each.sight in NOT_PAST else end.at_m


def turn_before(sights: Sequence[SightNote], at_low_m: float) -> SightNote | None:
    """The last turn or chamber before what must not be passed, where it may come only behind `at_low_m`: the
    reading at which the other may begin. Nothing where the other may begin right behind it."""
    turns = [note for note in sights if note.to_stop_m is not None]
    last = turns[-1] if turns else None
    far = last is not None and last.at_high_m > at_low_m and (last.to_stop_m or 0.0) >= _WORTH_TELLING
    return last if far else None


def not_past(outcome: RouteOutcome, study: Study) -> NotPastNote | None:
    """The first thing on the way, or straight on behind it, that is not to be entered; where it lies.

    Behind the way it counts however far off it is: whoever misses the end pushes on.
    """
    found = stop_at(outcome, study)
    return _note(found, study) if found else None


def least(length: Length | None) -> float:
    """What a length of the sheet is at the least, m."""
    return 0.0 if length is None else length.low if isinstance(length, Estimate) else length.value


@dataclass(frozen=True)
class Stop:
    """That thing, the counter reading at it, m[N], and whether it lies behind the way.

    `leasts` is how far it is to it at the least from where each passage of the way before it begins, and from
    the end of a way that it lies behind, m, by
    the sheet's own lengths: what it catches is dug out, so that no case may be left out for being rare.
    """

    piece: Piece
    at: Array
    behind: bool
    leasts: tuple[float, ...]


def stop_at(outcome: RouteOutcome, study: Study) -> Stop | None:
    """The first such thing on the way or straight on behind it."""
    route, march = outcome.route, outcome.march
    lows = way_leasts(outcome, study.tables)
    for index, (passage, station) in enumerate(zip(route.passages, march.stations, strict=True)):
        if passage.piece.kind == "stopper":
            return Stop(passage.piece, station.at, False, _onward(lows[:index]))
    end, at = route.passages[-1], march.end.at
    if end.piece.kind == "end":
        return Stop(end.piece, at, False, _onward(lows))
    for piece, _ in straight_behind(outcome, study):
        if piece.kind in ("stopper", "end"):
            return Stop(piece, at, True, _onward(lows)[: len(route.passages) + 1])
        at = at + study.drawn.length(piece)
        lows.append(least(length_along(piece)))
    return None


def way_leasts(outcome: RouteOutcome, tables: Tables) -> list[float]:
    """How long each passage of a way is at the least, by the sheet's own lengths, m."""
    lows: list[float] = []
    stations = pairwise((*outcome.march.stations, outcome.march.end))
    for passage, shape, (begins, ends) in zip(
        outcome.route.passages, outcome.geometries, stations, strict=True
    ):
        if shape.turn.bends:
            lows.append(float((ends.at - begins.at).min()))
        else:
            lows.append(step_least(passage, tables) if passage.step else least(length_along(passage.piece)))
    return lows


def straight_behind(outcome: RouteOutcome, study: Study) -> Iterator[tuple[Piece, str]]:
    """The pieces straight on behind the end of a way, and the port that each is entered by."""
    end = outcome.route.passages[-1]
    met = {passage.piece.id for passage in outcome.route.passages}
    link = study.network.links.get((end.piece.id, end.leaves or _STRAIGHT_ON[end.enters]))
    while link is not None and link[0] not in met:
        piece, enters = study.network.pieces[link[0]], link[1]
        yield piece, enters
        met.add(piece.id)
        link = study.network.links.get((piece.id, _STRAIGHT_ON[enters]))


def length_along(piece: Piece) -> Length | None:
    """The length that a piece takes up on its line; that of a joint is the step across it."""
    return None if piece.kind == "joint" else piece.length


def _onward(lows: Sequence[float]) -> tuple[float, ...]:
    return tuple(sum(lows[start:]) for start in range(len(lows)))


def may_be_it(note: NotPastNote, place: PassageNote) -> bool:
    """Whether a hard place may come where a trap, tank or sewer may begin: nobody feels which it is.

    What roots hold is pushed no further anyhow: a run of them counts where all of it may be that.
    """
    return bool(note.unless) and (place.at_low_m if place.somewhere else place.at_high_m) >= note.at_low_m


def _note(stop: Stop, study: Study) -> NotPastNote:
    piece, at, low = stop.piece, stop.at, stop.leasts[0] if stop.leasts else 0.0
    high = below(at, 1 - study.drawn.likely("unsafe_share"))
    kind = piece.holds
    stopper = study.tables.stoppers[kind] if kind else None
    return NotPastNote(
        name=study.reader.call(kind or piece.name),
        holds=stopper is not None,
        behind=stop.behind,
        why=stopper.why if stopper else "",
        instead=stopper.told_instead(piece.shut_beside) if stopper else "",
        at_m=middle(at),
        at_low_m=low,
        at_high_m=high,
        unless=study.tables.where.not_past.unless if high - low >= _WORTH_TELLING else "",
    )
