"""That pushes of a job saw the part that its plan goes for, what of the rest is not seen, and what is first.

A part ends where no push is worth its minutes for more: without this every plan after it asks for it again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from advisor.push.before.end_reached import as_reached
from advisor.push.before.goal import told_for
from advisor.push.before.seen_words import measures
from advisor.push.before.tasks import Seen, covered, shown
from advisor.push.before.way_taken import as_gone
from advisor.push.comes_first import comes_first
from advisor.push.log.log import Entry
from advisor.push.log.sighting import in_words
from advisor.push.now.seen import Run, runs_of, stretch_of
from advisor.push.report.words import when
from advisor.push.track.leg import NO_DISTANCE
from advisor.quantity import show_counter
from advisor.result.study import Study
from advisor.result.target_model import SeenNote


def seen_part(study: Study, standing: Sequence[Entry]) -> SeenNote:
    """It; nothing where any of that part may not have been seen, or passed the lens without being seen."""
    told = [run for run in runs_of(standing) if run.ended is not None]
    if study.part is None or not told:
        return SeenNote()
    own = replace(study, part=None)
    runs = as_reached([as_gone(run, study) for run in told], study)
    seen = shown(runs, own)
    last = next((run for run in reversed(runs) if covered((run,), own).seen), None)
    unsure = seen.cover.unsure or not seen.cover.met or seen.stops or any(_blind(run, study) for run in runs)
    if last is None or last.went_in is None or unsure or not _is_all(last, seen, study):
        return SeenNote()
    words, whole, began = study.tables.in_pipe.seen_whole, shown(runs, study), when(last.started.happened_at)
    rest = " and ".join(whole.datum.span(*span, measures(study)) for span in whole.cover.unseen)
    by = {"opening": last.opening, "what": study.target.words, "when": began, "day": began.split()[0]}
    left = " ".join(filter(None, (words.unseen.format(rest=rest), _edge(last, whole))))
    then, short = _next(last, whole, standing)
    return SeenNote(
        told=(words.part.format(**by), f"{left} {then}"),
        card=" ".join(filter(None, (words.card.format(**by), short))),
        card_left=words.card_left.format(section=rest, past=""),
        opening=last.opening,
        gear=last.loadout,
    )


def _edge(last: Run, whole: Seen) -> str:
    """Where on the counter what was seen ends: along the line that is another number; nothing where it is not
    plain which end the lens came to."""
    ends = [at for span in covered((last,), whole.study).seen for at in span]
    edges = [at for span in whole.cover.unseen for at in span]
    here = [at for at in edges if any(abs(at - each) < NO_DISTANCE for each in ends)]
    shown, reading = measures(whole.study), show_counter(last.went_in or 0.0, whole.study.units)
    along = [shown(abs(at - whole.datum.at)) for at in here]
    if len(along) != 1 or along[0] == reading:
        return ""
    return whole.study.tables.in_pipe.seen_whole.edge.format(along=along[0], reading=reading)


def _is_all(last: Run, seen: Seen, study: Study) -> bool:
    """Whether no more is wanting than counter and sheet may part, where the push for this says that it was
    all; else nothing at all."""
    wanting, goal = seen.cover.length - seen.cover.seen_length, told_for(last, study)
    low, high = stretch_of(goal.network, goal.wanted)
    inside = low - NO_DISTANCE <= seen.cover.low and seen.cover.high <= high + NO_DISTANCE
    same = goal.wanted.line == seen.cover.line and inside
    said = last.ended is not None and last.ended.data.get("reached") is True and last.hardly is None and same
    return wanting <= (study.tables.where.sure.may_part(last.went_in or 0.0) if said else 0)


def _blind(run: Run, study: Study) -> bool:
    """Whether it told of a place that passed the lens without being seen."""
    return any(study.tables.finds.is_blind(in_words(entry)) for entry in run.entries[1:])


def _next(last: Run, whole: Seen, standing: Sequence[Entry]) -> tuple[str, str]:
    """What comes before a look at the rest: what bars the way there, what held a head, else only to look on;
    and that in few words."""
    study = whole.study
    first = comes_first(last, study, standing, looks_on=True)
    if first is not None:
        return first
    words, reading = study.tables.in_pipe.seen_whole, show_counter(last.went_in or 0.0, study.units)
    held = next((stop for stop in whole.stops if stop.opening == last.opening), None)
    if held is None:
        return words.on.format(reading=reading), ""
    by = {"reading": show_counter(held.inside, study.units), "opening": held.opening}
    return words.held.format(**by), words.card_held.format(reading=by["reading"])
