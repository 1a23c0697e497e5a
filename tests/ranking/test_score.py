"""Ranking by expected minutes, on outcomes made by hand."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor.ranking.score import rank, score
from tests.cases.jobs import tables


def outcome(name: str, reached: list[float], minutes: float, covers: float = 1.0, loadout: str = "kit"):
    chance = np.array(reached, np.float32)
    return SimpleNamespace(
        route=SimpleNamespace(id=name, covers=covers),
        loadout=SimpleNamespace(name=loadout),
        reached=chance,
        shut=False,
        walk=SimpleNamespace(
            minutes=np.full(len(reached), minutes, np.float32),
            harm_minutes=np.zeros(len(reached), np.float32),
            survive=np.stack([np.ones_like(chance), chance]),
        ),
    )


def failing() -> float:
    return tables().costs["failing"].likely


def test_score_by_hand():
    made = score(outcome("a", [1.0, 0.0], 30.0), tables())
    assert made.tolist() == pytest.approx([30.0, 30.0 + failing()])


def test_fewest_expected_minutes_first_and_how_often_it_leads():
    # By hand, four worlds: a reaches in three of them, b in the other one.
    ranked = rank([outcome("b", [0, 0, 0, 1], 40), outcome("a", [1, 1, 1, 0], 40)], tables())
    assert [r.outcome.route.id for r in ranked] == ["a", "b"]
    assert [r.leads for r in ranked] == [0.75, 0.25]


def test_part_views_stand_behind_whole_ones():
    ranked = rank([outcome("part", [1, 1], 1, covers=0.9), outcome("whole", [0, 0], 90)], tables())
    assert [r.outcome.route.id for r in ranked] == ["whole", "part"]


def test_best_loadout_of_a_route():
    ranked = rank(
        [outcome("a", [1, 1], 50, loadout="slow"), outcome("a", [1, 1], 40, loadout="quick")], tables()
    )
    assert [r.outcome.loadout.name for r in ranked] == ["quick"]


def test_failing_fast_is_no_merit():
    quick_failure = outcome("a", [0, 0], 10, loadout="small")
    further = outcome("a", [0, 0], 60, loadout="large")
    further.walk.survive = np.stack(
        [np.ones(2, np.float32), np.full(2, 0.9, np.float32), np.zeros(2, np.float32)]
    )
    quick_failure.walk.survive = np.stack(
        [np.ones(2, np.float32), np.zeros(2, np.float32), np.zeros(2, np.float32)]
    )
    assert rank([quick_failure, further], tables())[0].outcome.loadout.name == "large"


def test_nothing_to_rank():
    assert rank([], tables()) == ()


def test_a_way_leads_in_each_world_in_which_it_costs_least_and_ties_go_to_the_first():
    ranked = rank([outcome("b", [1, 1, 1], 40), outcome("a", [1, 1, 1], 40)], tables())
    assert [(r.outcome.route.id, r.leads) for r in ranked] == [("a", 1.0), ("b", 0.0)]
