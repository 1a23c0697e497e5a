"""What pushes met that ends a way, as explanations know of it: no chance of such a way is worth telling."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from advisor.explain.reason import Reason, Story
from advisor.outcome.assess import RouteOutcome
from advisor.quantity import show_reading
from advisor.result.beyond import ended_by
from advisor.result.other_side import from_elsewhere, other_side_first
from advisor.result.routes import route_note
from advisor.result.study import Study
from advisor.result.way_model import FoundNote, NotPastNote


def met_on(study: Study, outcome: RouteOutcome, found: Sequence[FoundNote]) -> NotPastNote | None:
    """What a push met on that way, that no head goes past."""
    if not any(note.not_past for note in found):
        return None
    return _end(study, outcome, (*found, *from_elsewhere(study, found)))


def _end(study: Study, outcome: RouteOutcome, found: Sequence[FoundNote]) -> NotPastNote | None:
    return ended_by(route_note(replace(study.ranked[0], outcome=outcome), 1, study), found).ended


def without_ended(study: Study, found: Sequence[FoundNote]) -> Study:
    """The study as the plan goes by it: what comes from the other side first, and no way that ends at it."""
    if not study.ranked or not any(note.not_past for note in found):
        return study
    study = other_side_first(study, found)
    found = (*found, *from_elsewhere(study, found))
    ranked = tuple(each for each in study.ranked if _end(study, each.outcome, found) is None)
    attempts = tuple(each for each in study.settled.attempts if _end(study, each, found) is None)
    return replace(study, settled=replace(study.settled, ranked=ranked, attempts=attempts))


def chance_left(study: Study, outcome: RouteOutcome, found: Sequence[FoundNote]) -> float:
    """The chance of a way, 0 to 1; none where it ends at what a push met."""
    return 0.0 if met_on(study, outcome, found) else outcome.chance


def ends_there(study: Study, outcome: RouteOutcome, end: NotPastNote) -> Story:
    """What there is to explain of a way that ends at it."""
    least, read = (show_reading(at, study.units) for at in (end.at_low_m, end.at_m))
    text = (
        f"{outcome.route.opening.name} with {outcome.loadout.name} goes no further than "
        f"{least}: {end.name}, read at {read}"
    )
    why = (
        "a push met it there, and a counter errs by what lies between; "
        "no chance worked out from the sheet knows of it"
    )
    return Story(about=text, story=(why,), tree=Reason(text=f"{text}: {why}", of="chance"))
