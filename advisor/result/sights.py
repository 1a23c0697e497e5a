"""What the lens meets on the way, one after the other, with the counter reading and its range."""

from __future__ import annotations

from itertools import pairwise

from advisor.evidence import ASSUMED, TOLD
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.entry import depth_told, entry_upright
from advisor.outcome.geometry import Geometry
from advisor.outcome.walk import HardSpot
from advisor.result.beyond import NOT_PAST, Stop, not_past, stop_at
from advisor.result.model import SightNote
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.result.way_end import end_name, goes_on, unmarked
from advisor.result.way_model import NotPastNote, RunNote
from advisor.routes.passage import Passage, Route
from advisor.site.network import Network, Piece, likely
from advisor.tables.card import COUNTED, PERHAPS
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import below, middle

# What the head does in a junction, as the card's words call it.
_TURNS = {"merge": "into main", "hairpin": "up the main", "leg": "into branch", "fork": "fork"}
_MIRRORED = {"left": "right", "right": "left", "top": "top"}


def sight_notes(outcome: RouteOutcome, study: Study) -> tuple[SightNote, ...]:
    """Everything that comes into view, nearest first; the opening itself is none."""
    route, march = outcome.route, outcome.march
    hard = {spot.index: number for number, spot in enumerate(outcome.spots)}
    names = {spot.index: place_name(spot, study.reader) for spot in outcome.spots}
    depths, upright = _depths(outcome, study.drawn.likely("slope_run")), _upright(outcome, study.tables)
    stop = stop_at(outcome, study)
    found: list[SightNote] = []
    last: Passage | None = None
    for index, (shape, station) in enumerate(zip(outcome.geometries, march.stations, strict=True)):
        passage = shape.passage
        told = _sights(passage, shape, last, study)
        rooted = index in hard and outcome.spots[hard[index]].spot.by_roots
        if index in hard and not told and not rooted:
            told = [("pipe", names[index])]
        for sight, name in told:
            # Another wall is seen where a hard fitting begins; where it is all there is, the pipe is hard.
            wall = sight == "other pipe"
            is_hard = index in hard and not rooted and (not wall or len(told) == 1)
            # Plain pipe holds the head where its hard spot is, as the steps there have it: anywhere along it,
            # not where it begins.
            hold = outcome.spots[hard[index]].spot if sight == "pipe" else None
            note = _note(
                sight,
                names[index] if is_hard and not wall else name,
                passage,
                station.at if hold is None else hold.station.at,
                hard.get(index) if is_hard else None,
                depths[index],
                upright[index],
            )
            if hold is not None and hold.shape.roots is not None:
                note = note.model_copy(update={"somewhere": True})
            chamber = sight in ("opening", PERHAPS) and _chamber(passage.piece, study)
            if stop and (chamber or (shape.turn.bends and not wall)) and index < len(stop.leasts):
                note = note.model_copy(update={"to_stop_m": _onward(stop, index + 1)})
            found.append(note)
        if index == route.target_from and index:
            found.append(
                _note("target", study.target.words, passage, station.at, None, depths[index], upright[index])
            )
        if rooted:
            found.append(_roots(outcome.spots[hard[index]], hard[index], depths[index], upright[index]))
        last = passage
    end = route.passages[-1]
    # A tank or trap that the part to see ends at: the head must not go on into it.
    plain = COUNTED if unmarked(end, study.network) else "end"
    sight = "stop" if end.piece.holds else "drain end" if end.piece.kind == "end" else plain
    # A line may drop into a main that lies far below it: its depth is not that of the main.
    depth = (None, False) if end.piece.kind == "end" else depths[-1]
    last_note = _note(sight, end_name(end, study), end, march.end.at, None, depth, upright[-1])
    if sight == "end":
        last_note = last_note.model_copy(update={"goes_on": goes_on(end, study)})
    if stop and sight == "end" and _chamber(end.piece, study):
        last_note = last_note.model_copy(update={"to_stop_m": _onward(stop, len(route.passages))})
    indoors = _indoors(study.network)
    limit = not_past(outcome, study)
    notes = (*found, last_note, *_behind(last_note, limit))
    # Where the first of what must not be passed may begin is told as the limit has it.
    first = next((each for each in notes if each.sight in NOT_PAST), None)
    begins = {"at_low_m": limit.at_low_m, "unless": bool(limit.unless)} if limit else {}
    return tuple(
        note.model_copy(update={"indoors": note.line in indoors, **(begins if note is first else {})})
        for note in notes
    )


def _chamber(piece: Piece, study: Study) -> bool:
    """Whether it is one: the lens cannot miss it, as it cannot miss a turn."""
    return piece.hole is not None and study.tables.openings[piece.hole.kind].open_channel


def _onward(stop: Stop, passage: int) -> float:
    """How far it is to what must not be passed, at the least, from where that passage begins."""
    return stop.leasts[passage] if passage < len(stop.leasts) else 0.0


def _indoors(network: Network) -> set[str]:
    """The lines whose water falls down another line that does not leave the building."""
    leave = {piece.line for piece in network.pieces.values() if piece.kind == "end"}
    return {
        line
        for line, ids in network.lines.items()
        for key in network.downstream(ids[-1])
        for piece in (network.pieces[key],)
        if piece.kind == "drop" and piece.line not in leave and piece.line != line
    }


def _behind(end: SightNote, note: NotPastNote | None) -> tuple[SightNote, ...]:
    """What the head must not go past straight on behind the end of the way.

    A trap, valve or tank always; where the drain ends, only where that may be met before the end is seen.
    """
    if note is None or not note.behind or not (note.holds or note.at_low_m <= end.at_high_m):
        return ()
    span = {"at_m": note.at_m, "at_low_m": note.at_low_m, "at_high_m": note.at_high_m}
    sight = "stop" if note.holds else "drain end"
    # Nobody is to stand over it for a mark: no depth is told.
    bare = {"sight": sight, "name": note.name, "hard": None, "depth_m": None, "depth_measured": False}
    bare |= {"assumed": False, "behind": True, "to_stop_m": None, "goes_on": ""}
    return (end.model_copy(update={**span, **bare}),)


def run_notes(outcome: RouteOutcome) -> tuple[RunNote, ...]:
    """The way as stretches of one bore and lie, for a drawing to scale."""
    stations = [middle(s.at) for s in (*outcome.march.stations, outcome.march.end)]
    runs: list[RunNote] = []
    for passage, (start, end) in zip(outcome.route.passages, pairwise(stations), strict=True):
        piece = passage.piece
        made = RunNote(
            from_m=start,
            to_m=end,
            nominal_m=passage.wall_out.nominal.value,
            upright=piece.kind in ("drop", "rise"),
            sag=piece.kind == "belly",
            line=piece.line,
        )
        if runs and runs[-1].model_copy(update={"from_m": start, "to_m": end}) == made:
            runs[-1] = runs[-1].model_copy(update={"to_m": end})
        elif end > start:
            runs.append(made)
    return tuple(runs)


def _sights(passage: Passage, shape: Geometry, last: Passage | None, study: Study) -> list[tuple[str, str]]:
    piece, reader, kind = passage.piece, study.reader, passage.shape
    fitting = reader.call(piece.fitting.likeliest) if piece.fitting else reader.call(piece.name)
    found: list[tuple[str, str]] = []
    if last is not None and last.wall_out.id != passage.wall_in.id:
        was, now = (w.material.likeliest for w in (last.wall_out, passage.wall_in))
        if was != now:
            found.append(("other pipe", reader.call(now)))
    if passage.step is not None:
        if shape.turn.bends:
            found.append(("bend", passage.step.kind))
    elif kind == "bend":
        found.append(("bend", fitting))
    elif kind == "junction":
        name = piece.line if passage.enters == "branch" else piece.branch or piece.name
        found.append((_TURNS.get(shape.turn.way, "joins"), name))
    elif passage.by_hand:
        found.append(("own mouth", piece.branch or piece.name))
    elif kind == "reducer":
        wider = passage.wall_out.nominal.value > passage.wall_in.nominal.value
        found.append(("wider" if wider else "narrower", fitting))
    elif kind == "stopper":
        found.append(("stop", reader.call(piece.stopper or piece.name)))
    elif kind == "past":
        doubted = piece.hole is not None and piece.hole.there < 1
        found.append((PERHAPS if doubted else "opening", piece.name))
    elif piece.kind == "belly":
        found.append(("sag", piece.line))
    elif piece.kind == "joint":
        found.append(("step", piece.line))
    elif piece.kind == "drop" and passage.flow == "with" and (last is None or last.piece.kind != "drop"):
        found.append(("fall", piece.line))
    return found


def _note(
    sight: str,
    name: str,
    passage: Passage,
    at: Array,
    hard: int | None,
    depth: tuple[float | None, bool],
    upright: float,
) -> SightNote:
    side = passage.piece.side
    if side is not None and passage.flow == "against":
        side = _MIRRORED.get(side, side)
    return SightNote(
        sight=sight,
        name=name,
        line=passage.piece.line,
        at_m=middle(at),
        at_low_m=below(at, 0.1),
        at_high_m=below(at, 0.9),
        along_m=max(middle(at) - upright, 0.0),
        side=side if sight in ("joins", "fork", "into branch") else None,
        hard=hard,
        assumed=_assumed(passage.piece),
        level=not passage.piece.vertical,
        depth_m=depth[0],
        depth_measured=depth[1],
    )


def _roots(hard: HardSpot, number: int, depth: tuple[float | None, bool], upright: float) -> SightNote:
    """Roots may come into view at any joint of their run: told where it begins, with where it ends."""
    passage = hard.passage
    begins, ends = hard.spot.run
    note = _note(ROOTS, passage.piece.line, passage, hard.spot.station.at, number, depth, upright)
    along = max(begins - upright, 0.0)
    return note.model_copy(update={"at_m": begins, "at_low_m": begins, "at_high_m": ends, "along_m": along})


def _assumed(piece: Piece) -> bool:
    """A bend that was put in as usual for such a building; a junction is there since its branch is."""
    return piece.kind == "bend" and piece.fitting is not None and piece.fitting.evidence == ASSUMED


def down_to_line(route: Route, tables: Tables) -> float:
    """How far down the entry of a way goes, m, as a push counts it.

    The shaft of a chamber is no step of the entry: the readings of a plan are counted without it.
    """
    stands = any(passage.step is not None and passage.step.upright for passage in route.passages)
    return entry_upright(route.opening, route.passages[0].leaves, tables) if stands else 0.0


def _upright(outcome: RouteOutcome, tables: Tables) -> list[float]:
    """What leads nobody along the line, m, before each passage and at the end: each by its middle case, or
    one riser is another length at each reading, and another in a push."""
    route, stations = outcome.route, (*outcome.march.stations, outcome.march.end)
    down, found = down_to_line(route, tables), list[float]()
    since = 0.0
    for passage, (start, end) in zip(route.passages, pairwise(stations), strict=True):
        found.append(down + since if passage.step is None else min(down, middle(start.at)))
        if passage.step is None and passage.piece.vertical:
            since += middle(end.at - start.at)
    return [*found, down + since]


def _depths(outcome: RouteOutcome, slope_run: float) -> list[tuple[float | None, bool]]:
    """m below the ground at the opening before each passage and at the end, for level ground.

    Nothing without the depth at the opening, nor behind `slope_run` m whose slope is assumed: as little as a
    code allows, so what nobody measured adds up. Measured only where every slope on the way was told too.
    """
    opening = outcome.route.opening
    depth, measured = opening.hole.depth if opening.hole is not None else None, depth_told(opening)
    guessed, found = 0.0, []  # m of assumed slope so far
    for passage, station in zip(outcome.route.passages, outcome.march.stations, strict=True):
        # On the way down an entry the head is as deep as the rod is in.
        here = min(depth, middle(station.at)) if depth is not None and passage.step is not None else depth
        found.append(_told_depth(here, guessed, slope_run, measured))
        if depth is None or passage.step is not None:
            continue
        piece, length = passage.piece, likely(passage.piece.length)
        down = 1 if passage.flow == "with" else -1
        if piece.kind in ("drop", "rise"):
            depth += length * (down if piece.kind == "drop" else -down)
        elif length:
            depth += length * down * (piece.slope.value if piece.slope else 0.0)
            guessed += 0.0 if piece.slope is not None and piece.slope.evidence == TOLD else length
    return [*found, _told_depth(depth, guessed, slope_run, measured)]


def _told_depth(
    depth: float | None, guessed: float, most: float, measured: bool
) -> tuple[float | None, bool]:
    """A depth, m, and whether it was measured; nothing where too much of its way is `guessed`, m."""
    return (None, False) if depth is None or guessed > most else (depth, measured and not guessed)
