"""Which fixture to run during the push, and what its water tells: where it comes in, which way is down."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.result.study import Study
from advisor.result.way_model import TapNote
from advisor.routes.passage import Passage
from advisor.site.names import fixture_kind
from advisor.site.network import Piece
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
        kind = study.tables.fixtures.get(name)
        found.append(
            TapNote(
                fixture=piece.name,
                at_m=at,
                joins=passage.piece.branch or piece.line,
                # Going down, water that came in behind overtakes the lens; going up, it meets it.
                from_behind=passage.flow == "with",
                looks=kind.signature if kind else "",
            )
        )
    return tuple(sorted(found, key=lambda tap: (tap.at_m, tap.fixture)))


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
