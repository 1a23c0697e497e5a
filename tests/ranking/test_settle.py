"""What leaving and going on cost at a hard spot, by hand; and the simple rules told beside the plan."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor import demo
from advisor.kit.loadouts import default_kit
from advisor.outcome.attempts import STEADY, Attempt
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.ranking.order import Option, expected
from advisor.ranking.score import Ranked
from advisor.ranking.settle import _as_tried, _to_open, beyond_spot, cost_of, gear_after, option_of, tries_of
from advisor.result.study import Study
from advisor.site.sheet import read_site
from tests.cases.jobs import rules, tables


def way(
    survive: list[float], gone: list[float], minutes: float, arrived: float, harm: float = 0.0
) -> SimpleNamespace:
    each = [np.array([share]) for share in survive]
    paid = [np.array([m]) for m in gone]
    return SimpleNamespace(
        walk=SimpleNamespace(
            survive=each,
            gone=paid,
            minutes=np.array([minutes]),
            harm_minutes=np.array([harm]),
            arrived=np.array([arrived]),
        )
    )


def test_what_the_rest_of_a_way_costs_once_past_a_spot():
    """By hand: half come past the first spot with 12 of 20 min spent: 16 min each; of these four in five
    arrive and the fifth pays 100 min for another way: 36. A quarter come past the second, at 16 min: 16 each,
    and all arrive."""
    outcome = way([1.0, 0.5, 0.25], [0.0, 12.0, 16.0], 20.0, 0.4)
    switch = np.array([100.0])
    assert beyond_spot(outcome, 0, switch)[0] == pytest.approx(8 / 0.5 + 0.2 * 100)
    # Of 3 minutes of harm on average one lies behind the first spot: 2 more to come, 4 each.
    outcome = way([1.0, 0.5, 0.25], [0.0, 13.0, 18.0], 20.0, 0.4, harm=3.0)
    assert beyond_spot(outcome, 0, switch)[0] == pytest.approx(10 / 0.5 + 0.2 * 100)
    outcome = way([1.0, 0.5, 0.25], [0.0, 12.0, 16.0], 20.0, 0.25)
    assert beyond_spot(outcome, 1, switch)[0] == pytest.approx(4 / 0.25)


def test_where_nothing_comes_past_the_rest_costs_what_another_way_does():
    assert beyond_spot(way([1.0, 0.0], [0.0, 12.0], 12.0, 0.0), 0, np.array([100.0]))[0] == 100.0


def test_what_goes_in_next_is_the_gear_for_the_worlds_that_are_left():
    """By hand, two worlds: of the gully the thick head is better by itself (0.6 against 0.5 on average), but
    the thick head from the chamber fails only in the second world, where the thin one gets there oftener."""

    def tried(route: str, *reached: float) -> SimpleNamespace:
        walk = SimpleNamespace(minutes=np.full(2, 30.0), harm_minutes=np.zeros(2), lost=np.zeros(2))
        of = SimpleNamespace(id=route, covers=1)
        return SimpleNamespace(route=of, reached=np.array(reached), walk=walk)

    chamber, thick, thin = tried("chamber", 1, 0), tried("gully", 1, 0.2), tried("gully", 0.3, 0.7)
    for others in ([thick, thin], [thin, thick]):
        assert gear_after([chamber], [chamber, *others], tables()) == {"gully": thin}
    assert gear_after([tried("chamber", 0, 1)], [thick, thin], tables()) == {"gully": thick}


@pytest.fixture(scope="module")
def study() -> Study:
    case = Case(read_site(demo.MAIN, tables()), default_kit(tables()), Units.INCH, 200)
    return plan(case, tables(), rules())


def test_the_list_begins_with_what_is_to_be_tried(study):
    """What is told of the first of the list - its warnings, its card - is then told of the first to open."""
    attempts = [outcome.route.id for outcome in study.settled.attempts]
    listed = [ranked.outcome.route.id for ranked in study.ranked]
    assert listed[: len(attempts)] == attempts
    assert sorted(listed) == sorted({outcome.route.id for outcome in study.outcomes})


def test_what_hardly_reaches_is_neither_tried_nor_first():
    """Chances by hand: 4 in 100 costs no minute here, 60 in 100 costs 30; leaving it costs the failing."""
    small, fair = Ranked(outcome_of("a", 0.04), 100.0, 0.5), Ranked(outcome_of("b", 0.6), 120.0, 0.5)
    assert [each.outcome.route.id for each in _as_tried([small, fair], [], 0.05)] == ["b", "a"]
    assert [each.outcome.route.id for each in _as_tried([fair, small], ["a"], 0.05)] == ["a", "b"]


def test_where_nothing_is_tried_what_a_part_shows_counts_against_a_whole_that_is_hardly_seen():
    """By hand: 30 in 100 of half of it is more than 4 in 100 of all; behind a way that is tried it stands."""
    whole, part = Ranked(outcome_of("a", 0.04), 90.0, 0.5), Ranked(outcome_of("b", 0.3, 0.5), 500.0, 0.0)
    assert [each.outcome.route.id for each in _as_tried([whole, part], [], 0.05)] == ["b", "a"]
    assert [each.outcome.route.id for each in _as_tried([whole, part], ["a"], 0.05)] == ["a", "b"]


def outcome_of(name: str, chance: float, covers: float = 1.0):
    """A push whose `chance` is to see what it shows: `covers` of the target."""
    return SimpleNamespace(
        route=SimpleNamespace(id=name, covers=covers),
        shut=False,
        chance=chance if covers == 1 else 0.0,
        part_chance=chance,
    )


def test_the_rules_of_thumb_take_the_ways_in_their_own_order(study):
    """Each order made again from the ways themselves: the nearest end, the widest pipe, nothing at all."""
    failing, weights = tables().costs["failing"].likely, np.ones(200)
    whole = [r.outcome for r in study.settled.ranked if r.outcome.route.covers >= 1]
    assert len({o.route.opening.wall.nominal.value for o in whole}) > 1, "else widest says nothing"
    for name, key in (
        ("nearest first", lambda o: float(np.median(o.march.end.at))),
        ("largest pipe first", lambda o: -o.route.opening.wall.nominal.value),
    ):
        options = [option_of(o) for o in sorted(whole, key=lambda o: (key(o), o.route.id))][:4]
        assert study.settled.simple[name].names == tuple(o.name for o in options)
        assert study.settled.simple[name].minutes == pytest.approx(
            expected(options, failing, weights).minutes
        )
    assert study.settled.simple["decline"].minutes == failing
    assert study.settled.simple["decline"].names == ()


def test_the_tries_of_a_spot_are_written_out_and_set_up_is_paid_once():
    """By hand: two gentle pushes are part of getting there; a cord costs 18 min to fit and 4 a try."""
    half, no = np.array([0.5]), np.zeros(1)
    tries = {
        STEADY: Attempt(STEADY, half, 1.0, 0.0, no, no, 100.0, 50.0),
        "string": Attempt("string", half, 4.0, 18.0, no, no, 100.0, 50.0),
    }
    spot = SimpleNamespace(
        order=((STEADY, 2), ("string", 2)), tries=tries, chance=lambda name: tries[name].chance
    )
    found = tries_of(spot)
    assert [(each.technique, float(each.minutes[0])) for each in found] == [
        (STEADY, 0.0), (STEADY, 0.0), ("string", 22.0), ("string", 4.0),
    ]  # fmt: skip


def test_what_an_order_costs_in_each_world():
    """By hand, failing costs 100 min: in the first world .3 go on to the second way, .35 fail:
    10 + .3 * 30 + .35 * 100; in the second world the first way never arrives: 20 + 40 + .6 * 100."""
    first = Option("a", np.array([0.5, 0.0]), np.array([0.2, 0.0]), np.array([10.0, 20.0]))
    second = Option("b", np.array([0.5, 0.4]), np.array([0.0, 0.1]), np.array([30.0, 40.0]))
    assert cost_of([first, second], 100.0, 2) == pytest.approx([54.0, 120.0])
    assert cost_of([], 100.0, 2) == pytest.approx([100.0, 100.0])


def test_no_minutes_are_won_back_by_having_spent_more_than_the_mean():
    """Minutes are means of all worlds: what is spent up to a spot may exceed the way's by rounding."""
    assert beyond_spot(way([1.0, 0.5], [0.0, 21.0], 20.0, 0.5), 0, np.array([100.0]))[0] == 0.0


def test_what_lies_buried_is_dug_up_before_it_is_easy_to_open():
    """25 min of digging, as rules/tables/costs.yaml has it."""
    drawn = SimpleNamespace(tables=tables())

    def minutes(buried: bool) -> float:
        hole = SimpleNamespace(kind="yard cleanout", buried=buried)
        return _to_open(SimpleNamespace(route=SimpleNamespace(opening=SimpleNamespace(hole=hole))), drawn)

    assert minutes(buried=True) - minutes(buried=False) == 25
