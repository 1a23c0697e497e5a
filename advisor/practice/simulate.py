"""The simulated push: state and action in, next state out. Physics decides, luck is a keyed uniform.

In the hidden world one try passes with the planner's own chance; the uniform is keyed by passage, technique
and number of the try. A technique tried more often than the book counts only repeats its last try: what two
quick pushes did not win, a third in the same corner does not win either.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from advisor.outcome.attempts import STEADY
from advisor.practice import acts, signs
from advisor.practice.acts import Act, State, Step, Way
from advisor.practice.luck import Luck, Try
from advisor.practice.truth import Truth
from advisor.result.study import Study


class Push:
    """A simulated push through one hidden world of a study."""

    def __init__(self, study: Study, number: int) -> None:
        self.study, self.truth = study, Truth(study, number)
        self.luck = Luck(self.truth)
        self.easy_below = study.drawn.likely("hard_chance")
        self.easy_pushes = self.luck.easy_pushes
        self.start = State(hands=study.drawn.likely("hand_near"))
        self._believed_hard: dict[Way, frozenset[int]] = {}

    # What may be done

    def ways(self) -> tuple[Way, ...]:
        """Every way in that shows the whole target, each with each loadout that may be used there."""
        return tuple(
            (o.route.id, o.loadout.name)
            for o in self.study.outcomes
            if o.route.covers >= 1 and not o.way.closed
        )

    def legal(self, state: State) -> tuple[Act, ...]:
        """The actions that somebody standing there could do; none once it has ended."""
        if state.ended:
            return ()
        if state.way is None:
            ways = [way for way in self.ways() if way not in state.left]
            return (*(Act(acts.OPEN, way) for way in ways), Act(acts.GIVE_UP))
        at_a_stop = state.shown == state.index  # there the feel of a firm push is foretold first
        firm = [Act(acts.FIRM, expects=feel) for feel in acts.FEELS] if at_a_stop else [Act(acts.FIRM)]
        pushes = [Act(acts.SLOW), *firm]
        found = [*pushes, Act(acts.LOOK), Act(acts.CHANGE), Act(acts.GIVE_UP)]
        if state.hands / 2 >= self.study.drawn.likely("hand_breadth"):
            found.append(Act(acts.CLOSER))
        if state.index:
            found.append(Act(acts.BACK))
        if at_a_stop:
            found += [Act(kind) for kind in (acts.QUICK, acts.TURN, acts.STRING, acts.GUIDE, acts.CLEAN)]
            found += [Act(acts.WATER, fixture=each) for each in self.fixtures()]
        return tuple(found)

    def fixtures(self) -> tuple[str, ...]:
        """Where water can be run: the names of fixtures at the upper ends of lines."""
        names = [p.name for p in self.study.network.pieces.values() if p.hole and p.hole.fixture]
        return tuple(dict.fromkeys(names))

    def stops_before(self, way: Way, index: int, force: float) -> bool:
        """True where somebody careful stops to look: hard in truth, or by the plan where there is something.

        What the plan only took to be likely, as roots somewhere in a run or a narrow pipe behind the opening,
        may not be there: then the lens shows open pipe, and nobody stops.
        """
        if way not in self._believed_hard:
            believed = self.truth.believed(way)
            self._believed_hard[way] = frozenset(spot.index for spot in believed.spots)
        spot, _ = self.truth.tries(way, index, force)
        foreseen = index in self._believed_hard[way] and signs.there(spot.shape) != signs.OPEN_PIPE
        return foreseen or float(spot.plain.passes[0]) < self.easy_below

    # What comes of it

    def act(self, state: State, act: Act) -> State:
        """What follows; the same world and the same actions always give the same."""
        assert act in self.legal(state), act
        if act.kind == acts.OPEN:
            return self._opened(state, act)
        if act.kind == acts.GIVE_UP:
            after = replace(state, ended=acts.GAVE_UP)
            return self._step(state, after, act, "You pack up.")
        if act.kind == acts.CHANGE:
            assert state.way is not None
            after = replace(
                state, way=None, left=(*state.left, state.way), index=0, counter=0.0, farthest=0.0,
                tries=(), shown=-1, died=False, hands=self.start.hands,
            )  # fmt: skip
            return self._step(state, after, act, "You draw out and close up.")
        if act.kind == acts.CLOSER:
            after = replace(state, hands=state.hands / 2, died=False)
            return self._step(state, after, act, "Your hands are closer to the opening.")
        if act.kind == acts.LOOK:
            after = replace(state, minutes=state.minutes + self.study.tables.costs["look"].likely)
            return self._step(state, after, act, "")
        if act.kind == acts.BACK:
            return self._back(state, act)
        if act.kind in (acts.SLOW, acts.FIRM) and state.shown != state.index:
            return self._onward(state, act)  # in open pipe a firm hand only gets there the same
        return self._tried(state, act)

    def _opened(self, state: State, act: Act) -> State:
        way = act.way
        assert way is not None
        walk = self.truth.outcome(way).walk
        minutes = state.minutes + float(walk.opening_minutes[0])
        if walk.survive[0][0] < 0.5:
            after = replace(state, left=(*state.left, *self._same_hole(way)), minutes=minutes)
            return self._step(state, after, act, "It does not open, or it is not there.")
        after = replace(
            state, way=way, index=0, counter=0.0, farthest=0.0, tries=(), shown=-1, minutes=minutes
        )
        return self._step(state, after, act, "It is open, and the head is in.")

    def _same_hole(self, way: Way) -> tuple[Way, ...]:
        """Every way in by the opening of this one: what does not open does not open for another reel."""
        hole = self.truth.outcome(way).route.opening.id
        return tuple(w for w in self.ways() if self.truth.believed(w).route.opening.id == hole)

    def _back(self, state: State, act: Act) -> State:
        way = state.way
        assert way is not None
        index = max(state.index - 1, 0)
        stations = self.truth.outcome(way).march.stations
        after = replace(state, index=index, counter=float(stations[index].at[0]), shown=-1, died=False)
        return self._step(state, after, act, "The head comes back to the fitting before.")

    def _onward(self, state: State, act: Act) -> State:
        """On through what is easy, up to the next place that wants a look."""
        way = state.way
        assert way is not None
        force = self.truth.push(way, state.hands, firm=False)
        march, index = self.truth.march(way, force), state.index
        reach, count = float(march.reach[0]), len(march.stations)
        while index < count:
            at = self.truth.stops_at(way, index, force)
            if reach < at:
                return self._ran_out(state, act, reach, index)
            moved = self._moved(state, index, at)
            if self.stops_before(way, index, force):
                after = replace(moved, shown=index)
                return self._step(state, after, act, "You come to something and stop before it.")
            made = self.luck.made(moved, Act(acts.SLOW), force)
            for number in range(self.easy_pushes):
                lost = self.luck.lost(moved, made, number, easy=True)
                if lost:
                    return self._ended(state, moved, act, lost, index, made)
                if self.luck.passes(moved, made, number):
                    index += 1
                    break
            else:
                tries = (*moved.tries, *((index, STEADY),) * self.easy_pushes)
                after = replace(moved, shown=index, tries=tries)
                return self._step(state, after, act, "It stops where you thought it easy.", index, made)
        return self._arrived(state, act, way, force)

    def _ran_out(self, state: State, act: Act, reach: float, index: int) -> State:
        after = self._moved(state, index, max(reach, state.counter))
        after = replace(after, shown=-1, died=True)
        words = "The push has died on the way: the rod goes on in, the picture stays."
        if reach >= float(self.truth.outcome(state.way or ("", "")).march.reach[0]) - 1e-6:
            words += " More of the same does not get it further."
        return self._step(state, after, act, words, feel=acts.DEAD, ahead="straight")

    def _arrived(self, state: State, act: Act, way: Way, force: float) -> State:
        march, outcome = self.truth.march(way, force), self.truth.outcome(way)
        at, reach, count = float(march.end.at[0]), float(march.reach[0]), len(march.stations)
        if reach < at:
            return self._ran_out(state, act, reach, count)
        there = self._moved(replace(state, index=count), count, at)
        kit = self.truth.drawn.kit(outcome.loadout)
        limit = float(np.minimum(kit.pull_limit, self.truth.drawn.limit("pull_force"))[0])
        held = float(march.pull[0]) > limit
        if held and self.truth.luck(*way, "way back") < float(self.truth.drawn.limit("stuck_share")[0]):
            cost = self.study.tables.costs["wedge"].likely
            after = replace(there, ended=acts.WEDGED, minutes=there.minutes + cost)
            return self._step(state, after, act, "You saw it, but the rod does not come back out.")
        after = replace(there, ended=acts.TARGET)
        return self._step(state, after, act, "You see the target, and the rod comes back out.")

    def _tried(self, state: State, act: Act) -> State:
        """One try at the passage ahead."""
        way = state.way
        assert way is not None
        force = self.truth.push(way, state.hands, firm=False)
        at = self.truth.stops_at(way, state.index, force)
        reach = float(self.truth.march(way, force).reach[0])
        if reach < at:
            return self._ran_out(state, act, reach, state.index)
        made = self.luck.made(state, act, force)
        number = state.tried(state.index).get(made.technique, 0)
        minutes = 0.0 if made.technique == STEADY and number == 0 else made.attempt.minutes
        minutes += made.attempt.set_up_minutes if number == 0 else 0.0
        spent = replace(state, minutes=state.minutes + minutes)
        lost = self.luck.lost(spent, made, number, easy=False)
        if lost:
            return self._ended(state, spent, act, lost, state.index, made)
        if self.luck.passes(spent, made, number):
            after = replace(spent, index=state.index + 1, shown=-1)
            return self._step(state, after, act, "It is through.", state.index, made, passed=True)
        after = replace(spent, tries=(*spent.tries, (state.index, made.technique)))
        words = signs.failure(self.truth, made.spot, state, made.idle)
        if number >= self.luck.book(made.technique):
            words = f"As before. {words}"
        return self._step(state, after, act, words, state.index, made)

    def _ended(self, before: State, state: State, act: Act, how: str, index: int, made: Try) -> State:
        cost = made.attempt.kink_minutes if how == acts.KINKED else made.attempt.wedge_minutes
        after = replace(state, ended=how, minutes=state.minutes + cost)
        words = {
            acts.KINKED: "The rod or spring has kinked. This push is over.",
            acts.WEDGED: "The head is wedged. It does not come forward or back.",
        }[how]
        return self._step(before, after, act, words, index, made, feel=acts.DEAD)

    def _moved(self, state: State, index: int, at: float) -> State:
        """On to a counter reading; the way in and back is paid where it is new."""
        costs = self.study.tables.costs
        rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
        new = max(at - state.farthest, 0.0)
        return replace(
            state, index=index, counter=at, farthest=state.farthest + new, minutes=state.minutes + rate * new
        )

    def _step(
        self,
        before: State,
        after: State,
        act: Act,
        said: str,
        index: int | None = None,
        made: Try | None = None,
        passed: bool = False,
        feel: str = "",
        ahead: str = "",
    ) -> State:
        seen = signs.seen(self.truth, after, made.spot if made else None, said, passed, feel, ahead)
        chance = None if made is None else float(made.attempt.chance[0]) * (not made.idle)
        step = Step(act, seen, after.minutes - before.minutes, before.way or act.way, index, passed, chance)
        return replace(after, steps=(*before.steps, step))


def score(state: State, study: Study) -> float:
    """Minutes of a push that has ended, the cost of failing counted in, as the planner counts them."""
    failing = study.tables.costs["failing"].likely
    return state.minutes + (0.0 if state.ended == acts.TARGET else failing)
