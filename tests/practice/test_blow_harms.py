"""A blow that costs the head fails in practice, whatever it would save. Common practice, no source.

From a trial: practice put a rim before the head, let a quick push onto it cost two minutes and
passed it with 93 % of full marks, where beside the opening it was barred: a blow on a rim breaks the lens.
"""

from __future__ import annotations

import pytest

from advisor.outcome.attempts import BLOW, STEADY
from advisor.practice.drill import grade
from advisor.practice.drills.stop import of_failures
from advisor.practice.drills.technique import harms
from advisor.practice.marks import marks_of
from tests.cases.hazards import JOBS, SMALL
from tests.cases.jobs import rules, tables
from tests.practice.test_fits_the_case import TO_THE_SEWER, _school


def test_a_rim_alone_is_enough():
    """Most rims face the head both ways, and a blow past what may hook it harms as well."""
    assert rules().matrix.cells[BLOW, "ledge"].harms


def spots(text: str, kit: str = SMALL):
    study = _school(kit).studied(text, "site", 1, 100)
    return study, [(outcome, i) for outcome in study.outcomes for i in range(len(outcome.spots))]


def test_a_blow_on_a_rim_fails_whatever_it_would_save():
    study, found = spots(TO_THE_SEWER)
    outcome, index = next(each for each in found if each[0].spots[each[1]].passage.piece.kind == "joint")
    drill = of_failures(study, outcome, index, [STEADY], 1)
    (ask,) = drill.asks
    number = next(i for i, option in enumerate(ask.options) if BLOW in option.words)
    made = grade(drill, (number,), marks_of(tables()))
    assert [caution.id for caution in made.unsafe] == ["wedged-head"]
    assert not made.credit
    assert "breaks the lens" in " ".join(ask.options[number].why)
    assert BLOW not in ask.best.words


@pytest.mark.parametrize(
    ("job", "technique", "hurts"),
    [
        ("stopper", BLOW, True),  # it wedges in the trap
        ("stopper", "turn the rod", False),  # that is only vain
        ("rims", BLOW, True),
        ("rims", STEADY, False),
    ],
)
def test_what_is_only_vain_costs_its_minutes(job, technique, hurts):
    study, found = spots(*JOBS[job])
    told = [harms(outcome.spots[i], study, technique) for outcome, i in found]
    assert any(told) is hurts
