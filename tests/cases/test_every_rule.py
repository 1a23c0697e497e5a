"""Every rule earns its place: taking it away changes the plan, or a reason in it, of at least one job."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
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


@cache
def planned(name: str) -> str:
    return plan_of(studied(name)).model_dump_json()


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


@pytest.mark.parametrize("rule_id", [rule.id for rule in rules().all_rules])
def test_taking_a_rule_away_changes_a_plan(rule_id):
    # An opening that is none for a rod has no route, so its rule is met by the plan alone.
    jobs = fired().get(rule_id) or list(JOBS)
    base = without(rules(), rule_id)
    assert any(
        plan_of(plan(case(name), tables(), base)).model_dump_json() != planned(name) for name in jobs
    ), f"fires in {jobs} and changes nothing there"
