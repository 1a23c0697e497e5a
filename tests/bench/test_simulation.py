"""The simulation runs, agrees with the planner where nothing is in doubt, and its own parts add up."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest

from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Estimate, Units
from advisor.site.sheet import site_of_text
from tests.bench.simulation.attempt import Happened, attempt
from tests.bench.simulation.figures import calibration, rows
from tests.bench.simulation.policies import ORACLE, PLANNER, follow, knowing
from tests.bench.simulation.run import Bench, SiteResult
from tests.bench.simulation.truth import AS_BELIEVED, Truth

FAR_END = "drain, from wall to public sewer"
SITES, WORLDS = 10, 1000
FAILING = 480.0


@pytest.fixture(scope="module")
def bench() -> Bench:
    return Bench()


@pytest.fixture(scope="module")
def results(bench: Bench) -> list[SiteResult]:
    twists = {"believed": AS_BELIEVED}
    return [bench.site(number, 3, WORLDS, twists) for number in range(SITES)]


def one_way(bench: Bench, pieces: str, kit_size: int = 0, look_at: str = "drain") -> RouteOutcome:
    """The only way in of a straight clean line with everything told."""
    text = (
        "site: certain\nregion: north america\nbuilt: 2005\nmap: measured\nlines:\n"
        "  - line: drain\n    kind: drain\n    size: 4 in\n    material: pvc\n    condition: sound\n"
        f"    pieces:\n      - {{opening: end, kind: end cleanout, opens: yes}}\n{pieces}"
        f'      - end: public sewer\ntask: {{look at: "{look_at}", complaint: {{holding: no}}}}\n'
    )
    small = replace(bench.kit, loadouts=bench.kit.loadouts[kit_size : kit_size + 1])
    sheet = site_of_text(text, "certain", bench.tables)
    (outcome,) = plan(Case(sheet, small, Units.METRIC, WORLDS), bench.tables, bench.base).outcomes
    return outcome


def tried(bench: Bench, outcome: RouteOutcome) -> Happened:
    return attempt(outcome, Truth(5, WORLDS, bench.tables))


def test_a_sure_way_is_seen_always_and_costs_what_the_sheet_adds_up_to(bench):
    outcome = one_way(bench, "      - pipe: 2 m\n")
    happened = tried(bench, outcome)
    assert outcome.chance == pytest.approx(1, abs=1e-6)
    assert happened.seen.all()
    assert not happened.lost.any()
    # By hand: set-up and clean-up, the mean (low + likely + high)/3 of the triangles of opening, closing and
    # the cleanout's own end, and push and draw-back for each metre.
    kind, costs = bench.tables.openings["end cleanout"], bench.tables.costs
    metre = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
    triangles = [kind.open_minutes, kind.close_minutes]
    means = [(each.low + each.likely + each.high) / 3 for each in triangles]
    (step,) = kind.entry
    assert isinstance(step.length, Estimate)
    own = (step.length.low + step.length.likely + step.length.high) / 3
    by_hand = costs["set_up"].likely + costs["clean_up"].likely + sum(means) + metre * (2 + own)
    assert happened.minutes.mean() == pytest.approx(by_hand, abs=0.6)  # 3 standard errors of 1,000 draws
    assert float(outcome.walk.minutes.mean()) == pytest.approx(by_hand, abs=0.6)


@pytest.mark.parametrize(
    ("pieces", "look_at"),
    [
        # No head passes a house trap.
        ("      - pipe: 2 m\n      - trap: house trap\n      - pipe: 2 m\n", "drain"),
        # 35 mm bore, 40 mm head.
        ("      - pipe: 2 m\n      - change: {size: 1-1/4 in}\n      - pipe: 2 m\n", "drain"),
        # Farther off than any reel of the class is long.
        (
            "      - pipe: 140 m\n        landmark: wall\n      - pipe: 2 m\n",
            "drain, from wall to public sewer",
        ),
    ],
    ids=["trap", "too narrow", "reel too short"],
)
def test_a_shut_way_is_never_seen(bench, pieces, look_at):
    outcome = one_way(bench, pieces, 2, look_at)  # the large head, 40 mm at least
    happened = tried(bench, outcome)
    assert outcome.chance == 0
    assert not happened.seen.any()
    assert float(happened.chance.max()) == 0


@pytest.mark.slow
def test_luck_agrees_with_the_chances_it_is_drawn_from(results):
    told = [each for r in results for each in r.every.get("believed", [])]
    assert len(told) >= 3 * SITES
    for each in told:
        error = max(np.sqrt(each.chance * (1 - each.chance) / each.worlds), 1e-3)
        assert abs(each.seen - each.chance) < 4.5 * error


@pytest.mark.slow
def test_planner_and_simulation_agree(results):
    # Two programs for one set of beliefs. 800 worlds there and 1,000 here: four standard errors at most.
    for each in (each for r in results for each in r.every.get("believed", [])):
        error = np.sqrt(max(each.stated * (1 - each.stated), 0.01) * (1 / 800 + 1 / each.worlds))
        assert abs(each.stated - each.chance) < 4 * error


@pytest.mark.slow
def test_whoever_sees_the_truth_does_no_worse_than_anyone(results):
    for row in rows(results, "believed"):
        assert row.minutes.low <= row.minutes.mean <= row.minutes.high
        if row.policy == PLANNER:
            assert row.planner_less.mean == 0
    by_name = {row.policy: row.minutes.mean for row in rows(results, "believed")}
    assert by_name[ORACLE] == min(by_name.values())


@pytest.mark.slow
def test_bins_hold_enough_outcomes(results):
    told = [each for r in results for each in r.every.get("believed", [])]
    found = calibration(told)
    assert sum(each.outcomes for each in found) == sum(each.worlds for each in told)
    assert all(each.outcomes >= 200 for each in found)


def test_the_best_order_for_one_who_knows_is_that_of_brute_force():
    draw = np.random.default_rng(4)
    for _ in range(30):
        ways = [some_way(draw) for _ in range(5)]
        orders = [o for size in range(5) for o in permutations(range(5), size)]
        cost = min(expected(ways, order) for order in orders)
        assert expected(ways, knowing(ways, FAILING, 0)) == pytest.approx(cost)


def some_way(draw: np.random.Generator) -> Happened:
    chance = draw.random() * 0.9
    none = np.zeros(1, bool)
    one = [np.array([x]) for x in (0.0, chance, draw.random() * (1 - chance) / 2, 20 + 200 * draw.random())]
    return Happened(none, none, *one)


def expected(ways: list[Happened], order: tuple[int, ...] | list[int]) -> float:
    """Minutes of an order in the one world, written out."""
    total, going, seen = 0.0, 1.0, 0.0
    for way in (ways[i] for i in order):
        total += going * way.expected_minutes[0]
        seen += going * way.chance[0]
        going *= 1 - way.chance[0] - way.loss[0]
    return float(total + (1 - seen) * FAILING)


def test_a_lost_head_ends_it_and_what_is_seen_is_not_tried_again():
    yes, no = np.array([True]), np.array([False])

    def way(seen: np.ndarray, lost: np.ndarray) -> Happened:
        return Happened(seen, lost, np.array([10.0]), *[np.zeros(1)] * 3)

    seen, lost, fails = way(yes, no), way(no, yes), way(no, no)
    assert follow([1, 0], [seen, fails], FAILING)[0] == 20  # by hand: 10 + 10
    assert follow([0, 1], [seen, fails], FAILING)[0] == 10
    assert follow([1, 0], [seen, lost], FAILING)[0] == 10 + FAILING
    assert follow([], [seen], FAILING)[0] == FAILING
