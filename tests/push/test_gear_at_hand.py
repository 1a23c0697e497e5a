"""Only what goes on the gear in the pipe is proposed; what is put on outside takes the rod out first."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.push.held.stuck import stuck
from advisor.push.now.course import Course
from tests.cases.jobs import studied, tables
from tests.push.test_stuck import TEE
from tests.terminal.test_now_shown import TEE_PLUG

KIT = """
kit: invented
heads:
  - {head: wide head, like: large reel, diameter: 46 mm, length: 70 mm, nose: round}
  - {head: slim head, like: small reel, diameter: 28 mm, length: 40 mm, nose: round}
springs:
  - {spring: firm spring, like: large reel, feel: firm}
  - {spring: soft spring, like: small reel, feel: soft}
rods:
  - {rod: thick rod, like: large reel, diameter: 11 mm, length: 45 m}
  - {rod: thin rod, like: small reel, diameter: 7 mm, length: 20 m}
guides: [{guide: ring, diameter: 44 mm, length: 12 mm}]
loadouts:
  - {head: wide head, spring: firm spring, rod: thick rod}
  - {head: slim head, spring: soft spring, rod: thin rod}
  - {head: slim head, spring: soft spring, rod: thin rod, guide: ring}
"""
GEAR = ("wide head on thick rod", "slim head on thin rod", "slim head on thin rod + ring")


@cache
def course(gear: str) -> Course:
    of = studied(TEE.replace("HOLDING", "holding: no, chemicals: no"), KIT, 100)
    opening = next(piece for piece in of.network.openings() if piece.name == TEE_PLUG)
    return Course(of, opening, next(each for each in of.kit.loadouts if each.name == gear))


@pytest.mark.parametrize(("gear", "offered"), [*zip(GEAR, (False, True, False), strict=True)])
def test_a_ring_for_one_head_is_proposed_for_no_other_nor_once_it_is_on(gear, offered):
    found = stuck(course(gear), None, frozenset({"rim ahead"}), (), 8.0, ())
    assert found.told.name == "rim"
    assert ("guide" in {each.technique for each in found.tries}) is offered
    assert ("guide" in dict(found.not_now)) is (gear == GEAR[0])


@pytest.mark.parametrize(("gear", "could_be"), [*zip(GEAR, (False, True, True), strict=True)])
def test_what_the_rules_are_told_of_a_guide_is_of_this_gear(gear, could_be):
    spots = course(gear).spots
    assert spots
    facts = [ruling.facts["passage.guide_in_kit"] for met in spots for ruling in met.hard.rulings]
    assert set(facts) == {could_be}


def test_what_is_rigged_outside_takes_the_rod_out_first():
    found = stuck(course(GEAR[1]), None, frozenset({"rim ahead"}), (), 8.0, ())
    first = {each.technique: each.steps[0] for each in found.tries if each.steps}
    out = "Not on it yet? Draw all of the rod out"
    for technique in tables().stuck.rigged_outside.techniques:
        assert first[technique].startswith(out)
    assert not [name for name in set(first) - {"string", "guide"} if first[name].startswith(out)]
