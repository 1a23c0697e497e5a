"""Pushes through random drains, told to the filter, and how often it was right."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import dataclass, field

import numpy as np

from advisor.push.log.sighting import Read, Seen, Sighting, Stopped, Water
from advisor.push.track.chart import Chart
from advisor.push.track.checks import checks
from advisor.push.track.fix import Fix, fix_of, warned
from advisor.push.track.track import Tracker
from advisor.push.track.ways import ways_from
from advisor.site.build import network_of
from advisor.site.network import Network
from advisor.site.sheet import site_of_text
from advisor.tables.load import Tables
from advisor.tables.where import number
from tests.bench.tracker.drains import Drain, random_drain, sheet_of
from tests.bench.tracker.pushes import GOOD, HIDDEN, POOR, Push, Told

NEAR = 0.5  # m
ROD = 45.0  # m
MOST_TESTS = 3
SIGHTINGS = (1, 2, 3, 4, 5, 6)


class Drawn:
    """The true drain as it is drawn on the sheet: what is told is read off the sheet, so that is right which
    lies between the same forks there."""

    def __init__(self, drain: Drain, network: Network) -> None:
        self.true, self.drain = drain, deepcopy(drain)
        self._marks: dict[str, tuple[list[float], list[float]]] = {}
        for name, line in self.drain.lines.items():
            tops = network.positions(name)
            forks = {p.branch: tops[p.id] for p in network.pieces.values() if p.branch and p.line == name}
            last = network.pieces[network.lines[name][-1]]
            marks = [(0.0, 0.0), (line.length, tops[last.id] + last.along)]
            marks += [(at, forks[joined]) for at, joined, _ in line.joins]
            if name == drain.start[0]:
                opening = next(p.id for p in network.openings() if p.name == "way in")
                marks.append((drain.start[1], tops[opening]))
            self._marks[name] = tuple(map(list, zip(*sorted(marks), strict=True)))  # type: ignore[assignment]
            line.length = tops[last.id] + last.along
            line.joins = [(forks[joined], joined, side) for _, joined, side in line.joins]
        self.drain.start = (drain.start[0], self.place(*drain.start))

    def place(self, line: str, at: float) -> float:
        """A true place as it lies on the sheet."""
        return float(np.interp(at, *self._marks[line]))


@dataclass
class Tally:
    """What came of a batch of pushes."""

    right: dict[int, list[bool]] = field(default_factory=lambda: {n: [] for n in SIGHTINGS})
    exact: dict[int, list[bool]] = field(default_factory=lambda: {n: [] for n in SIGHTINGS})
    counter: dict[int, list[bool]] = field(default_factory=lambda: {n: [] for n in SIGHTINGS})
    off_by: dict[int, list[float]] = field(default_factory=lambda: {n: [] for n in SIGHTINGS})
    covered: list[bool] = field(default_factory=list)
    stated: list[tuple[float, bool]] = field(default_factory=list)  # each place told, right or not
    stated_lost: list[tuple[float, bool]] = field(default_factory=list)  # the same once it left the map
    lengths: list[float] = field(default_factory=list)  # m, of each push
    flagged: list[bool] = field(default_factory=list)  # off the map, one a push that left it
    alarms: list[bool] = field(default_factory=list)  # told on a push that never left it

    def add(self, other: Tally) -> None:
        for n in SIGHTINGS:
            self.right[n] += other.right[n]
            self.exact[n] += other.exact[n]
            self.counter[n] += other.counter[n]
            self.off_by[n] += other.off_by[n]
        self.covered += other.covered
        self.stated += other.stated
        self.stated_lost += other.stated_lost
        self.lengths += other.lengths
        self.flagged += other.flagged
        self.alarms += other.alarms


def network_tally(seed: int, pushes: int, poor: bool, lost: bool, tables: Tables) -> Tally:
    """So many pushes through one random drain."""
    draw = np.random.Generator(np.random.PCG64([seed, poor, lost]))
    drain = random_drain(np.random.Generator(np.random.PCG64(seed)))
    sheet = sheet_of(
        drain, draw, 0.15 if poor else 0.02, "sketch" if poor else "measured", 0.5 if poor else 0.8
    )
    network = network_of(site_of_text(sheet, "invented", tables), tables)
    opening = next(piece for piece in network.openings() if piece.name == "way in")
    ways, _ = ways_from(network, opening, ROD, tables)
    tracker = Tracker(Chart(network, ways, tables.where), network.map_quality)
    tally, drawn = Tally(), Drawn(drain, network)
    for _ in range(pushes):
        _push(Push(drain, POOR if poor else GOOD, draw, lost), tracker, drawn, tally)
    return tally


def _push(push: Push, tracker: Tracker, drawn: Drawn, tally: Tally) -> None:
    drain = drawn.true
    belief, told, tests, flagged = tracker.start(), 0, 0, False
    run: set[str] = set()
    ahead = list(push.sightings())
    if drain.both_ways:
        # Which way an opening leads is asked of water first, some 3 m in.
        ahead.insert(sum(away < 3.6 for _, away in ahead), (Told("test", push.counter(3.6)), 3.6))
    queue = ahead
    while queue:
        now, away = queue.pop(0)
        if now.kind == "test":
            best = next(iter(checks(tracker, belief, frozenset(run), (False,))), None)
            if best is None:
                continue
            run.add(best.fixture)
            tests += 1
            seconds, side = push.water(best.fixture, away)
            sighting: Sighting = Water(now.counter, best.fixture, seconds, side=side or None)
        else:
            run = run if now.kind == "test" else set()
            sighting = _sighting(now)
        belief = tracker.after(belief, sighting)
        fix = fix_of(tracker, belief)
        told += 1
        _score(fix, push, away, told, tally, now.counter, drawn)
        if push.left_at is None or away > push.left_at:
            flagged = flagged or warned(tracker, fix)
        unsure = fix.best.chance < number(tracker.chart.where.sure.check_below)
        last = not queue
        if tests < MOST_TESTS and (unsure or (last and told < max(SIGHTINGS))):
            queue.insert(0, (Told("test", now.counter), away))
    tally.lengths.append(push.length)
    if push.left_at is None:
        tally.alarms.append(flagged)
    else:
        tally.flagged.append(flagged)


def _sighting(told: Told) -> Sighting:
    if told.kind == "stopped":
        return Stopped(told.counter)
    if told.kind == "nothing":
        return Read(told.counter)
    return Seen(told.counter, told.kind, told.clock, told.size)


def _score(fix: Fix, push: Push, away: float, told: int, tally: Tally, counter: float, drawn: Drawn) -> None:
    line, place, down = push.where(away)
    if told > max(SIGHTINGS):
        return
    if line == HIDDEN:
        tally.stated_lost.append((fix.best.chance, False))
        return
    named = (fix.best.line, fix.best.at)
    line_right = fix.best.line == line and fix.best.with_flow == down
    tally.exact[told].append(line_right)
    on_sheet = (line, drawn.place(line, place))
    near = _near_edge(drawn.drain, on_sheet, named)
    tally.right[told].append(near)
    tally.stated.append((fix.best.chance, near))
    if fix.best.line == line:
        tally.off_by[told].append(abs(fix.best.at - place))
        if told >= 3 and line_right:
            tally.covered.append(fix.best.low - 0.1 <= place <= fix.best.high + 0.1)
    # The counter alone: straight on from the opening, one way or the other at even odds.
    guess = _straight_on(drawn.drain, counter, down=(told + round(counter * 10)) % 2 == 0)
    tally.counter[told].append(_near_edge(drawn.drain, on_sheet, guess))


def _near_edge(drain: Drain, truth: tuple[str, float], named: tuple[str, float]) -> bool:
    """Whether the named place is on the true edge (the pipe from fork to fork), or within reach of it."""
    line, place = truth
    forks = [at for at, _, _ in drain.lines[line].joins] + (
        [drain.start[1]] if line == drain.start[0] else []
    )
    low = max((at for at in forks if at <= place), default=0.0)
    high = min((at for at in forks if at > place), default=drain.lines[line].length)
    ends = [low, high] if named[0] != line else [min(max(named[1], low), high)]
    return any(_apart(drain, (line, end), named) <= NEAR for end in ends)


def _apart(drain: Drain, one: tuple[str, float], other: tuple[str, float]) -> float:
    """The way along the pipes between two places, m; the sewer goes on where the house drain ends."""
    if other[0] not in drain.lines:
        end = (drain.main, drain.lines[drain.main].length)
        return other[1] + _apart(drain, one, end)
    if one[0] == other[0]:
        return abs(one[1] - other[1])
    down = {}
    name, run, at = one[0], 0.0, one[1]
    while True:
        down[name] = (run, at)
        parent = drain.parent(name)
        if parent is None:
            break
        run, name, at = run + drain.lines[name].length - at, parent[0], parent[1]
    name, run, at = other[0], 0.0, other[1]
    while name not in down:
        parent = drain.parent(name)
        assert parent is not None, "all lines run into the house drain"
        run, name, at = run + drain.lines[name].length - at, parent[0], parent[1]
    return run + abs(at - down[name][1]) + down[name][0]


def _straight_on(drain: Drain, counter: float, down: bool) -> tuple[str, float]:
    line, at = drain.start
    run = max(counter - 0.6, 0.0)
    if drain.both_ways and not down:
        return line, at - run
    over = at + run - drain.lines[line].length
    return (line, at + run) if over < 0 else ("public sewer", over)
