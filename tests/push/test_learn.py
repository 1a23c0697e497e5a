"""Learning from pushes: nothing told is the book, a planted truth is found, leaving a job out restores."""

from __future__ import annotations

import shutil
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import log
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import beta, norm

from advisor import demo
from advisor.kit.loadouts import default_kit
from advisor.mechanics.push import reach_straight
from advisor.outcome.learned import BOOK
from advisor.plan import Case, plan
from advisor.push.learn.learn import Told, lessons_of, told_by
from advisor.push.learn.pairs import beta_interval, pairs_of, shift_of
from advisor.push.learn.rub import GRID, How, chance_of_push, factor_of, gain
from advisor.push.learn.taught import Push, Try, pushes_of, tries_of
from advisor.push.log.log import Entry, Log
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
HOW = How(0.3, 0.08, 1.0, 0.05)
LONG = """
site: one long line
region: north america
map: measured
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: cast iron
    condition: moderate scale
    slope: 2 %
    pieces:
      - opening: end plug
        kind: end cleanout
        opens: yes
      - pipe: 90 m
      - end: public sewer
task: {look at: house drain}
"""


def entries(*told: tuple[str, float | None, dict]) -> tuple[Entry, ...]:
    return tuple(
        Entry(i, NOON + timedelta(minutes=i), NOON + timedelta(minutes=i), kind, counter, data)
        for i, (kind, counter, data) in enumerate(told, 1)
    )


# -- what a log tells -------------------------------------------------------------------------


def test_only_planned_tries_of_techniques_teach():
    made = {"technique": "string", "way": "merge", "outcome": "passed", "book": 0.4, "planned": True}
    told = entries(
        ("try", 1.0, made),
        ("try", 1.0, {**made, "outcome": "wedged"}),
        ("try", 1.0, {**made, "planned": False}),
        ("try", 1.0, {**made, "technique": "steady push"}),
        ("try", 1.0, {k: v for k, v in made.items() if k != "book"}),
        ("try", 1.0, {k: v for k, v in made.items() if k != "planned"}),
        ("offered", 1.0, {"technique": "string", "way": "merge", "book": 0.4}),
    )
    passed, failed = Try("string", "merge", 0.4, True), Try("string", "merge", 0.4, False)
    assert tries_of(told) == (passed, failed, passed)


def test_how_far_a_push_went_and_whether_friction_stopped_it():
    start = ("start", None, {"opening": "a", "loadout": "reel"})
    spent, at_fitting = ("stopped", 9.0, {}), ("stopped", 9.0, {"spot": "bend"})
    for told, far, stopped in [
        ([start, ("sighting", 5.0, {}), ("pulled back", 20.0, {})], 5.0, False),
        ([start, ("sighting", 5.0, {}), spent], 9.0, True),
        ([start, at_fitting], 9.0, False),
        ([start, spent, ("sighting", 12.0, {})], 12.0, False),  # it was overcome
        ([start, spent, ("sighting", 9.2, {})], 9.0, True),  # what is seen there is not beyond
        ([start, spent, ("try", 9.0, {"outcome": "stopped"})], 9.0, False),
        ([start, ("sighting", 7.0, {}), ("counter reset", 0.0, {}), ("sighting", 30.0, {})], 7.0, False),
    ]:
        assert pushes_of(entries(*told), 0.5) == (Push("a", "reel", far, stopped),)
    two = entries(start, ("sighting", 3.0, {}), ("end", 3.0, {}), start, spent)
    assert [push.far for push in pushes_of(two, 0.5)] == [3.0, 9.0]


# -- chances of techniques --------------------------------------------------------------------


def test_the_shift_is_the_textbook_mean_for_one_book_value():
    """Conjugate beta prior: (s m + k)/(s + n), as in any textbook of Bayesian data analysis."""
    for m, k, n in [(0.4, 2, 3), (0.7, 0, 4), (0.5, 10, 20)]:
        tries = [Try("string", "merge", m, i < k) for i in range(n)]
        (pair,) = pairs_of(tries, 8, 0.01)
        assert pair.learned == pytest.approx((8 * m + k) / (8 + n), abs=1e-6)
        low, high = beta.ppf([0.1, 0.9], 8 * m + k, 8 * (1 - m) + n - k)
        assert (pair.low, pair.high) == pytest.approx((low, high), abs=2e-3)


@pytest.mark.parametrize(("a", "b"), [(0.3, 8.7), (4, 4), (30, 2), (0.08, 0.5)])
def test_interval_against_scipy(a, b):
    assert beta_interval(a, b, 0.8) == pytest.approx(beta.ppf([0.1, 0.9], a, b), abs=2e-3)


@given(st.floats(0, 1), st.booleans(), st.floats(0.001, 0.999))
def test_one_outcome_moves_no_chance_by_more_than_a_ninth(book, passed, elsewhere):
    (pair,) = pairs_of([Try("string", "merge", book, passed)], 8, 0.01)
    assert abs(pair.learned - pair.book) <= 1 / 9 + 1e-9
    odds = elsewhere / (1 - elsewhere) * np.exp(pair.shift)
    assert abs(odds / (1 + odds) - elsewhere) <= 1 / 9 + 1e-9, "nor that of another spot of the class"


@given(st.lists(st.floats(0.02, 0.98), min_size=1, max_size=12), st.data())
@settings(max_examples=50)
def test_more_passes_never_lower_a_chance(books, data):
    book = np.asarray(books)
    passed = data.draw(st.integers(0, len(books) - 1))
    assert shift_of(book, passed, 8) <= shift_of(book, passed + 1, 8)


def test_twenty_pushes_find_a_planted_chance():
    """Tries drawn 1.2 logits below the book: the error halves at least, on average over 200 crews.

    The draw knows nothing of learning; the true chance is that of the logistic function.
    """
    dice = np.random.default_rng(5)
    before, after = [], []
    for _ in range(200):
        book = dice.uniform(0.35, 0.75, 20)
        true = 1 / (1 + np.exp(-(np.log(book / (1 - book)) - 1.2)))
        tries = [Try("quick push", "merge", b, p) for b, p in zip(book, dice.random(20) < true, strict=True)]
        (pair,) = pairs_of(tries, 8, 0.01)
        before.append(abs(pair.book - true.mean()))
        after.append(abs(pair.learned - true.mean()))
    print(f"mean error {np.mean(before):.3f} by the book, {np.mean(after):.3f} learned")
    assert np.mean(after) <= np.mean(before) / 2


# -- friction ---------------------------------------------------------------------------------


def test_chances_of_a_push_against_scipy():
    reach = np.array([8.0, 12.0, 30.0])
    spent = chance_of_push(12.0, True, reach, 40.0, HOW)
    assert spent == pytest.approx(0.95 * norm.pdf(12.0, reach, 0.08 * 12 + 1) + 0.05 / 40)
    drawn_back = chance_of_push(12.0, False, reach, 40.0, HOW)
    assert drawn_back == pytest.approx(0.95 * norm.sf(12.0, reach, 0.08 * 12 + 1) + 0.05, rel=1e-12)


def test_the_factor_against_a_normal_by_hand():
    """By hand: prior N(0, 0.3^2) and a likelihood N(0.2; s, 0.3^2) meet half way, with half the variance."""
    job = -((0.2 - GRID) ** 2) / (2 * 0.3**2)
    found = factor_of([job], HOW)
    assert log(found.value) == pytest.approx(0.1, abs=0.005)
    assert log(found.high / found.low) == pytest.approx(2 * 1.2816 * 0.3 / 2**0.5, rel=0.03)
    assert factor_of([], HOW).value == 1.0


def simulated(factor: float, pushes: int, seed: int) -> list[Told]:
    """Jobs of one push each in a long straight drain: truths drawn, and pushed by the mechanics alone."""
    dice = np.random.default_rng(seed)
    kit = default_kit(tables())
    loadout = max(kit.loadouts, key=lambda each: each.rod.length.likely)
    sheet = site_of_text(LONG, "site", tables())
    case = Case(sheet, kit, Units.METRIC, 400, 1)
    # Truths: one of the worlds of another seed, all of whose friction is multiplied.
    truth = plan(
        replace(case, seed=900 + seed, worlds=pushes * 3, kit=replace(kit, loadouts=(loadout,))),
        tables(),
        rules(),
    )
    drawn, wall = truth.drawn, next(iter(truth.network.pieces.values())).wall
    here, rod = drawn.wall(wall), drawn.kit(loadout)
    jobs = []
    for _ in range(pushes):
        w = int(dice.integers(drawn.worlds.n))
        reach = float(
            reach_straight(
                drawn.limit("push_force")[w],
                drawn.limit("tip_force")[w],
                here.friction[w] * factor,
                rod.weight[w],
                float(np.arctan(0.02)),
                rod.stiffness[w],
                max((here.bore[w] - rod.diameter[w]) / 2, 1e-3),
                drawn.limit("helical_factor")[w],
            )
        )
        # Friction stops the rod where the hand feels it; else the reel or the pipe has come to its end.
        felt, most = reach * dice.normal(1.0, 0.06), min(float(rod.reel[w]), 89.0)
        end = ("stopped", felt, {}) if felt < most else ("sighting", most, {"what": "end"})
        told = (("start", None, {"opening": "end plug", "loadout": loadout.name}), end)
        jobs.append(told_by(entries(*told), case, tables(), rules()))
    return jobs


@pytest.mark.parametrize("factor", [1.45, pytest.param(0.65, marks=pytest.mark.slow)])
@pytest.mark.slow
def test_twenty_pushes_find_a_planted_friction(factor):
    """The error on the logarithm halves at least; the pushes are those of the mechanics, not of learning."""
    jobs = simulated(factor, 20, 3)
    found = lessons_of(jobs, tables())
    print(f"planted {factor}, found {found.factor} from {found.pushes} pushes")
    assert found.pushes == 20
    assert abs(log(found.factor.value / factor)) <= abs(log(factor)) / 2
    assert found.friction_used
    assert found.learned.friction == found.factor.value


def test_what_foretells_worse_is_not_used():
    """Two jobs that contradict each other: each foretold from the other comes out worse than by the book."""
    rough, slick = -((0.4 - GRID) ** 2) / 0.02, -((-0.4 - GRID) ** 2) / 0.02
    assert gain([rough, rough], HOW) > 0
    assert gain([rough, slick], HOW) < 0
    jobs = [
        Told(tuple(Try("string", "merge", 0.5, passed) for _ in range(6)), 1, tuple(map(float, likelihood)))
        for passed, likelihood in ((True, rough), (False, slick))
    ]
    found = lessons_of(jobs, tables())
    assert not found.friction_used
    assert not found.pairs_used
    assert found.learned is BOOK


# -- the plan ---------------------------------------------------------------------------------


# -- jobs on disk -----------------------------------------------------------------------------


def job(folder: Path, passed: int, tries: int = 6) -> Path:
    folder.mkdir()
    shutil.copy(demo.ALL[0], folder / "site.yaml")
    log_ = Log.open(folder / "log.db")
    log_.append("start", None, {"opening": "basement toilet", "loadout": "small reel"}, NOON)
    for i in range(tries):
        made = {"technique": "quick push", "way": "bend", "book": 0.5, "planned": True}
        outcome = "passed" if i < passed else "stopped"
        log_.append("try", 4.0, {**made, "outcome": outcome}, NOON + timedelta(minutes=i))
    log_.close()
    return folder
