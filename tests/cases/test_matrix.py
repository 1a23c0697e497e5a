"""The matrix of techniques against troubles says what the planner does."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest

from advisor.outcome.attempts import STEADY, TECHNIQUES
from advisor.outcome.walk import HardSpot
from advisor.result.build import plan_of
from advisor.rulebase.matrix import coverage
from tests.cases.hazards import JOBS
from tests.cases.jobs import rules, tables, troubles
from tests.cases.test_every_rule import studied

# Told of the whole way, never of one fitting, so no technique is judged against them at a fitting.
OF_THE_WAY = {"reach short", "rod too short", "long drop", "folds at hand"}
ADVISED = {"try", "required"}


def met() -> Iterator[tuple[HardSpot, dict[str, str]]]:
    """Every hard spot of every job with the verdict on each technique there."""
    for job in JOBS:
        study = studied(job)
        for ranked, route in zip(study.ranked, plan_of(study).routes, strict=True):
            for hard, passage in zip(ranked.outcome.spots, route.passages, strict=True):
                yield hard, {note.name: note.verdict for note in passage.techniques}


@cache
def verdicts() -> dict[tuple[str, str], set[str]]:
    """For each technique and trouble what the planner said wherever that trouble occurs."""
    found: dict[tuple[str, str], set[str]] = {}
    for hard, said in met():
        for technique, verdict in said.items():
            for trouble in troubles(hard):
                found.setdefault((technique, trouble), set()).add(verdict)
    return found


def test_no_cell_is_empty():
    table = coverage(rules())
    assert table.gaps == ()
    assert set(table.matrix.techniques) == set(TECHNIQUES)
    for technique in table.matrix.techniques:
        for trouble in table.matrix.troubles:
            assert table.matrix.cells[technique, trouble].why.strip(), f"{technique}, {trouble}"


def test_every_trouble_of_a_fitting_is_met_in_a_job():
    assert {trouble for _, trouble in verdicts()} == set(rules().matrix.troubles) - OF_THE_WAY


@pytest.mark.parametrize(
    ("technique", "trouble"),
    [
        pair
        for pair, cell in rules().matrix.cells.items()
        if not cell.allowed and pair[0] != STEADY and pair[1] not in OF_THE_WAY
    ],
)
def test_what_the_matrix_rejects_is_not_tried(technique, trouble):
    """In one job at least: a fitting with two troubles may be tried for the sake of the other."""
    assert verdicts()[technique, trouble] - ADVISED


@pytest.mark.parametrize(
    ("technique", "trouble"),
    [
        ("quick push", "under water"),
        ("quick push", "stopper"),
        ("quick push", "fragile pipe"),
        ("quick push", "rod too tight"),
        ("quick push", "crosses over"),
        ("quick push", "head jams"),
        ("quick push", "bore too small"),
        ("quick push", "entry square"),
        ("quick push", "must steer"),
        ("water", "under water"),
        ("clean first", "fragile pipe"),
        ("string", "stopper"),
    ],
)
def test_what_does_harm_is_tried_nowhere(technique, trouble):
    """Common practice, no source: no blow blind, into a stopper, in fragile pipe or on a strained rod."""
    assert not rules().matrix.cells[technique, trouble].allowed
    assert verdicts()[technique, trouble] <= {"rejected", "useless"}


def present(hard: HardSpot) -> set[str]:
    """The troubles told, and a far wall that stops the head too seldom to be told."""
    least = tables().limits["worth_trying"].likely
    seldom = any(ruling.facts["passage.runs_at_far_wall"] > least for ruling in hard.rulings)
    return troubles(hard) | ({"runs at far wall"} if seldom else set())


def test_what_is_advised_answers_some_trouble_there():
    for hard, said in met():
        known = present(hard)
        answers = {technique for trouble in known for technique in rules().matrix.allowed(trouble)}
        advised = {technique for technique, verdict in said.items() if verdict in ADVISED}
        assert not known or advised <= answers, f"{known}: {advised - answers}"
