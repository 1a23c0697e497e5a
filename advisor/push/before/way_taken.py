"""Which way a push went, by what it passed, and as far as that is sure; what was recognized on it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np

from advisor.errors import BadInput
from advisor.push.before.far_end import end_seen
from advisor.push.before.goal import for_another
from advisor.push.log.sighting import Water
from advisor.push.now.counted import at_farthest
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import Coverage, Run, Taken
from advisor.push.now.since import passed
from advisor.push.now.way_gone import way_gone
from advisor.push.track.chart import Array
from advisor.result.study import Study
from advisor.tables.where import number


def as_gone(run: Run, study: Study) -> Run:
    """The push by the way that it went: where what it passed leaves the way told in doubt, that no longer
    counts."""
    try:
        gone = way_gone(Push(study, run.started).tracker, run.entries)
    except BadInput:  # the sheet has that opening no more
        return run
    return replace(run, gone=gone.way, direction=gone.way if gone.doubted else run.direction)


def way_taken(run: Run, study: Study) -> Taken | None:
    """The likeliest way, and how far along it that is as sure as what settles a place: what is taken as seen
    is looked at no more.

    Nothing where the push cannot be followed. That the sheet draws but one way does not show that the head
    is on it, so that it is told apart whether anything was passed that tells the way.
    """
    now = at_farthest(run, study)
    if now is None:
        return None
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=(0, 2))
    way = int(np.argmax(mass))
    sure = np.minimum(_went_on(now, way), now.push.tracker.at_most(now.belief))
    unsure = np.flatnonzero(sure < number(chart.where.sure.settles))
    until = float("inf")
    if len(unsure):
        first = int(unsure[0])
        # At a fork up to the fork itself, elsewhere up to the last place that is still sure.
        fork = chart.ways[way].legs[int(chart.leg[way, first])].start
        until = max(fork, float(chart.x[max(first - 1, 0)]))
    # More counter than pipe shows no end of the pipe: the counter ran fast, or the sheet is short.
    came = now.fix.best.least if now.apart else float("inf")
    return Taken(chart.ways[way].legs, until, told_way(now), came, chart.ways[way].port)


def read_in(run: Run, study: Study) -> Mapping[str, float]:
    """How far in by the counter each landmark was that the push passed, m, by the id of its piece."""
    now = at_farthest(run, study)
    return {} if now is None else {each.landmark.piece.id: each.rod for each in passed(now)}


def _went_on(now: Now, way: int) -> Array:
    """For each place along a way, the chance that the rod took the same way as far as there, [C]."""
    chart, belief = now.push.tracker.chart, now.belief
    group, _ = chart.same_so_far
    same = (group == group[way]) & chart.there
    found: Array = belief.mass.sum(axis=(0, 2)) @ same
    for gone in belief.gone:  # in a pipe that is not on the map, but on it up to where it left
        _, rows, cells = np.unravel_index(gone.cells, belief.mass.shape)
        until = np.arange(chart.cells)[None, :] <= cells[:, None]
        found = found + gone.mass @ (same[rows] & until)
    return found


def told_way(now: Now) -> bool:
    """Whether a landmark was passed that is called by its name, or water came that tells the way."""
    came = any(isinstance(each, Water) and each.seconds is not None for each in now.sightings)
    return came or bool(passed(now))


def recognized(runs: Iterable[Run], cover: Coverage, study: Study) -> Coverage:
    """The coverage, and what was recognized on the way: anything of the map, and the end of the stretch.

    An end that was surely seen, and by whoever pushed told as reached, leaves nothing before it unseen: there
    counter and sheet part by no more than they may. Of a push that went for something else nobody was asked.
    """
    runs = tuple(runs)
    seen = [
        (run, each) for run in runs if (now := at_farthest(run, study)) is not None for each in passed(now)
    ]
    tops, near = study.network.positions(cover.line), study.drawn.likely("same_place")
    ends = [
        (run, each, at)
        for run, each in seen
        for at in (cover.low, cover.high)
        if each.landmark.piece.id in tops and abs(tops[each.landmark.piece.id] - at) < near
    ]
    sure = study.tables.where.sure
    surely = [(run, at) for run, each, at in ends if each.chance >= number(sure.settles)]
    found = replace(
        cover,
        met=frozenset(each.landmark.piece.id for _, each in seen),
        end_seen=end_seen(runs, surely, cover, study),
    )
    for run, each, at in ends:
        said = run.reached or for_another(run, study)
        if said and each.chance >= number(sure.settles):
            slack = sure.may_part(run.went_in or 0.0)
            # Where the push read the other end too, the counter tells it whatever the sheet has before.
            begin = [other.rod for same, other, there in ends if same is run and there != at]
            found = found.seen_to(at, slack, abs(each.rod - begin[-1]) if begin else found.seen_length)
    return found
