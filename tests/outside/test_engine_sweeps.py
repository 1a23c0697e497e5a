"""Swept fittings and remedies against our own pushes in a general-purpose 3-D physics engine.

Source of every expected value: tests/outside/engine/engine_sweeps.csv and engine_totals.csv
(MuJoCo 4.0.0; see the README beside them). Single outcomes are close to chaotic, so rates over
groups of at least 40 rows are compared. The totals count pushes whose rows are not there.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))
import engine_rows as er
import engine_tables as et

from advisor.mechanics.junction import head_logit
from advisor.mechanics.junction_case import JunctionKind, Lie

CONSTANTS = er.constants()
ROWS = er.sweeps()
STEADY = [r for r in ROWS if r["remedy"] == "steady"]
STALLED = [r for r in ROWS if r["remedy"] != "steady"]


def test_steady_rates_by_group() -> None:
    found = et.rates(STEADY, er.pass_chance(STEADY, CONSTANTS))
    assert len(found) > 20
    assert all(abs(seen - said) <= 0.1 for _, _, seen, said in found), et.rate_table(found)


def test_steady_rows_beat_the_majority() -> None:
    chance = er.pass_chance(STEADY, CONSTANTS)
    right = (chance > 0.5) == np.array([er.passed(r) for r in STEADY])
    assert right.mean() >= 0.85, et.right_table(STEADY, chance)


def test_curl_leans_the_head_downstream() -> None:
    # The same rows with every curl turned half round must be told less well.
    turned = np.array([er.end_of(r) in ("passes", "rod_end_stuck") for r in STEADY])

    def surprise(half_turn: float) -> float:
        rows = [{**r, "psi": r["psi"] + half_turn} for r in STEADY]

        def work(group: tuple[JunctionKind, str], some: list[er.Row]) -> np.ndarray:
            kind, lie = group
            return np.asarray(head_logit(kind, Lie(lie), er.push_of(some), CONSTANTS))

        logit = er.by_group(rows, lambda r: (er.kind_of(r), r["orient"]), work)
        return float(np.logaddexp(0.0, np.where(turned, -logit, logit)).sum())

    assert surprise(0.0) + 3.0 < surprise(np.pi)


def test_remedy_rates_by_group() -> None:
    found = et.rates(STALLED, er.remedy_chances(STALLED, CONSTANTS))
    assert len(found) >= 8
    assert all(abs(seen - said) <= 0.1 for _, _, seen, said in found), et.rate_table(found)


@pytest.mark.parametrize(
    "remedy", ["slow150", "slow_half", "q1.0", "q1.5_half", "q2.0", "q1.5_x3", "gentle90"]
)
def test_each_remedy(remedy: str) -> None:
    rows = [r for r in STALLED if r["remedy"] == remedy]
    assert len(rows) >= 25
    seen = np.mean([er.passed(r) for r in rows])
    assert er.remedy_chances(rows, CONSTANTS).mean() == pytest.approx(seen, abs=0.1)


def test_a_quick_push_after_bends_seldom_passes() -> None:
    rows = [r for r in STALLED if r["remedy"] == "q1.5" and r["nb"] >= 1]
    assert len(rows) > 10
    assert sum(er.passed(r) for r in rows) <= 1
    assert er.remedy_chances(rows, CONSTANTS).mean() < 0.15


def test_totals_over_pushes_not_seen_row_by_row() -> None:
    plan, weight = et.unseen_plan()
    shares = et.plan_shares(plan, weight)
    chance = er.pass_chance(plan, CONSTANTS)
    found = [
        (" ".join(group), of, yes / of, float(shares[group] @ chance))
        for group, (yes, of) in et.unseen_counts().items()
    ]
    # Not a held-out check: the counts took part in the fit at half weight. 30 to 74 pushes each,
    # and how spring, force and curl fell among them is not known: a standard error of 0.07 and
    # more. So the mean miss is held, and no single one beyond two standard errors.
    misses = [abs(seen - said) for _, _, seen, said in found]
    assert np.mean(misses) <= 0.06, et.rate_table(found)
    assert max(misses) <= 0.14, et.rate_table(found)


def test_strokes_that_end_folded() -> None:
    rows = [r for r in STALLED if r["remedy"].startswith("q")]
    said = et.quick_fold_chances(rows, CONSTANTS)
    folded = np.array(["fold" in r["outcome"] for r in rows])
    for pair, where in er.grouped(rows, lambda r: r["pair"]).items():
        assert said[where].mean() == pytest.approx(folded[where].mean(), abs=0.1), pair
