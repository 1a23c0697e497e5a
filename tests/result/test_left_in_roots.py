"""Roots that hold the head stand before every push through the same pipe: nobody walks to them twice."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result import routes
from advisor.result.build import plan_of
from advisor.result.ends import End
from advisor.result.model import Plan
from advisor.result.study import Study
from advisor.result.way_model import LeaveNote
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

# An old row: the gully lies upstream on the same pipe as the chamber, so the same roots stand before both.
ROOTS = """
site: invented row
region: britain
built: 1898
map: sketch
lines:
  - line: rear drain
    kind: drain
    size: 100 mm
    material: clay
    condition: roots
    pieces:
      - opening: kitchen gully
        kind: gully
        there: yes
      - pipe: 1.5 m
      - opening: yard chamber
        kind: inspection chamber
        there: yes
        depth: 600 mm
      - pipe: 11 m
      - end: public sewer
task:
  look at: rear drain, from yard chamber to public sewer
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
BIG = """
kit: invented rig
heads:
  - {head: big head, like: large reel, diameter: 46 mm, length: 70 mm}
  - {head: small head, like: small reel, diameter: 28 mm, length: 40 mm}
springs:
  - {spring: firm spring, like: large reel}
  - {spring: soft spring, like: small reel}
rods:
  - {rod: big, like: large reel, length: 45 m}
  - {rod: small, like: small reel, length: 20 m}
loadouts:
  - {head: big head, spring: firm spring, rod: big}
"""
BOTH = BIG + "  - {head: small head, spring: soft spring, rod: small}\n"


# The chamber stands open: nothing but the roots ends a push from it.
OPEN = ROOTS.replace("depth: 600 mm", "depth: 600 mm\n        opens: yes")


@cache
def studied(kit: str, house: str = ROOTS) -> Study:
    case = Case(
        site_of_text(house, "site", tables()),
        kit_of(kit_of_text(kit, "kit"), tables()),
        Units.METRIC,
        200,
    )
    return plan(case, tables(), rules())


@cache
def planned(kit: str) -> Plan:
    return plan_of(studied(kit))


def left(kit: str) -> LeaveNote:
    """When the first attempt is left at its roots."""
    first = planned(kit).attempts[0]
    assert first.opening == "yard chamber"
    return next(each for each in first.leave if each.spot.startswith("roots"))


def test_with_the_same_head_no_other_opening_on_the_same_pipe_is_gone_to():
    """In every case in which roots held this head they hold it as well when it comes from the gully."""
    note = left(BIG)
    assert (note.onward, note.change) == (None, None)
    assert "go to" not in note.say()
    assert note.then().startswith("stop")


@pytest.mark.parametrize("kit", [BIG, BOTH])
def test_no_attempt_is_told_beside_no_other_opening_is_worth_it(kit):
    """Either it comes to the next opening or it does not: the two are read one under the other."""
    attempts = planned(kit).attempts
    for step, after in pairwise(attempts):
        for note in step.leave:
            if after.opening != step.opening:
                assert "no other opening" not in note.then()
            else:
                assert (note.change, note.onward) == (after.loadout, None)


def test_a_smaller_head_goes_in_where_it_is_open_already():
    note = left(BOTH)
    small = next(each.name for each in studied(BOTH).kit.loadouts if "small" in each.name)
    assert note.change == small
    assert f"then draw out, go in with {small}; then " in note.say()
    assert note.onward is None, "what held that too holds it from the gully"


def test_an_opening_beyond_the_same_roots_says_why_it_is_gone_to():
    told = LeaveNote(spot="roots", tries=2, onward="gully", why="the same roots, a smaller head")
    assert told.say() == "two tries, then go to the gully (the same roots, a smaller head)"
    assert LeaveNote(spot="bend", tries=1, onward=None).say().startswith("one try, then stop")


def test_where_only_roots_end_a_push_the_smaller_head_is_the_second_attempt():
    """Who reads the order down its numbers does what the rule at the roots says, where he stands already."""
    study = studied(BOTH, OPEN)
    told = plan_of(study)
    assert [(each.opening, each.loadout) for each in told.attempts] == [
        ("yard chamber", "big head on big"),
        ("yard chamber", "small head on small"),
    ]
    # Of those that the first leaves the second takes its share; with nothing lost that is the whole chance.
    first, then = (each.chance for each in told.attempts)
    assert told.attempts_chance == pytest.approx(first + (1 - first) * then, abs=0.01)
    assert [each.route.opening.name for each in study.settled.attempts] == ["yard chamber"]


@pytest.mark.parametrize("kit", [BIG, BOTH])
def test_elsewhere_the_order_holds_as_it_stands(kit):
    attempts = planned(kit).attempts
    for step, after in zip(attempts, (*attempts[1:], None), strict=True):
        for note in step.leave:
            if not note.spot.startswith("roots"):
                assert note.onward == (after.opening if after else None)


def test_places_told_by_the_same_words_end_a_way_once(monkeypatch):
    """Two runs of roots in one pipe: their shares are one share, and the sum may be the worst."""
    found = (
        End("door", "shut", 0.05),
        End("roots", "of the roots", 0.04),
        End("roots", "of the roots", 0.03),
    )
    monkeypatch.setattr(routes, "ends_of", lambda *_: found)
    told = routes._ends(studied(BOTH).ranked[0].outcome, studied(BOTH))
    assert [(end.where, end.share) for end in told] == [("roots", pytest.approx(0.07)), ("door", 0.05)]
