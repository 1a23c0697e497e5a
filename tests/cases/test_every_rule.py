"""Every rule earns its place: taking it away changes the plan, or a reason in it, of at least one job."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.rulebase.load import RuleBase
from advisor.site.sheet import site_of_text
from advisor.terminal.rules_screen import firings
from tests.cases.hazards import JOBS
from tests.cases.jobs import rules, tables

WORLDS = 200


def case(name: str) -> Case:
    site, kit = JOBS[name]
    return Case(
        site_of_text(site, name, tables()), kit_of(kit_of_text(kit, "kit"), tables()), Units.INCH, WORLDS
    )


@cache
def studied(name: str):
    return plan(case(name), tables(), rules())


def told(study: Study) -> str:
    """The plan as text, without the list of rules on weak ground: to be listed there is no earning."""
    return json.dumps(plan_of(study).model_dump(exclude={"weak"}), ensure_ascii=False)


@cache
def planned(name: str) -> str:
    return told(studied(name))


@cache
def fired() -> dict[str, list[str]]:
    """For each rule the jobs in which it fires, or is undecided about a hazard of the site."""
    found: dict[str, list[str]] = {}
    for name in JOBS:
        study = studied(name)
        ids = {f.rule_id for f in firings(study) if f.outcome}
        ids |= {f.rule_id for f in study.site_firings if f.outcome is None}
        for rule in ids:
            found.setdefault(rule, []).append(name)
    return found


def without(base: RuleBase, rule_id: str) -> RuleBase:
    kept = {
        stratum: tuple(rule for rule in group if rule.id != rule_id)
        for stratum, group in base.by_stratum.items()
    }
    return replace(base, by_stratum=kept)


# An opening that is none for a rod has no route, so its rule is met by the plan alone.
NO_ROUTE = {"trap-in-the-wall": ["standpipe"]}
every_rule = pytest.mark.parametrize("rule_id", [rule.id for rule in rules().all_rules])


@every_rule
def test_taking_a_rule_away_changes_a_plan(rule_id):
    jobs = fired().get(rule_id) or NO_ROUTE[rule_id]
    base = without(rules(), rule_id)
    assert any(told(plan(case(name), tables(), base)) != planned(name) for name in jobs), (
        f"fires in {jobs} and changes nothing there"
    )


@every_rule
def test_what_a_rule_says_is_shown(rule_id):
    """A rule may also change a plan by a chance alone; its own words must stand there too."""
    if rule_id in NO_ROUTE:
        because = next(rule.because for rule in rules().all_rules if rule.id == rule_id)
        assert because in planned(NO_ROUTE[rule_id][0])
        return
    assert any(
        words in planned(name)
        for name in fired()[rule_id]
        for firing in firings(studied(name))
        if firing.rule_id == rule_id and firing.outcome is not False
        for words in (firing.because, *firing.conclusion.texts())
    )
