"""One opening tried as the plan tells, in every hidden world: with luck, and as the chances have it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from advisor.mechanics.push import Bend, Segment, Straight, pull_out, push_bend, push_straight, reach_straight
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.entry import step_length
from advisor.outcome.opens import opens_share
from advisor.outcome.walk import HardSpot
from advisor.routes.passage import Passage
from tests.bench.simulation.fit import Behind, Fit, fit_of
from tests.bench.simulation.fitting import Fitting, fitting_of, hidden_bend
from tests.bench.simulation.steady import Place
from tests.bench.simulation.tries import STEADY, Try, one_try
from tests.bench.simulation.truth import Numbers, Pipe, Truth

STEEPEST = np.pi / 2
EASY_PUSHES = 2  # whoever misses where no trouble was told of pushes gently once more


@dataclass(frozen=True)
class Happened:
    """What came of one opening in each world, by luck (`seen`, `lost`) and in expectation (`chance`...)."""

    seen: NDArray[np.bool_]
    lost: NDArray[np.bool_]
    minutes: Numbers  # with the harm of what was lost
    chance: Numbers
    loss: Numbers
    expected_minutes: Numbers


class _Tally:
    """Keeps both accounts: `alive` is 0 or 1 by luck in one, a chance in the other."""

    def __init__(self, truth: Truth, key: str, lucky: bool) -> None:
        self.truth, self.key, self.lucky = truth, key, lucky
        self.alive: Numbers = np.ones(truth.count)
        self.lost: Numbers = np.zeros(truth.count)
        self.minutes: Numbers = np.zeros(truth.count)

    def split(self, share: Numbers, among: Numbers, what: str) -> Numbers:
        """The part of `among` that falls to a chance of `share`."""
        if not self.lucky:
            return among * share
        return among * (self.truth.luck(f"luck of {what}, {self.key}") < share)

    def lose(self, part: Numbers, cost: str) -> None:
        """Gear that stays behind or breaks, at its cost; whoever loses it is out."""
        self.lost = self.lost + part
        self.minutes = self.minutes + part * self.truth.tables.costs[cost].likely

    def tries(self, order: list[tuple[str, int, Numbers, Try]], place: Place) -> None:
        """Each technique as often as told, where the plan allows it, until the head is through."""
        costs = self.truth.tables.costs
        stuck, through = self.alive, np.zeros_like(self.alive)
        for technique, count, allowed, made in order:
            set_up = costs.get(f"set up, {technique}")
            for number in range(count):
                if technique != STEADY:  # the first push is part of getting there
                    once = set_up.likely if set_up and number == 0 else 0.0
                    self.minutes = self.minutes + stuck * allowed * (costs[f"try, {technique}"].likely + once)
                what = f"{technique} {number} at {place.key}"
                kinked = self.split(made.kinks * allowed, stuck, "kink, " + what)
                stuck = stuck - kinked
                passed = self.split(made.passes * allowed, stuck, what)
                stuck, through = stuck - passed, through + passed
                wedged = self.split(made.wedges * allowed, stuck, "wedge, " + what)
                stuck = stuck - wedged
                self.lose(kinked, "kink")
                self.lose(wedged, "wedge")
        self.alive = through


def attempt(outcome: RouteOutcome, truth: Truth, hidden_at: str | None = None) -> Happened:
    """Open, push, try as told at each hard passage, draw back; `hidden_at` is the pipe with a hidden bend."""
    return _Walk(outcome, truth, hidden_at).walk()


class _Walk:
    def __init__(self, outcome: RouteOutcome, truth: Truth, hidden_at: str | None) -> None:
        self.outcome, self.truth, self.hidden_at = outcome, truth, hidden_at
        self.gear = truth.gear(outcome.loadout)
        self.planned = {spot.index: spot for spot in outcome.spots}
        zero = np.zeros(truth.count)
        self.at, self.slack, self.turned, self.bends = zero, zero, zero, zero
        self.force, self.tip = truth.limit("push_force"), truth.limit("tip_force")
        self.segments: list[Segment] = []
        self.behind: Behind | None = None
        key = f"{outcome.route.id}, {outcome.loadout.name}"
        self.tallies = (_Tally(truth, key, lucky=True), _Tally(truth, key, lucky=False))

    def walk(self) -> Happened:
        self._open()
        for index, passage in enumerate(self.outcome.route.passages):
            pipes = self.truth.pipe(passage.wall_in), self.truth.pipe(passage.wall_out)
            fitting = fitting_of(passage, self.truth)
            self._meet(f"{passage.piece.id} {passage.enters} {passage.step_number}",
                       self._fits(passage, fitting, pipes), passage, self.planned.get(index))  # fmt: skip
            if passage.piece.id == self.hidden_at:
                self._hidden(passage)
            elif not fitting.turns.any():
                self._straight(passage, 1.0)
        self._draw_back()
        lucky, fair = self.tallies
        seen, lost = lucky.alive > 0.5, lucky.lost > 0.5
        return Happened(seen, lost, lucky.minutes, fair.alive, fair.lost, fair.minutes)

    def _open(self) -> None:
        opening, costs = self.outcome.route.opening, self.truth.tables.costs
        hole = opening.hole
        assert hole is not None
        kind = self.truth.tables.openings[hole.kind]
        share = self.truth.number(f"share of {opening.id} that open", opens_share(hole, self.truth.tables))
        opens = (self.truth.luck(f"does {opening.id} open") < share) | (hole.opens is True)
        before = costs["set_up"].likely + (costs["dig_up"].likely if hole.buried else 0.0)
        minutes = before + self.truth.number(f"minutes to open {opening.id}", kind.open_minutes)
        closing = self.truth.number(f"minutes to close {opening.id}", kind.close_minutes)
        for tally in self.tallies:
            tally.alive = opens.astype(float)
            tally.minutes = minutes + tally.alive * (closing + costs["clean_up"].likely)

    def _fits(self, passage: Passage | None, fitting: Fitting, pipes: tuple[Pipe, Pipe]) -> tuple[Fit, Fit]:
        """As found, and descaled or flushed."""
        clean = pipes[0].cleaned(), pipes[1].cleaned()
        as_found, after = (
            fit_of(passage, fitting, each, self.gear, self.truth, self.behind) for each in (pipes, clean)
        )
        if passage is None or not passage.run:
            return as_found, after
        gaps = self.truth.between_roots(passage.run, passage.wall_out)
        room, cleared = (gap > self.gear.head_diameter for gap in gaps)
        return (
            replace(as_found, turns_head=as_found.turns_head & room),
            replace(after, turns_head=after.turns_head & cleared),
        )

    def _meet(self, key: str, fits: tuple[Fit, Fit], passage: Passage | None, spot: HardSpot | None) -> None:
        """The tries of a passage, then the rod laid through its turn."""
        fit = fits[0]
        place = Place(
            key, *fits, self.gear, self.truth, self.at, self.force, self.slack, self.turned, self.bends
        )
        order = [
            (name, count, _allowed(spot, name, fit.fitting), one_try(name, place))
            for name, count in (spot.order if spot else ((STEADY, EASY_PUSHES),))
        ]
        for tally in self.tallies:
            tally.tries(order, place)
        turns = fit.fitting.turns
        if turns.any():
            self._lay(fit)
            here = passage.piece.id if passage else "hidden"
            self.behind = Behind(fit.fitting, here, np.zeros(self.truth.count))

    def _lay(self, fit: Fit) -> None:
        turns = fit.fitting.turns
        angle = np.where(turns, fit.fitting.angle, 0.0)
        turn = Bend(fit.pipe.friction, angle, fit.load)
        after = np.asarray(push_bend(self.force, *turn))
        self._moved(after, angle * fit.fitting.radius, np.zeros_like(angle))
        self.segments.append(turn)
        self.slack, self.turned, self.bends = self.slack + fit.slack, self.turned + angle, self.bends + turns

    def _straight(self, passage: Passage, share: float) -> None:
        length = self.truth.length(passage.piece) * share
        if passage.step is not None:
            told = step_length(passage, self.truth.tables)
            length = self.truth.number(f"length, step {passage.step_number} of {passage.piece.id}", told)
        if not length.any():
            return
        pipe = self.truth.pipe(passage.wall_out)
        clearance = np.maximum((pipe.bore - self.gear.diameter) / 2, 1e-3)
        run = Straight(length, pipe.friction, self.gear.weight, _downhill(passage), self.gear.stiffness,
                       clearance, self.truth.limit("helical_factor"))  # fmt: skip
        gets = np.asarray(reach_straight(self.force, self.tip, *run[1:]))
        self._moved(np.asarray(push_straight(self.force, *run)), length, np.minimum(gets, length))
        self.segments.append(run)
        if self.behind is not None:
            self.behind = Behind(self.behind.fitting, self.behind.place, self.behind.gap + length)

    def _moved(self, force: Numbers, length: Numbers, gets: Numbers) -> None:
        """On by a length, as far as push and reel go; where either ends, so does the attempt."""
        dies = force < self.tip
        went = np.where(dies, gets, length)
        left = np.maximum(self.gear.reel - self.at, 0)
        ends = dies | (left < length)
        costs = self.truth.tables.costs
        rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
        for tally in self.tallies:
            tally.minutes = tally.minutes + tally.alive * rate * np.minimum(went, left)
            tally.alive = np.where(ends, 0, tally.alive)
        self.force, self.at = force, self.at + length

    def _hidden(self, passage: Passage) -> None:
        """A run of pipe with a bend half-way that nobody told of: one push, and no advice."""
        pipe = self.truth.pipe(passage.wall_out)
        bend = hidden_bend(passage.wall_out, self.truth)
        self._straight(passage, 0.5)
        self._meet("hidden", self._fits(None, bend, (pipe, pipe)), None, None)
        self._straight(passage, 0.5)

    def _draw_back(self) -> None:
        pull = np.asarray(pull_out(self.tip, self.segments))
        limit = np.minimum(self.gear.pull_limit, self.truth.limit("pull_force"))
        share = np.where(pull > limit, self.truth.limit("stuck_share"), 0)
        for tally in self.tallies:
            stuck = tally.split(share, tally.alive, "drawing back")
            tally.lose(stuck, "wedge")
            tally.alive = tally.alive - stuck


def _allowed(spot: HardSpot | None, technique: str, fitting: Fitting) -> Numbers:
    """1 where the plan, told what the camera shows the fitting to be, does not forbid the technique."""
    forbidden = np.zeros(len(fitting.called), bool)
    for ruling in spot.rulings if spot else ():
        if technique in ruling.rejected:
            forbidden |= (fitting.called == ruling.variant) | (ruling.where is None)
    return np.where(forbidden, 0.0, 1.0)


def _downhill(passage: Passage) -> float:
    """The slope that the tip goes down, rad."""
    piece = passage.piece
    if piece.kind == "rise":
        fall = -STEEPEST
    elif piece.kind == "drop" or piece.vertical:
        fall = STEEPEST
    else:
        fall = float(np.arctan(piece.slope.value)) if piece.slope else 0.0
    return -fall if passage.flow == "against" else fall
