"""What must not be passed, over a whole push: once told, where it may begin never moves outward.

It may begin at the least that the sheet's own lengths allow, as plan and card have it: from the opening, or
from what a look settled.
That the head went on unseen does not show that a trap, a valve or a tank lies further off than it was told:
the sheet may be wrong, and the head in it. Only a look settles it, at something whose place is known. A trap
that was seen stands at its reading, in every later push from there too, until a look beyond it settles it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf

from advisor.push.before.found_ahead import Found, found_ahead, found_on_way
from advisor.push.before.found_before import Heed, landmark_heeded
from advisor.push.log.sighting import PIPE_END, POOL, TRAP, Read, Reset, Seen, Water
from advisor.push.now.ahead import NotPast, lies_at, may_not_pass, on_map, on_way_to
from advisor.push.now.now import Now
from advisor.push.track.fix import called
from advisor.push.track.landmarks import Landmark
from advisor.push.track.track import Belief, Tracker
from advisor.push.track.ways import Way
from advisor.result.beyond import least
from advisor.site.network import Piece
from advisor.tables.where import number

_SETTLES_NOTHING = (POOL, TRAP, PIPE_END)  # what such a thing itself looks like


@dataclass(frozen=True)
class Limit:
    """The nearest thing that the head must not go past; `stop` None where the map has none.

    `within` is whether the head is where it may begin, `water` whether standing water was told there, and
    `seen` whether a trap or the end itself is told to be before the lens, `other` what it is where that is
    not that nearest thing; `past` whether the head has come past a find that no head goes past,
    `before` whether it is near one, `at` whether it has come to one and not past it.
    """

    stop: NotPast | None
    within: bool
    water: bool
    seen: bool
    other: Heed | None = None
    past: bool = False
    before: bool = False
    at: bool = False

    @property
    def only_back(self) -> bool:
        """Whether nothing is next but the way back."""
        return self.water or self.seen or self.past

    @property
    def nothing_ahead(self) -> bool:
        """Whether nothing that lies further on is next, though what was found here is still to be told."""
        return self.only_back or self.at


def limit_of(now: Now) -> Limit:
    """As the push stands, with everything that was told of it since a look settled it."""
    stop, seen = _as_seen(_nearest(now), now), _before_lens(now)
    within = stop is not None and stop.holds is not None and now.counter >= stop.low
    water = within and seen is not None and seen.kind == POOL
    # A trap stands as the stop of the map, which a look beyond it settles; a hole is there still.
    bars = [each for each in found_ahead(now) if each.heed.not_past and each.heed.kind != TRAP]
    return Limit(
        stop,
        within,
        water,
        seen is not None and seen.kind in (TRAP, PIPE_END),
        None if seen is None or _is_it(now, seen, stop) else _bar(now, seen),
        past=any(each.behind for each in bars),
        before=any(now.counter >= each.slow_from for each in bars),
        at=any(not each.behind and now.belief.rod > each.rod - now.push.tracker.chart.cell for each in bars),
    )


def _nearest(now: Now) -> NotPast | None:
    """What was told since a look settled it and may still be on the way, as the counter stands now."""
    tracker, told = now.push.tracker, dict[str, NotPast]()
    first_count, mark = _settled(now)
    for count in range(first_count, len(now.sightings) + 1):
        belief = now.after(count)
        for each in may_not_pass(tracker, belief):
            first = told.get(each.piece.id)
            nearest = _least(tracker, belief, each.piece, mark, now.after(first_count).rod)
            low = min(each.low + belief.shift, nearest)
            told[each.piece.id] = replace(each, low=low if first is None else min(first.low, low))
    last = {each.piece.id: each for each in may_not_pass(tracker, now.belief)}
    slow, shift = number(tracker.chart.where.sure.warn_before), now.belief.shift
    tell = number(tracker.chart.where.sure.tell_next)
    found = []
    for name, each in told.items():
        if name in last or on_way_to(tracker, now.belief, each.piece) >= tell * on_map(now.belief):
            low, stands = each.low - shift, last.get(name, each)
            likely = stands.likely if name in last else low
            high = max(stands.high, low)
            found.append(replace(stands, low=low, likely=likely, high=high, slow_from=low - slow))
    return min(found, key=lambda each: each.likely, default=None)


def _least(tracker: Tracker, belief: Belief, piece: Piece, mark: Landmark | None, rod: float) -> float:
    """How much rod it takes at the least to a piece, m: from what a look settled with so much `rod` in, on
    a way that does not pass that from the opening.

    Over the ways that well may be: a counter may run fast, and the eye that read it is off.
    """
    by_way, well = belief.mass.sum(axis=(0, 2)), number(tracker.chart.where.sure.tell_next) * on_map(belief)
    ways = [tracker.chart.ways[r] for r, _ in lies_at(tracker, piece) if by_way[r] >= well]
    fastest, nearest = float(tracker.rates.max()), inf
    for way in ways:
        if mark is None or not _seen_on(way, mark):
            nearest = min(nearest, shortest(way, piece, None) / fastest)
        else:
            off = number(tracker.chart.where.seen[mark.kind].spread)  # type: ignore[index]
            nearest = min(nearest, rod + shortest(way, piece, mark) / fastest - off)
    return nearest


def shortest(way: Way, piece: Piece, mark: Landmark | None) -> float:
    """The least of all lengths of a way from a mark on it, or from its begin, up to a piece, m."""
    until = next(leg.start for leg in way.legs if leg.piece.id == piece.id)
    begin = 0.0 if mark is None else min(_seen_on(way, mark), default=inf)
    if begin > until:
        return inf  # the head was seen beyond it
    return sum(
        leg.length if leg.enters == "hole" else min(least(leg.piece.length), leg.length)
        for leg in way.legs
        if begin <= leg.start < until
    )


def _seen_on(way: Way, mark: Landmark) -> list[float]:
    """How far along a way a mark is seen, m: a chamber also from where the way turns away from it."""
    seen = [each.at for each in way.landmarks if each.piece.id == mark.piece.id]
    return seen or [leg.start for leg in way.legs if leg.piece.id == mark.piece.id]


def _as_seen(stop: NotPast | None, now: Now) -> NotPast | None:
    """It where a trap was seen, if the sheet has one ahead: nearer than that it need not be looked for."""
    trap = seen_trap(now)
    if trap is None or stop is None or not _a_trap(stop):
        return stop
    tracker, sure = now.push.tracker, now.push.tracker.chart.where.sure
    # Seen on its way, all before it was passed open; else it may be another, and this one nearer.
    its = on_way_to(tracker, trap.then, stop.piece) >= number(sure.settles) * on_map(trap.then)
    low = trap.low if its else min(stop.low, trap.low)
    slow, high = low - number(sure.warn_before), max(low, trap.reading + trap.off)
    return replace(stop, low=low, likely=trap.reading, high=high, slow_from=slow)


def _a_trap(stop: NotPast | None) -> bool:
    return stop is not None and stop.holds is not None and stop.holds.endswith("trap")


def seen_trap(now: Now) -> Found | None:
    """The first trap on the way that was seen, in an earlier push too; none that a look lies beyond."""
    settled = now.after(_settled(now)[0]).rod
    seen = (each for each in found_on_way(now) if each.heed.kind == TRAP and settled <= each.rod)
    return min(seen, key=lambda each: each.rod, default=None)


def _settled(now: Now) -> tuple[int, Landmark | None]:
    """After how many sightings a look last settled where the head is, and at what."""
    sure = number(now.push.tracker.chart.where.sure.settles)
    for count in range(len(now.sightings), 0, -1):
        sighting = now.sightings[count - 1]
        if isinstance(sighting, Seen) and sighting.kind not in _SETTLES_NOTHING:
            best = called(now.push.tracker, now.after(count), sighting, sure)
            if best is not None:
                return count, best.landmark
    return 0, None


def _before_lens(now: Now) -> Seen | None:
    """The landmark that was told last, while the head has not moved on from it."""
    cell = now.push.tracker.chart.cell
    for count in range(len(now.sightings), 0, -1):
        told = now.sightings[count - 1]
        # By the rod that was out: the counter may have been set anew since.
        if abs(now.after(count).rod - now.belief.rod) >= cell:
            return None
        if not isinstance(told, Water | Read | Reset):
            return told if isinstance(told, Seen) else None
    return None


def _bar(now: Now, seen: Seen) -> Heed | None:
    """A trap or an end of which the map knows nothing, or has it elsewhere: it was seen all the same."""
    heed = landmark_heeded(seen.kind, now.push.study.tables)
    return heed if heed is not None and heed.not_past else None


def _is_it(now: Now, seen: Seen, stop: NotPast | None) -> bool:
    """Whether what is before the lens is that thing of the map."""
    if seen.kind != PIPE_END:
        return seen.kind == TRAP and _a_trap(stop)
    best = called(now.push.tracker, now.belief, seen)
    return best is not None and stop is not None and best.landmark.piece.id == stop.piece.id
