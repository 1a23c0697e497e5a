"""What pushes of a job saw of the runs in which a plan expects roots: told with them, or the run that just
passed the lens is told as if nobody had looked.

By the reading, so of ways that go in as those pushes did. No chance of getting there counts it: a look
misses some, and what it misses holds a head all the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from advisor.push.before.left_stops import pushes_by_way
from advisor.push.log.found import tells_roots
from advisor.push.log.kinds import DOWN, END, PORTS, SIGHTING, UNKNOWN, UP
from advisor.push.log.log import Entry
from advisor.push.log.sighting import POOL, in_words
from advisor.push.log.went_in import lens_in, readings_of
from advisor.push.report.words import when
from advisor.quantity import show_reading
from advisor.result.chances import chance_words
from advisor.result.model import PassageNote, Plan, RouteNote
from advisor.result.study import Study
from advisor.site.mouths import up_mouths
from advisor.tables.where import number


def with_looks(plan: Plan, study: Study, standing: Sequence[Entry]) -> Plan:
    """The plan with that at each run which pushes looked along, as far as none of them told of any."""
    runs: Runs = {}
    for outcome in (each.outcome for each in study.ranked):
        for hard in outcome.spots:
            if (roots := hard.spot.shape.roots) is not None:
                place = hard.passage.piece.line, hard.spot.run[0]
                runs[outcome.route.opening.name, outcome.loadout.name, *place] = float(roots.there.mean())
    if not runs or not any(entry.kind == END for entry in standing):
        return plan
    looks = [*_looks(study, standing)]
    return plan.model_copy(
        update={"routes": tuple(_looked_along(way, runs, looks, study) for way in plan.routes)}
    )


# How likely roots are in a run, by opening, gear, line and the reading at which it begins.
Runs = dict[tuple[str, str, str, float], float]
# Opening, ports, mouth, how far in no roots were told, and when.
Look = tuple[str, tuple[str, ...], str | None, float, str]


def _looks(study: Study, standing: Sequence[Entry]) -> Iterator[Look]:
    """Of each way in how far the lens was with no roots told up to there in any push that went so; nowhere
    where it is not sure which way that was: what it told may be of any."""
    several = {
        each.name
        for each in study.network.openings()
        if len(up_mouths(study.network, each, study.tables)) > 1
    }
    for (opening, way, mouth), runs in pushes_by_way(study, standing).items():
        ended = [run for run in runs if any(entry.kind == END for entry in run)]
        far = {max(lens_in(run).values(), default=0.0): run for run in ended}
        if far:
            sure = way == DOWN or (way == UP and (mouth is not None or opening not in several))
            ends = min((at for run in runs for at in _roots_or_unseen(run, study)), default=max(far))
            day = when(far[max(far)][0].happened_at).split()[0]
            yield opening, PORTS.get(way, PORTS[UNKNOWN]), mouth, min(ends, max(far)) if sure else 0.0, day


def _roots_or_unseen(run: Sequence[Entry], study: Study) -> Iterator[float]:
    """The readings, less what they may be off, at which roots were told or the picture did not show the pipe;
    0 for one of which nobody told the reading."""
    finds, near, readings = study.tables.finds, number(study.tables.where.sure.near), readings_of(run)
    for entry in run[1:]:
        wet = entry.kind == SIGHTING and entry.data.get("what") == POOL
        if tells_roots(entry, finds) or wet or finds.is_blind(in_words(entry)):
            read = readings.get(entry.number)
            yield 0.0 if read is None else max(read.inside - near, 0.0)


def _looked_along(way: RouteNote, runs: Runs, looks: Sequence[Look], study: Study) -> RouteNote:
    opening, leaves, mouth = way.led
    own = [each for each in looks if each[0] == opening and leaves in each[1] and each[2] in (None, mouth)]
    if not own:
        return way
    # Another that went so may have told some earlier: it is the same pipe.
    *_, until, day = min(own, key=lambda each: each[3])
    passages = []
    for note in way.passages:
        run = runs.get((way.opening, way.loadout.name, note.line, note.at_low_m)) if note.somewhere else None
        looked = _told(note, run, until, day, study) if run is not None and until > note.at_low_m else ""
        passages.append(note.model_copy(update={"looked": looked}))
    return way.model_copy(update={"passages": tuple(passages)})


def _told(note: PassageNote, chance: float, until: float, day: str, study: Study) -> str:
    words, units = study.tables.in_pipe.seen_whole, study.units
    low, high = show_reading(note.at_low_m, units), show_reading(note.at_high_m, units)
    seen = show_reading(min(until, note.at_high_m), units)
    told = words.no_roots.format(day=day, low=low, until=seen)
    if until < note.at_high_m:
        return told  # they may stand in what is left, or were told there
    missed = study.tables.signs["nothing found, there"].likely
    left = chance * missed / (chance * missed + 1 - chance)
    return f"{told} {words.roots_left.format(low=low, high=high, left=chance_words(study).say(left))}"
