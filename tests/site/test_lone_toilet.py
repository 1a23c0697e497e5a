"""One toilet alone: the trade looks into its bowl and bend before it is lifted (common practice)."""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.suspects import suspects
from tests.card.test_in_few_words import front
from tests.cases.hazards import LONE_TOILET, line, site
from tests.cases.jobs import rules, tables


def planned(text: str) -> Plan:
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 50)
    return plan_of(plan(case, tables(), rules()))


def lone(made: Plan) -> list[str]:
    return [note.text for note in made.cautions if note.id == "lone-toilet"]


@pytest.mark.parametrize("asked", [True, False])
def test_plunger_and_auger_come_before_it_is_lifted(asked):
    made = planned(LONE_TOILET if asked else LONE_TOILET.replace("chemicals: no, ", ""))
    before = made.routes[0].before
    assert made.routes[0].opening == "toilet"
    plunger = next(i for i, step in enumerate(before) if "plunger" in step and "closet auger" in step)
    lifting = next(i for i, step in enumerate(before) if "Old bolts" in step)
    assert plunger < lifting
    assert ("Only once it is known that nothing was poured in" in before[plunger]) is not asked
    assert lone(made)
    assert {"plunger", "closet auger"} <= set(made.routes[0].bring)


@pytest.mark.parametrize(
    "told",
    [
        "backs up: [toilet, bath]",  # more is bad
        "backs up: [toilet], slow: [bath]",
        "backs up: [bath], fine: [toilet]",  # another fixture is
        "backs up: [toilet]",  # nobody has said that a neighbour runs
    ],
)
def test_where_more_is_bad_or_no_neighbour_runs_nothing_is_said_of_it(told):
    assert not lone(planned(LONE_TOILET.replace("backs up: [toilet], fine: [bath]", told)))


def test_where_a_cleaner_was_poured_in_nobody_plunges():
    assert not lone(planned(LONE_TOILET.replace("chemicals: no", "chemicals: yes")))


def test_the_flush_that_is_waited_for_comes_before_all_water_is_held_off():
    """Who runs what, and when: nobody flushes once everybody holds off."""
    before = planned(LONE_TOILET.replace("backs up", "slow")).routes[0].before
    flush = next(i for i, step in enumerate(before) if "flushes once" in step)
    held = next(i for i, step in enumerate(before) if "hold off water" in step)
    assert before[flush - 1].startswith("Sure that nobody poured a cleaner in? First a cup")
    assert flush < held
    unseen = planned(LONE_TOILET).routes[0].before  # it backs up, so nobody can tell whether the line drains
    assert not any("flush" in step for step in unseen), "no water until it is seen to drain"


OUT = ("joined by: branch, fitting: wye", "pipe: 30 m", "end: public sewer")
BRANCH = site(
    line("drain", "opening: yard chamber, kind: inspection chamber", "pipe: 30 m", *OUT)
    + line(
        "branch", "opening: toilet, kind: P-outlet toilet", "pipe: 500 mm", "fixture: bath", "pipe: 500 mm"
    ),
    "suspect section",
    complaint="holding: no, chemicals: no, slow: [toilet], fine: [bath], tested with volume: [bath]",
)


@pytest.mark.parametrize("tested", ["tested with volume: [bath]", ""])
@pytest.mark.parametrize("bad", ["slow", "backs up"])
def test_its_bowl_is_the_first_suspect_however_long_the_drain_is(tested, bad):
    text = BRANCH.replace(", tested with volume: [bath]", f", {tested}" if tested else "")
    sheet = site_of_text(text.replace("slow: [toilet]", f"{bad}: [toilet]"), "site", tables())
    first, second, *_ = suspects(network_of(sheet, tables()), sheet.model.task.complaint, tables())
    assert first.line == "branch"
    assert first.upper == "toilet"
    assert "bowl" in first.because[0]
    assert first.share > second.share


def test_a_bath_tested_on_the_same_branch_clears_what_both_run_through():
    """What held the toilet's water below where the two join would hold the bath's as well."""

    def below(text: str) -> float:
        sheet = site_of_text(text, "site", tables())
        found = suspects(network_of(sheet, tables()), sheet.model.task.complaint, tables())
        return sum(each.share for each in found if each.upper == "branch")

    assert below(BRANCH) < below(BRANCH.replace(", tested with volume: [bath]", "")) / 2


def test_the_first_step_and_every_paper_name_the_bowl():
    made = planned(BRANCH)
    assert "plunger, then closet auger. Then open toilet" in made.first_step
    whole = card_of(made, made.routes[0], tables().card, Units.METRIC, "2026-01-01", False)
    assert "Plunger, then closet auger, before it is lifted." in front(whole, "half")
