"""A push as it stands: everything worked out anew from the log, so that the log alone says what holds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from advisor.push.log.kinds import KINKED, PASSED, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.log.sighting import (
    NOT_BACK,
    Read,
    Sighting,
    Still,
    Stopped,
    Water,
    comes_neither_way,
    sighting_of,
    signs_at,
)
from advisor.push.now.across import ran_across
from advisor.push.now.backs_up import backs_up_still
from advisor.push.now.behind import behind
from advisor.push.now.causes import spots_told
from advisor.push.now.check_now import check_now
from advisor.push.now.course import Met
from advisor.push.now.drains import not_to_run, seen_to_drain, stops_of, water_allowed
from advisor.push.now.evidence import Tried, passed_spots, tries_of
from advisor.push.now.held_back import HeldBack
from advisor.push.now.held_before import held_before
from advisor.push.now.known_drains import Line, line_of
from advisor.push.now.one_push import Push
from advisor.push.now.way_gone import beliefs_of
from advisor.push.now.wrong_port import wrong_port
from advisor.push.track.checks import Check
from advisor.push.track.contrary import Contrary, contrary
from advisor.push.track.fix import Fix, fix_of, warned
from advisor.push.track.ground import Ground, ground_of
from advisor.push.track.lies import Lies
from advisor.push.track.track import Belief
from advisor.push.track.way_back import on_way_back, seen_on_way_in
from advisor.site.mouths import Mouth
from advisor.tables.where import number


@dataclass(frozen=True)
class Now:
    """The push after the entries that stand; `entries` are those since it began, in their order; `before`
    the job's earlier pushes that went in as this one, `others` what others told, `told_back` what may hold
    water back by any."""

    push: Push
    entries: tuple[Entry, ...]
    before: tuple[Now, ...] = ()
    others: tuple[Lies, ...] = ()
    told_back: tuple[HeldBack, ...] = ()

    @cached_property
    def sightings(self) -> tuple[Sighting, ...]:
        """What the entries tell of where the head is."""
        return tuple(found for found in map(sighting_of, self.entries) if found is not None)

    @property
    def belief(self) -> Belief:
        """Where the head may be."""
        return self._beliefs[-1]

    def after(self, count: int) -> Belief:
        """Where it might be after so many of the sightings."""
        return self._beliefs[count]

    @cached_property
    def _beliefs(self) -> tuple[Belief, ...]:
        return beliefs_of(self.push.tracker, self.push.began, self.sightings)

    @cached_property
    def fix(self) -> Fix:
        """Where the head is; no surer than water lets it be that came otherwise than it can there."""
        sure = self.push.tracker.chart.where.sure
        most = sure.certain if self.contrary is None else sure.contradicted
        return fix_of(self.push.tracker, self.belief, number(most))

    @cached_property
    def contrary(self) -> Contrary | None:
        """The water that came by last, where it cannot have come so by where the head is said to be."""
        return contrary(self.push.tracker, self.sightings, self.after)

    @property
    def counter(self) -> float:
        """What the counter shows, m."""
        return self.belief.counter

    def counted(self, rod: float) -> float:
        """What the counter shows with so much rod in, m, as it counts now: it may have been set anew."""
        return rod + self.belief.slack - self.belief.shift

    @property
    def along(self) -> float:
        """How far along the drawn pipes the head most likely is, m; the counter may have run otherwise."""
        return self.fix.best.inside

    @property
    def apart(self) -> bool:
        """Whether counter and sheet cannot both be right: the one lies outside what the other may be."""
        best, rod, sure = self.fix.best, self.belief.rod, self.push.tracker.chart.where.sure
        return abs(best.inside - rod) > sure.may_part(rod) and not best.least <= rod <= best.most

    @cached_property
    def ground(self) -> Ground | None:
        """Where the head is above ground, by the counter; None where it is not sure enough in which pipe."""
        best, study = self.fix.best, self.push.study
        if self.off_map or best.chance < number(study.tables.where.sure.settles):
            return None
        opening, rod = self.push.opening.name, self.belief.rod
        return ground_of(study.network, study.tables, opening, best.line, best.at, rod)

    @property
    def off_map(self) -> bool:
        """True where a pipe that is not on the map must be spoken of."""
        return warned(self.push.tracker, self.fix)

    @cached_property
    def tries(self) -> tuple[Tried, ...]:
        """The tries so far."""
        return tries_of(self.entries, self.rods, self.astray)

    @cached_property
    def astray(self) -> dict[int, str]:
        """The tries told as passed, by their entries, by which it ran straight across a double fitting."""
        return ran_across(self.told, self.push.tracker, self.push.course)

    @cached_property
    def passed(self) -> frozenset[str]:
        """The hard spots that were passed by a try and not drawn back from since.

        A run with roots is none of them: past one joint of it the next is ahead.
        """
        runs = {met.name for met in self.push.course.spots if met.run}
        return passed_spots(self.entries, self.astray) - runs

    @cached_property
    def held_at(self) -> tuple[Met | None, bool]:
        """The hard spot where the head was last held, and whether it was held at all and is still there."""
        told, neither = self.sightings, self.neither_way
        if neither:  # whatever was read or seen since
            told = tuple(each for each in told if isinstance(each, Stopped | Still))
        place = next((i for i in reversed(range(len(told))) if not isinstance(told[i], Read | Water)), None)
        last = None if place is None else told[place]
        if not isinstance(last, Stopped | Still) or self._passed_since:
            return None, neither
        # Read elsewhere since, by more than is judged as one place, it is held there no longer.
        since = (each.counter for each in told[place or 0 :] if isinstance(each, Read))
        if any(abs(read - last.counter) >= self.push.tracker.chart.cell for read in since):
            return None, False
        best = next(iter(self.spots_told), None)
        if best is not None and best[1] > 0.5:
            return best[0], True
        spread = number(self.push.tracker.chart.where.stopped.spread)
        return held_before(self.entries, self.rods, self._last_stop, self.spots_told, spread), True

    @cached_property
    def on_way_out(self) -> bool:
        """Whether the head was last held while it was drawn out."""
        last = self._last_stop
        return last is not None and on_way_back(self.rods, last, self.push.tracker.chart.cell)

    @cached_property
    def told(self) -> tuple[tuple[Entry, Belief], ...]:
        """Each entry, and where the head might be after it."""
        counts = accumulate(sighting_of(entry) is not None for entry in self.entries)
        return tuple((e, self.after(count)) for e, count in zip(self.entries, counts, strict=True))

    @property
    def rods(self) -> tuple[float, ...]:
        """How much rod the head was out by after each entry, m."""
        return tuple(belief.rod for _, belief in self.told)

    @property
    def _last_stop(self) -> int | None:
        """The place among the entries of the last stop."""
        return next((i for i in reversed(range(len(self.entries))) if self.entries[i].kind == STOPPED), None)

    @cached_property
    def spots_told(self) -> tuple[tuple[Met, float], ...]:
        """Each hard spot with the chance that it holds the head, by where it was held and by the signs."""
        return spots_told(
            self.push.course, self.spots_here, self.signs, self.tries, self.rooted, self.on_way_out
        )

    @cached_property
    def spots_here(self) -> tuple[tuple[Met, float], ...]:
        """Each hard spot with the chance that the head is held there; none that is behind it for certain."""
        course, tracker = self.push.course, self.push.tracker
        gone = behind(course.spots, self.entries, tracker, self.belief, self.after)
        here = course.spots_here(tracker, self.belief, self.on_way_out)
        return tuple(each for each in here if each[0].name not in gone)

    @cached_property
    def rooted(self) -> Met | None:
        """The run in which the plan foresees roots, be they but notable, and the head most likely is."""
        return self.push.course.among_roots(self.push.tracker, self.belief)

    @cached_property
    def may_be_rooted(self) -> tuple[Met, ...]:
        """The runs in which the plan foresees roots and the head may well be, likeliest first."""
        return self.push.course.may_be_among_roots(self.push.tracker, self.belief)

    @cached_property
    def was_held(self) -> frozenset[str]:
        """The hard spots, by name, that have held the head in this push."""
        met, _ = self.held_at
        tried = (tried.spot for tried in self.tries if tried.spot and not tried.passed)
        return frozenset((*tried, met.name)) if met else frozenset(tried)

    @property
    def _passed_since(self) -> bool:
        """Whether a try has passed since the head was last held."""
        last = next((entry for entry in reversed(self.entries) if entry.kind in (TRY, STOPPED)), None)
        return last is not None and last.kind == TRY and last.data.get("outcome") == PASSED

    @cached_property
    def signs(self) -> frozenset[str]:
        """What was seen and felt where the head was last held, by its stop and by the tries there.

        Held on the way out, what the lens showed there on the way in is there still.
        """
        last, where = self._last_stop, self.push.tracker.chart.where
        found = frozenset[str]() if last is None else signs_at(self.entries, last)
        if last is not None and self.on_way_out:
            found |= seen_on_way_in(self.push.began, self.entries, self.rods, last, where)
        return found | {NOT_BACK} if self.neither_way else found

    @cached_property
    def neither_way(self) -> bool:
        """Whether the head was told to come neither way, and not that it came free since."""
        return comes_neither_way(self.entries)

    @property
    def kinked(self) -> bool:
        """Whether a try of this push has kinked rod or spring: no later one takes that back."""
        return any(entry.kind == TRY and entry.data.get("outcome") == KINKED for entry in self.entries)

    @property
    def water_allowed(self) -> bool | None:
        """Whether water may be run: yes, no, or first to be seen (None)."""
        return water_allowed(self.push.study.circumstances, self.drains)

    @property
    def drains(self) -> bool | None:
        """What this push has shown of the line: it runs away, it stands, or nothing since it was stopped."""
        return seen_to_drain((self.push.began, *self.entries), self.push.study.tables, self.astray)

    @cached_property
    def stops(self) -> tuple[int, ...]:
        """The stops, by their place among the entries, that may hold water back."""
        return stops_of(self.entries, self.push.study.tables, self.astray)

    @property
    def backs_up(self) -> tuple[str, ...]:
        """What was told to back up, unless water has been seen to run away in this push."""
        given = self.push.study.circumstances.backs_up
        return backs_up_still(given, (self.push.began, *self.entries), self.drains)

    @property
    def doubtful(self) -> bool:
        """Whether it is still to be seen that the line drains, whatever was said of it."""
        given = self.push.study.circumstances
        told = (given.holding is False and not given.drains_at_door) or self.drains is True
        return bool(not told or self.backs_up or self.stops or self.held_back)

    @cached_property
    def held_back(self) -> tuple[HeldBack, ...]:
        """What earlier pushes told that may hold water back, and this one has not settled."""
        entries, where = (self.push.began, *self.entries), self.push.study.tables.where
        return tuple(each for each in self.told_back if each.still(entries, where))

    @cached_property
    def line(self) -> Line:
        """What is known of whether the line drains, and what of the job backed up."""
        return line_of(self.push, self.entries, self.told_back, self.drains, self.doubtful)

    @cached_property
    def not_to_run(self) -> frozenset[str]:
        """The fixtures that nobody is told to run before the line is seen to drain."""
        here = not_to_run(self.push.tracker, self.backs_up, self.stops, lambda stop: self.told[stop][1])
        return here.union(*(each.above for each in self.held_back))

    @cached_property
    def check(self) -> Check | None:
        """The check worth making now; None where it is sure enough or no water may be run."""
        if self.water_allowed is False:
            return None
        return check_now(self.push, self.belief, self.fix, self.sightings, self.not_to_run, self.line)

    @cached_property
    def wrong_port(self) -> Mouth | None:
        """The mouth that the plan goes in by, where the head was found to have gone in by another."""
        return wrong_port(self.push.tracker, self.push.course, self.belief, self.fix.most)
