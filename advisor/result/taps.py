"""Which fixture to run during the push, and what its water tells: where it comes in, which way is down."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.assess import RouteOutcome
from advisor.result.study import Study
from advisor.result.way_model import TapNote
from advisor.routes.passage import Passage
from advisor.site.names import fixture_kind
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry
from advisor.worlds.spread import middle

_TOILET = "toilet"


def tap_notes(outcome: RouteOutcome, study: Study) -> tuple[TapNote, ...]:
    """Fixtures whose water meets the way, by the counter reading at which it does; none on a line that holds.

    Whoever poured a cleaner in must be asked first, so there is none either where that was done.
    """
    given = study.circumstances
    if given.holding is not False or given.chemicals:
        return ()
    place: dict[str, tuple[Passage, float]] = {}
    for passage, station in zip(outcome.route.passages, outcome.march.stations, strict=True):
        place.setdefault(passage.piece.id, (passage, middle(station.at)))
    found = []
    for piece in study.network.pieces.values():
        name = _runs(piece, study)
        if name is None or piece.id == outcome.route.opening.id:
            continue
        path = study.network.downstream(piece.id)
        met = next((key for key in path if key in place), None)
        if met is None or place[met][1] <= 0:
            continue  # what comes in at the opening itself tells nothing of the way
        passage, at = place[met]
        comes_in = passage.piece
        if passage is outcome.route.passages[-1] and passage.enters == "down":
            comes_in, on = _beyond(path[: path.index(met) + 1], study.network)
            at += on
        kind = study.tables.fixtures.get(name)
        found.append(
            TapNote(
                fixture=piece.name,
                at_m=at,
                joins=comes_in.branch or piece.line,
                beyond_end=comes_in is not passage.piece,
                # Going down, water that came in behind overtakes the lens; going up, it meets it.
                from_behind=passage.flow == "with",
                looks=kind.signature if kind else "",
            )
        )
    return tuple(sorted(found, key=lambda tap: (tap.at_m, tap.fixture)))


def _beyond(path: Sequence[str], network: Network) -> tuple[Piece, float]:
    """Where water comes into the line that a way ends on, up from its end, and how many metres further on.

    `path` is what it ran through, the piece at the end last. What comes down the line itself passes the end,
    and only what comes out of the branch there enters at it.
    """
    end = above = path[-1]
    for piece_id in reversed(path[:-1]):
        down_the_line = network.links.get((above, "up"), ("",))[0] == piece_id
        if not down_the_line or network.pieces[piece_id].line != network.pieces[end].line:
            break
        above = piece_id
    tops, piece = network.positions(network.pieces[end].line), network.pieces[above]
    return piece, tops[end] + network.pieces[end].along - tops[above] - piece.along


def _runs(piece: Piece, study: Study) -> str | None:
    """The kind of fixture whose water comes in at a piece, whether or not a rod can go in there."""
    if piece.kind not in ("opening", "cap"):
        return None
    if isinstance(piece.entry, FixtureEntry):
        return fixture_kind(piece.entry, study.tables)
    if piece.hole is not None and piece.hole.toilet:
        return _TOILET
    kind = piece.hole.kind if piece.hole is not None else ""
    return next((each.name for each in study.tables.fixtures.values() if each.opening == kind), None)
