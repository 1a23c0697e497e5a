"""The luck of one try in the hidden world: passed, kinked or wedged, by keyed uniforms."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.outcome.attempts import STEADY, Attempt
from advisor.outcome.spot import Spot
from advisor.practice import acts, signs
from advisor.practice.acts import Act, State, Way
from advisor.practice.truth import Truth
from advisor.practice.values import most_tries
from advisor.tables.conditions import ROOTS


@dataclass(frozen=True)
class Try:
    """One try at the passage ahead in the hidden world."""

    technique: str
    spot: Spot
    attempt: Attempt
    idle: str = ""  # why it changes nothing, as it is told: water runs elsewhere, roots hold the string


class Luck:
    """One try and what comes of it; the same world, place, technique and number give the same."""

    def __init__(self, truth: Truth) -> None:
        self.truth = truth
        self.easy_pushes = self.book(STEADY)

    def made(self, state: State, act: Act, force: float) -> Try:
        """The try that an action makes at the passage ahead."""
        way = state.way
        assert way is not None
        technique = acts.TRY_OF[act.kind]
        if act.kind == acts.FIRM:
            firm = self.truth.push(way, state.hands, firm=True)
            return Try(technique, *self.truth.eased(way, state.index, force, firm))
        spot, tries = self.truth.tries(way, state.index, force)
        idle = ""
        if act.kind == acts.WATER and not self.runs_past(act.fixture, way, state.index):
            idle = signs.DRY
        elif act.kind == acts.STRING and self.truth.roots_passed(way, state.index):
            idle = f"{signs.ON_THE_WAY} {self.truth.study.base.matrix.cells[technique, ROOTS].why}"
        return Try(technique, spot, tries[technique], idle)

    def runs_past(self, fixture: str, way: Way, index: int) -> bool:
        """True where water from a fixture runs through the passage."""
        network = self.truth.study.network
        piece = self.truth.outcome(way).route.passages[index].piece.id
        return any(
            piece in network.downstream(p.id)
            for p in network.pieces.values()
            if p.name == fixture and p.hole and p.hole.fixture
        )

    def passes(self, state: State, made: Try, number: int) -> bool:
        """True where the try lets the head through."""
        counted = self.book(made.technique)
        chance = float(made.attempt.chance[0]) if not made.idle else 0.0
        key = min(number, counted - 1)
        return self.truth.luck(*self.place(state), made.technique, key, "passes") < chance

    def lost(self, state: State, made: Try, number: int, easy: bool) -> str:
        """What ends the push at this try: a kink whether or not it passes, a wedge where it does not."""
        key = (*self.place(state), made.technique, number)
        if self.truth.luck(*key, "kinks") < float(made.attempt.kink[0]):
            return acts.KINKED
        if easy or self.passes(state, made, number):
            return ""
        return acts.WEDGED if self.truth.luck(*key, "wedges") < float(made.attempt.wedge[0]) else ""

    def place(self, state: State) -> tuple[object, ...]:
        """The key of the passage ahead."""
        assert state.way is not None
        passage = self.truth.outcome(state.way).route.passages[state.index]
        return (*state.way, *passage.id)

    def book(self, technique: str) -> int:
        """How often a technique is counted to be worth trying in one place."""
        return most_tries(self.truth.study, technique)
