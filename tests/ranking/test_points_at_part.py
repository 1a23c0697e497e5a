"""What the complaint gives a part, and what the chances of changes are of: by hand, from the shares told."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.explain.change import Cure, cures
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.memory import Memory
from advisor.plan import Case, work_through
from advisor.quantity import Units
from advisor.ranking.part import points_at
from advisor.result.build import plan_of
from advisor.result.chances import chance_words
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.terminal.explain_screen import show_cures, told_against
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.ranking.test_part import ABOVE, BELOW, NETWORK, suspect
from tests.ranking.test_within_reach import COVER, KIT, SITE

PIECES = (
    f"      - {{fixture: washing machine, trap: in wall}}\n      - pipe: 30 m\n{COVER}      - pipe: 50 m\n"
)


@cache
def case() -> Case:
    """45 m of rod, 50 m of pipe below the chamber, and a machine above it that is slow."""
    text = SITE.format(pieces=f"{PIECES}      - end: public sewer")
    slow = text.replace("complaint: {", "complaint: {slow: [washing machine], ")
    look = slow.replace("look at: house drain", "look at: 'house drain, from chamber to public sewer'")
    kit = kit_of(kit_of_text(KIT.replace("LONG", "45 m"), "kit"), tables())
    return Case(site_of_text(look, "site", tables()), kit, Units.METRIC, 200)


@cache
def study() -> Study:
    return work_through(case(), tables(), rules())


def test_a_run_gets_of_each_section_by_its_metres():
    """3 m above the cleanout and 9 m below it, of which a tail is asked for."""
    sure = (suspect(ABOVE, 0.2), suspect(BELOW, 0.7))
    assert points_at(BELOW, sure, NETWORK) == pytest.approx(0.7)
    assert points_at(("a", "b", "c", "d", "e"), sure, NETWORK) == pytest.approx(0.9)
    assert points_at(BELOW, (), NETWORK) == 0


def test_the_complaint_points_to_a_part_with_no_more_than_to_the_whole():
    plan = plan_of(study())
    part = plan.target.part
    below = next(each for each in plan.suspects if each.section == part.of)
    assert 0 < below.chance < 1
    assert part.covers < 1
    # Within one section every metre is as likely: the part holds its share of what the section has.
    assert part.trouble == pytest.approx(part.covers)
    assert part.points == pytest.approx(part.covers * below.chance)


def test_the_plan_tells_that_chance(capsys):
    plan = plan_of(study())
    show_plan(plan, Units.METRIC, Page())
    part, told = plan.target.part, " ".join(capsys.readouterr().out.split())
    assert f"{part.points:.0%}" != f"{part.trouble:.0%}"
    assert (
        f"That is {part.covers:.0%} of the length. The complaint points there with {part.points:.0%}." in told
    )


def test_what_a_change_is_told_against_is_told_with_what_it_is_of(capsys):
    """The plan says how likely the part is seen; a change is told by how likely the job ends."""
    cure = Cure(
        what="a change", chance_before=study().chance, chance_after=0.9, minutes_after=99, opening_after="x"
    )
    against = told_against((cure,), study())
    show_cures((cure,), chance_words(study()), Page(), against)
    told = " ".join(capsys.readouterr().out.split())
    seen, part = study().settled.order.chance, study().part
    assert f"{seen * part.trouble:.2f}" == f"{study().chance:.2f}"
    assert f"({100 * seen:.0f} %)" in told
    assert f"holds it with {part.trouble:.0%} if it lies in {part.of.words}" in told


def test_a_reel_to_bring_is_told_with_its_rod():
    """The reel on the truck may be of the same class, with less rod on it: 60 m by the table of classes."""
    memory = Memory()
    found = cures(case(), work_through(case(), tables(), rules(), memory), tables(), rules(), memory)
    large = tables().kit_classes["large reel"].rod.length.likely
    assert f"bring a large reel with {large:g} m of rod as well" in {each.what for each in found}
