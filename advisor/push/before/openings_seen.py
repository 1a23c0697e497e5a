"""What pushes told of openings that may not be there: recognized, or gone by and not seen.

Bayes with the chance that such a thing is logged when it is passed. Where water or a blind picture hid what
was passed, nothing was looked at. Two pushes are taken to miss it independently of each other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from advisor.push.log.sighting import Seen, in_words, is_dry, is_wet
from advisor.push.now.counted import at_farthest
from advisor.push.now.now import Now
from advisor.push.now.seen import Run
from advisor.push.track.chart import Chart
from advisor.push.track.fix import named
from advisor.push.track.landmarks import Landmark
from advisor.push.track.track import Belief
from advisor.result.study import Study
from advisor.site.looked_for import LookedFor, odds_between, with_looks
from advisor.site.reached_in import with_chambers
from advisor.tables.finds import FindsFile
from advisor.tables.where import number

_SAME = 0.005  # layout: it would be told as the same per cent


def looked_for(study: Study, runs: Sequence[Run]) -> Study:
    """The study that knows what these pushes told of them, one after the other: each begins with what those
    before it left."""
    for run in runs:
        if not any(piece.hole is not None and 0 < piece.hole.there < 1 for piece in study.network.openings()):
            break  # all are known
        told = (*study.looked_for, *_of_push(run, study))
        network = with_chambers(with_looks(study.network, told), study.tables)
        study = replace(study, network=network, looked_for=told)
    return study


def _of_push(run: Run, study: Study) -> Iterator[LookedFor]:
    far = at_farthest(run, study)
    if far is None:
        return
    chart, sure = far.push.tracker.chart, number(study.tables.where.sure.settles)
    whole = Now(far.push, run.entries[1:])  # on the way back something may be recognized as well
    doubted = {mark.piece.id: mark for way in chart.ways for mark in way.landmarks if mark.there < 1}
    for mark in doubted.values():
        gone_by, seen = _gone_by(far, mark, study.tables.finds), _recognized(whole, mark)
        p, before = number(chart.where.seen[mark.kind].p), mark.there  # type: ignore[index]
        missed = (1 - gone_by) * before + gone_by * before * (1 - p) / (1 - p * before)
        now = 1.0 if seen >= sure else seen + (1 - seen) * missed
        if abs(now - before) >= _SAME:
            yield LookedFor(mark.piece.name, run.started.number, odds_between(before, now))


def _recognized(now: Now, mark: Landmark) -> float:
    """How likely it is that something that was told was that one."""
    seen = (
        each.chance
        for upto, sighting in enumerate(now.sightings, start=1)
        if isinstance(sighting, Seen)
        for each in named(now.push.tracker, now.after(upto), sighting)
        if each.landmark.piece.id == mark.piece.id
    )
    return max(seen, default=0.0)


def _gone_by(now: Now, mark: Landmark, finds: FindsFile) -> float:
    """How likely it is that the lens went by its place and the picture showed what is there.

    Water hides what comes after it was told; since when the picture showed nothing, nobody has told.
    """
    chart, shown, hidden, before = now.push.tracker.chart, 0.0, False, 0.0
    for entry, belief in now.told:
        past, blind = _past(chart, belief, mark), finds.is_blind(in_words(entry))
        shown += 0.0 if hidden or blind else past - before
        before, hidden = past, blind or is_wet(entry) or (hidden and not is_dry(entry))
    return min(max(shown, 0.0), before)


def _past(chart: Chart, belief: Belief, mark: Landmark) -> float:
    """How likely the head is past its place, wherever that lies on each way."""
    mass, spread = belief.mass.sum(axis=0), number(chart.where.seen[mark.kind].spread)  # type: ignore[index]
    return sum(
        float(mass[row] @ chart.passed(each.at, spread))
        for row, way in enumerate(chart.ways)
        for each in way.landmarks
        if each.piece.id == mark.piece.id and each.kind == mark.kind
    )
