"""That pushes of a job saw all of what its plan goes for, what is left of the rest, and how that is come at.

Said before all else of a plan: without it the same run is asked for again, as if nobody had been there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from advisor.push.before.end_reached import as_reached
from advisor.push.before.goal import for_another
from advisor.push.before.seen_words import measures
from advisor.push.before.tasks import covered, shown
from advisor.push.before.way_taken import as_gone
from advisor.push.comes_first import comes_first
from advisor.push.log.log import Entry
from advisor.push.now.seen import Run, runs_of, stretch_of
from advisor.push.report.words import when
from advisor.push.seen_part import seen_part
from advisor.result.model import Plan
from advisor.result.study import Study
from advisor.result.target_model import SeenNote
from advisor.site.network import Piece
from advisor.site.suspects import Suspect


def seen_whole(study: Study, standing: Sequence[Entry]) -> SeenNote:
    """It, where the report says the same; where the plan goes for a part, the same of that; nothing where any
    of it may not have been seen."""
    whole = _seen_whole(study, standing)
    return whole if whole.told else seen_part(study, standing)


def _seen_whole(study: Study, standing: Sequence[Entry]) -> SeenNote:
    told = runs_of(standing)
    if not any(run.told_reached or _passed_by(run, study) for run in told):
        return SeenNote()
    runs = as_reached([as_gone(run, study) for run in told], study)
    last = next((run for run in reversed(runs) if run.reached), None)
    if last is None:
        # Of pushes that went for something else nobody was asked: that an end was seen speaks for them.
        others = tuple(run for run in runs if _passed_by(run, study))
        seen = shown(others, study)
        last = next((run for run in reversed(others) if covered((run,), study).seen), None)
        if last is None or not seen.cover.end_seen or seen.cover.unsure:
            return SeenNote()
    else:
        seen = shown(runs, study)
    if seen.cover.unseen or seen.stops or not seen.cover.met:
        return SeenNote()
    words = study.tables.in_pipe.seen_whole
    began = when(last.started.happened_at)
    by = {"opening": last.opening, "what": study.wanted.words, "when": began, "day": began.split()[0]}
    left = next((each for each in study.suspects if _unseen(each, runs, study)), None)
    # What was found there comes before a look at anything else.
    first, rest = comes_first(last, study, standing, looks_on=False), left and _left(left, study)
    then = [each for each in (first, rest) if each]
    return SeenNote(
        told=(words.whole.format(**by), *(told for told, _ in then)),
        card=" ".join(filter(None, (words.card.format(**by), first and first[1]))),
        card_left=rest[1] if rest else "",
        opening=last.opening,
        gear=last.loadout,
    )


def again(plan: Plan, seen: SeenNote, study: Study) -> str:
    """The first step of a plan, told as the same once more where that was seen."""
    step = plan.first_step
    if not seen.told or not plan.camera_now:
        return step
    return study.tables.in_pipe.seen_whole.again.format(step=step[0].lower() + step[1:])


def with_seen(plan: Plan, seen: SeenNote, study: Study) -> Plan:
    """The plan that knows of it: what it tells to do is then a look again."""
    return plan.model_copy(update={"seen": seen, "first_step": again(plan, seen, study)})


def _passed_by(run: Run, study: Study) -> bool:
    """Whether it has ended, and went for something else, so that it may have come through all of this."""
    return run.ended is not None and for_another(run, study)


def _unseen(section: Suspect, runs: Sequence[Run], study: Study) -> bool:
    if section.words == study.wanted.words:
        return False
    return bool(covered(runs, replace(study, target=section.target, part=None)).unseen)


def _left(section: Suspect, study: Study) -> tuple[str, str]:
    """The likeliest section that is left, what bars the way there, and what to put on the sheet for it; and
    that in few words."""
    words, stop = study.tables.in_pipe.seen_whole, _between(section, study)
    low, high = stretch_of(study.network, section.target)
    length, share = measures(study)(high - low), f"{section.share:.0%}"
    told = [words.left.format(section=section.words, length=length, share=share)]
    past = ""
    if stop is not None and stop.holds is not None:
        name = study.reader.call(stop.holds)
        instead = study.tables.stoppers[stop.holds].told_instead(stop.shut_beside) or words.shut
        told.append(words.beyond.format(name=name, instead=instead))
        past = words.card_past.format(name=name)
    told.append(words.look_at.format(section=section.words))
    return " ".join(told), words.card_left.format(section=section.words, past=past)


def _between(section: Suspect, study: Study) -> Piece | None:
    """The trap, valve or tank at which it meets what was seen."""
    shared = (study.network.pieces[key] for key in section.span if key in study.wanted.span)
    return next((piece for piece in shared if piece.kind == "stopper"), None)
