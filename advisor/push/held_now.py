"""A head that is held in a push as it stands: one place from which every screen has what to say of it."""

from __future__ import annotations

from dataclasses import replace

from advisor.push.before.elsewhere import causes_told
from advisor.push.before.limit import limit_of
from advisor.push.before.stops import Stop, stops_told
from advisor.push.held.stuck import Stuck, stuck
from advisor.push.log.found import tells_roots
from advisor.push.log.kinds import FIND, MACHINE, SIGHTING
from advisor.push.log.machine_run import ran_beside
from advisor.push.now.across import across, at_wall
from advisor.push.now.causes import causes_of
from advisor.push.now.course import Met
from advisor.push.now.drains import drained_before
from advisor.push.now.evidence import Tried, weights_of
from advisor.push.now.here import pieces_here
from advisor.push.now.known_drains import Known
from advisor.push.now.now import Now
from advisor.push.now.plight import Plight
from advisor.push.now.turn_near import near_here
from advisor.push.now.watched import watched_words
from advisor.tables.conditions import ROOTS
from advisor.tables.where import number

_SAME = 1e-6  # m: one reading, told twice


def held_now(now: Now) -> Stuck | None:
    """What to say of the head where it is held now; None where it is not."""
    met, held = now.held_at
    return found_of(now, now, met, now.signs, now.belief.rod) if held else None


def found_of(
    now: Now,
    then: Now,
    met: Met | None,
    signs: frozenset[str],
    rod: float,
    tries: tuple[Tried, ...] | None = None,
) -> Stuck:
    """What to say `now` of a head that is held with these signs where it was `then`, `rod` m in.

    `tries` where they are those of another push.
    """
    tries = now.tries if tries is None else tries
    may_be = () if met else may_be_at(then)
    told = causes_told(then, met)
    out = then.on_way_out  # then the rod may hang at any turn behind it
    near = () if out else near_here(then)
    plight = replace(plight_of(now), through=rod_through(then), out=out, elsewhere=told, near=near)
    tracker, tables = now.push.tracker, now.push.study.tables
    if met is None and (over := across(tracker, then.belief)) is not None:
        no_wall = at_wall(tracker, then.belief, tables) < number(tables.stuck.tell.here)
        plight = replace(plight, across=over.chance, no_wall=no_wall)
    return stuck(now.push.course, met, signs, tries, rod, pieces_here(then), plight, may_be)


def may_be_at(now: Now) -> tuple[Met, ...]:
    """The hard spots that may well hold the head, by its place or after the signs; each run with roots that
    it may well be in."""
    least = number(now.push.study.tables.stuck.tell.here)
    each = (met for met, share in (*now.spots_told, *now.spots_here) if share >= least)
    # Two runs of one line share their name, and may not forbid the same.
    return tuple({(met.name, met.key): met for met in (*each, *now.may_be_rooted)}.values())


def plight_of(now: Now) -> Plight:
    """What this push has shown of line and rod."""
    limit, roots = limit_of(now), roots_met(now, now.push.tracker.chart.cell)
    in_it = limit.stop.holds if limit.stop is not None and limit.within else None
    beside = ran_beside(now.entries)
    seen, through = roots_seen(now), rod_through(now)
    plight = Plight(now.drains, now.kinked, beside, roots, in_it, through, found=limit.before)
    not_yet = now.line.known < Known.RAN and bool(now.line.backed)
    plight = replace(plight, still_look=not_yet, watched=watched_words(now))
    drained = drained_before((now.push.began, *now.entries), now.drains)
    told = bool(now.held_back) or any(now.entries[place].kind in (FIND, SIGHTING) for place in now.stops)
    return replace(plight, roots_seen=seen, drained=drained, held_back=told)


def roots_seen(now: Now) -> bool:
    """Whether roots were told in any push of the job, cut since or not: as what held a head, as a find or as
    what a machine brought back."""
    told = [entry for push in (*now.before, now) for entry in push.entries]
    finds = now.push.study.tables.finds
    brought = (entry.data.get("brought") == ROOTS for entry in told if entry.kind == MACHINE)
    elsewhere = (finds.tells(ROOTS, each.what) for each in now.others)
    return any(tells_roots(entry, finds) for entry in told) or any(brought) or any(elsewhere)


def rod_through(now: Now) -> tuple[Met, ...]:
    """The hard spots of the plan that the head has most likely left behind, so that the rod lies in them."""
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=0)
    spread, least = number(chart.where.stopped.spread), number(now.push.study.tables.stuck.tell.likely)
    found = []
    for met in now.push.course.spots:
        lies = ((mass[r], met.along(way)) for r, way in enumerate(chart.ways))
        past = sum(float(each[chart.x > at + spread].sum()) for each, at in lies if at is not None)
        if past >= least * float(mass.sum()):
            found.append(met)
    return tuple(found)


def roots_met(now: Now, past: float) -> tuple[float, ...]:
    """The readings at which roots held the head in this push, where it is `past` m beyond them or more.

    Where a try has passed them it is past them at that reading.
    """

    def behind(stop: Stop) -> bool:
        least = min(past, 0.0) if stop.passed else past
        return now.belief.rod - stop.rod >= least - _SAME and not stop.cleared

    held = (stop for stop in stops_told(now) if behind(stop) and _by_roots(now, stop))
    return tuple(sorted(stop.reading(now) for stop in held))


def _by_roots(now: Now, stop: Stop) -> bool:
    """Whether roots were seen before the head there or most likely held it."""
    if ROOTS in stop.signs:
        return True
    then = stop.then
    course = now.push.course
    met, _ = then.held_at
    told = causes_of(course, met, stop.signs, weights_of(course, then.tries), then.on_way_out)[0]
    return told.name == ROOTS and told.chance >= number(now.push.study.tables.stuck.tell.likely)
