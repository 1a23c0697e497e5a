"""Grades worked by hand: hands, order of techniques, which way the head went, and the opening's terms."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import cast

import numpy as np
import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import Attempt
from advisor.outcome.walk import HardSpot
from advisor.practice.drill import Ask, Drain, Drill, Option, grade
from advisor.practice.drills import hands, make, opening
from advisor.practice.scene import School
from advisor.practice.values import Standing, doubt, next_ways, order_cost, weights_after
from advisor.quantity import Estimate, Known
from advisor.rulebase.rule import Caution
from tests.cases.jobs import rules, tables
from tests.practice.school import MARKS, school

STRAIGHT = """
site: straight drain
region: britain
built: 1990
lines:
  - line: main
    kind: drain
    size: 100 mm
    material: plastic
    condition: sound
    pieces:
      - {opening: head, kind: end cleanout, opens: yes}
      - pipe: 40 m
      - {end: far sewer}
task: {look at: main}
"""
ROD = """
kit: stiff rod
heads: [{head: head, diameter: 30 mm, length: 40 mm, nose: round}]
springs: [{spring: spring, like: large reel}]
rods: [{rod: rod, like: large reel, stiffness: 20 N m2, weight: 1 N/m, diameter: 12 mm, length: 60 m}]
"""


def test_hands_by_hand():
    # Every limit at its likely value. EI 20 N m2, push 75 N, safety 1.5: the safe distance is
    # pi sqrt(20 / 112.5) = 1.3246 m. At 0.3, 0.95, 1.8 and 3.5 times that a free rod carries
    # 112.5 N / times^2 = 1250, 125, 34.7 and 9.2 N, so 75, 75, 34.7 and 9.2 N go in.
    # Level pipe of 40 m, 1 N/m, friction 0.2 at least: 8 N or more are lost, so 9.2 N leave under 2 N of
    # the 5 N that move a head, and even at a friction of 0.6 34.7 N leave 10.7 N. Reached: yes, yes, yes, no.
    # Grips: 40.1 m / distance, 2 s each: 3.36, 1.06, 0.56, 0.29 min. A fold (the last two): 0.04 x 120 min.
    def at(belief: Known | Estimate) -> Known:
        return Known(belief.value if isinstance(belief, Known) else belief.likely, belief.evidence)

    plain = replace(tables(), limits={name: at(belief) for name, belief in tables().limits.items()})
    one = School(plain, rules(), school().buildings, kit_of(kit_of_text(ROD, "kit"), plain))
    study = one.studied(STRAIGHT, "site", 1)
    seed = next(s for s in range(99) if hands.offered(s, "distance")[0] == 0.3)
    drill = hands.of_way(study, study.ranked[0].outcome, seed)
    by_words = {option.words: option for option in drill.asks[0].options if not option.unsafe}
    told = [by_words[words] for words in ("397 mm", "1.3 m", "2.4 m", "4.6 m")]
    assert [option.regret for option in told] == pytest.approx([2.30, 0, 4.30, 484.03], abs=0.05)
    assert [MARKS.full(option) for option in told] == [False, True, False, False]
    # 30 minutes over the best earn nothing: 1 - 2.30/30 and 1 - 4.30/30.
    assert [MARKS.credit(option) for option in told] == pytest.approx([0.923, 1, 0.857, 0], abs=0.002)
    assert told[3].lost_chance == pytest.approx(1)


def _standing() -> Standing:
    def attempt(name: str, chance: list[float], minutes: float, set_up: float) -> Attempt:
        zero = np.zeros(2)
        return Attempt(name, np.array(chance), minutes, set_up, zero, zero, 0.0, 0.0)

    made = (attempt("turn the rod", [0.5, 0.25], 2, 0), attempt("string", [0, 0.5], 4, 10))
    tries = {each.technique: each for each in made}
    order = (("turn the rod", 1), ("string", 1))
    hard = SimpleNamespace(tries=tries, order=order, chance=lambda name: tries[name].chance)
    ones = np.ones(2)
    most = {"turn the rod": 1, "string": 1}
    return Standing(cast(HardSpot, hard), {}, ones, 20 * ones, 100 * ones, 480, most)


def test_order_of_techniques_by_hand():
    # Two worlds alike. Past the spot 20 min are left, leaving it costs 100.
    # Turn, then string: 2 + 0.5 x 20 + 0.5 (14 + 100) = 69 and 2 + 0.25 x 20 + 0.75 (14 + 10 + 50) = 62.5.
    # String, then turn: 14 + (2 + 10 + 50) = 76 and 14 + 10 + 0.5 (2 + 5 + 75) = 65.
    here = _standing()
    turn_first = order_cost(here, ["turn the rod", "string"])
    string_first = order_cost(here, ["string", "turn the rod"])
    assert turn_first.costs == pytest.approx([69, 62.5])
    assert string_first.costs == pytest.approx([76, 65])
    assert string_first.minutes - turn_first.minutes == pytest.approx(4.75)
    # Either order passes with 1 - 0.5 x 1 and 1 - 0.75 x 0.5.
    assert turn_first.chance == pytest.approx((0.5 + 0.625) / 2)
    # Past it the target is seen, left it is not: undone in 0.5 x 1 and 0.75 x 0.5.
    assert turn_first.undone == pytest.approx((0.5 + 0.375) / 2)
    # Were it missed by a tenth of those past it and by half of those who leave: 0.5 / 10 + 0.5 / 2 and
    # 0.625 / 10 + 0.375 / 2.
    else_where = replace(here, beyond_undone=0.1, switch_undone=0.5)
    assert order_cost(else_where, ["turn the rod", "string"]).undone == pytest.approx((0.3 + 0.25) / 2)
    assert else_where.leave().undone == pytest.approx(0.5)
    # Gaps 7 and 2.5 about 4.75: spread 2.25, two standard errors over two worlds 2 x 2.25 / sqrt 2.
    assert doubt(string_first.costs, turn_first.costs, here.weights) == pytest.approx(3.182, abs=0.001)
    # Without the string: 2 + 10 + 50 and 2 + 5 + 75.
    assert order_cost(here, [], never="string").costs == pytest.approx([62, 82])


def test_a_technique_tried_by_the_book_wins_nothing_more():
    # Spent, one more turn of the rod costs its 2 minutes and leaves what leaving costs: 100.
    spent = replace(_standing(), tried={"turn the rod": 1})
    assert spent.cost([spent.next("turn the rod")], []).costs == pytest.approx([102, 102])
    assert spent.cost([spent.next("string")], []).costs == pytest.approx([114, 14 + 0.5 * 20 + 0.5 * 100])


def test_the_wrong_way_by_hand():
    # In and out again at 0.25 + 0.15 min a metre each way, and a mark dug for in the wrong place: 25 min.
    drill = make("signs", school(), 3)
    told = next(line for line in drill.story if line.startswith("The counter reads"))
    number, unit = told.removeprefix("The counter reads ").removesuffix(".").split()
    metres = float(number) * {"m": 1, "ft": 0.3048}[unit]
    wrong = 2 * metres * 0.4 + 25
    # Water that overtakes the lens from behind, after about the time that it takes to come (17 s): common
    # practice, no source, takes it as good as sure that the lens looks down the line. By hand, with the
    # figures of rules/signs/where.yaml: 0.95 x 0.95 x 1 / (17 s x 0.5 sqrt(2 pi)) = 0.042 for each second
    # where it does, other water 0.03 / 120 s = 0.00025 where it does not, 169 to 1. Did three of four heads
    # turn up the line there, 56 to 1 would still be left, 0.982 against 0.018: at least 0.96 of the whole is
    # lost by going up.
    ask = drill.asks[1]
    assert "past you from behind after 17 seconds" in ask.question
    assert ask.best.words.startswith("it went down the line")
    up = next(o for o in ask.options if o.words.startswith("it went up the line"))
    assert 0.96 * wrong < up.regret < wrong * 1.01  # the counter is told to 0.1 m
    open_still = next(o for o in ask.options if o.words.startswith("it cannot be told"))
    assert 0.48 * wrong < open_still.regret < 0.5 * wrong * 1.01
    blind = next(o for o in drill.asks[0].options if o.words.startswith("nothing"))
    assert blind.regret == pytest.approx(wrong / 2, rel=0.02)


def test_the_openings_differ_by_their_terms():
    study = next(s for s in school().sites(3) if len(opening.ways_in(s)) > 2)
    best, *others = opening.ways_in(study)
    drill = opening.of_site(study, 3)

    def costs(outcome: RouteOutcome) -> float:
        # The minutes of each way in turn for those who are still at it, its harm, and at last a job left
        # undone, 480 min, for all who did not get there; who lost the head goes on nowhere.
        gone = ((outcome.route.id, outcome.loadout.name),)
        still, there, minutes = 1.0, 0.0, 0.0
        for each in (outcome, *next_ways(study, gone, weights_after(study, gone))):
            walk = each.walk
            minutes = minutes + still * (walk.minutes + walk.harm_minutes)
            there = there + still * each.reached
            still = still * np.maximum(1 - each.reached - walk.lost, 0)
        return float((minutes + 480 * (1 - there)).mean())

    for outcome in others:
        gap = costs(outcome) - costs(best)
        told = next(o for o in drill.asks[0].options if o.words.startswith(outcome.route.opening.name + ","))
        assert told.regret == pytest.approx(gap, abs=0.05)


def test_ties_and_near_ties_get_full_credit_and_what_hurts_gets_none():
    ask = Ask(
        "?",
        (
            Option("best", 0.0),
            Option("a minute more", 1.0),
            Option("not to be told apart", 8.0, doubt=9.0),
            Option("worse", 15.0, doubt=9.0),
            Option("hopeless", 31.0),
            Option("cheap and dangerous", 0.0, unsafe=Caution("gas", "danger", "It can kill.")),
        ),
        "",
    )
    credits = [
        grade(Drill("x", 1, "", (), (ask,), cast(Drain, None), ""), (i,), MARKS).credit for i in range(6)
    ]
    assert credits == pytest.approx([1, 1, 1, 0.5, 0, 0])
    assert MARKS.credit(ask.options[5]) == 0
    assert ask.best is ask.options[0]
