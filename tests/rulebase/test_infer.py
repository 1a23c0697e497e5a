"""Inference: three kinds of outcome, order of no account, words in the user's units."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

import pytest
from small_base import Small

from advisor.quantity import Units
from advisor.rulebase import STRATA, Firing, RuleBase, Value, check_examples, infer
from advisor.rulebase.reader import Reader


def only(base: RuleBase, facts: dict[str, Value], units: Units = Units.INCH) -> Firing:
    (firing,) = infer(base, "technique", "passage", facts, Reader(units))
    return firing


@pytest.mark.parametrize(
    ("facts", "outcome"),
    [
        ({"passage.stroke": 0.1}, True),
        ({"passage.stroke": 0.5}, False),
        ({"passage.stroke": None}, None),
        ({}, None),
    ],
)
def test_fired_silent_and_undecided_are_all_kept(
    small: Small, facts: dict[str, Value], outcome: bool | None
) -> None:
    firing = only(small.load(), facts)
    assert firing.outcome is outcome
    assert firing.missing == (("passage.stroke",) if outcome is None else ())


def test_the_reason_has_its_numbers_in_the_users_units(small: Small) -> None:
    base = small.load()
    # By hand, on a tape marked in eighths: 0.1 m is 3.94 in, so 3-7/8; 0.3 m is 11.81 in, so 11-3/4.
    assert only(base, {"passage.stroke": 0.1}).because == "Only 3-7/8 in of 11-3/4 in arrives."
    assert only(base, {"passage.stroke": 0.1}, Units.METRIC).because == "Only 100 mm of 300 mm arrives."
    assert only(base, {}).because == "Only unknown of 11-3/4 in arrives."


def test_conclusions_have_their_numbers_too(base: RuleBase) -> None:
    facts: dict[str, Value] = {
        "passage.runs_at_far_wall": 0.7,
        "passage.rod_end_sticks": 0.2,
        "passage.far_wall_holds": 0.7,
        "passage.rod_end_holds": 0.2,
        "passage.held_by": "If it holds here",
        "limits.run_up": 0.5,
    }
    found = {one.rule_id: one for one in infer(base, "technique", "passage", facts, Reader(Units.METRIC))}
    steps = found["quick-push-how"].conclusion.steps["quick push"]
    assert "Back off about 500 mm." in steps
    assert "likely (70 %)" in found["quick-push-how"].because


def test_later_changes_of_the_facts_do_not_reach_a_firing(small: Small) -> None:
    facts: dict[str, Value] = {"passage.stroke": 0.1}
    firing = only(small.load(), facts)
    facts["passage.stroke"] = 0.2
    assert firing.checks[0].left == "3-7/8 in"


def test_order_of_rules_never_matters(base: RuleBase) -> None:
    shuffled = random.Random(7)
    some: dict[str, list[Value]] = {
        "share": [0.0, 0.5, 1.0, None],
        "flag": [True, False, None],
        "quantity": [0.0, 0.3, 5.0, None],
        "count": [0.0, 2.0, None],
    }
    for _ in range(20):
        facts = {
            fact.name: shuffled.choice(some.get(fact.kind, [*fact.options, None]))
            for fact in base.facts.values()
            if fact.subject != "limits"
        }
        mixed = replace(
            base,
            by_stratum={
                stratum: tuple(shuffled.sample(rules, len(rules)))
                for stratum, rules in base.by_stratum.items()
            },
        )
        for stratum in STRATA:
            for about in ("site", "opening", "route", "passage"):
                was = infer(base, stratum, about, facts, Reader(Units.INCH))
                now = infer(mixed, stratum, about, facts, Reader(Units.INCH))
                assert {(one.rule_id, one.outcome) for one in was} == {
                    (one.rule_id, one.outcome) for one in now
                }


def test_rules_are_sorted_by_id_wherever_they_stand(small: Small, tmp_path: Path) -> None:
    rule = small.texts["technique/push.yaml"].partition("rules:\n")[2]
    small.texts["technique/a.yaml"] = (
        "rules:\n" + rule.replace("no-run-up", "zz") + rule.replace("no-run-up", "aa")
    )
    assert [one.id for one in small.load().all_rules] == ["aa", "no-run-up", "zz"]


def test_an_example_that_comes_out_otherwise_is_a_fault(small: Small) -> None:
    small.replace("technique/push.yaml", "stroke < limits", "stroke <= limits")
    (fault,) = check_examples(small.load())
    assert "example 'just enough': got fires; expected silent" in str(fault)
    assert fault.line == 2
