"""What pushes met that ends a way, as explanations know of it: no chance of such a way is worth telling."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from advisor.explain.reason import Reason, Story
from advisor.outcome.assess import RouteOutcome
from advisor.quantity import show_counter, show_reading
from advisor.result.beyond import ended_by
from advisor.result.model import RouteNote
from advisor.result.other_side import from_elsewhere, other_side_first
from advisor.result.routes import route_note, stopped
from advisor.result.stops import stop_words
from advisor.result.study import Study
from advisor.result.way_model import FoundNote


def met_on(study: Study, outcome: RouteOutcome, found: Sequence[FoundNote]) -> RouteNote | None:
    """That way as it ends at what a push met, that no head goes past; nothing where it does not."""
    if not any(note.not_past for note in found):
        return None
    return _end(study, outcome, (*found, *from_elsewhere(study, found)))


def _end(study: Study, outcome: RouteOutcome, found: Sequence[FoundNote]) -> RouteNote | None:
    way = ended_by(route_note(replace(study.ranked[0], outcome=outcome), 1, study), found)
    return way if way.ended else None


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


def ends_there(study: Study, outcome: RouteOutcome, way: RouteNote) -> Story:
    """What there is to explain of a way that ends at it, what mostly ends it before that first."""
    end = way.ended
    assert end is not None
    least, read = show_reading(end.at_low_m, study.units), show_counter(end.at_m, study.units)
    name = f"{outcome.route.opening.name} with {outcome.loadout.name}"
    last = f"goes no further than {least}: {end.name}, read at {read}"
    text, story = f"{name} {last}", []
    if way.blocked_by:
        at = f" at {show_reading(way.blocked_at_m, study.units)}" if way.blocked_at_m else ""
        text = f"{name} mostly ends before what a push met: {stop_words(stopped(outcome, study), at)}"
        story = [f"in any case it {last}"]
    why = (
        "a push met it there, and a counter errs by what lies between; "
        "no chance worked out from the sheet knows of it"
    )
    tree = Reason(text="; ".join((text, *story, why)), of="chance")
    return Story(about=text, story=(*story, why), tree=tree)
