"""A plan made after a push goes where nobody has looked, and to what was found. Rule of the trade: a look
along a section that shows nothing sends the next push elsewhere; roots that were met are what holds water."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import product

import pytest

from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show, looks_of
from tests.cases.jobs import rules, tables
from tests.push.sites import WALK
from tests.push.test_report import Told, case, entries

# In at the floor plug, 3 m above where the kitchen joins and 7 m above the bath: all backs up.
SLOW = WALK.replace("holding: no", "holding: no, backs up: [kitchen sink, bath]")
START = ("start", 0.0, {"opening": "floor plug", "direction": "downstream"})
KITCHEN = ("sighting", 3.1, {"what": "tie-in", "name": "kitchen line"})
BATH = ("sighting", 7.1, {"what": "tie-in", "name": "bath line"})
NOTHING = ("sighting", 13.0, {"what": "nothing"})
END = ("end", 13.0, {"reached": True})
SEEN = (START, KITCHEN, BATH, NOTHING, END)


def study(*told: Told):
    return plan(as_pushes_show(case(SLOW), entries(*told), tables(), rules()), tables(), rules())


@cache
def untold():
    return study()


def below_bath(made):
    """What is between the bath line and the yard cleanout."""
    return next(each for each in made.suspects if each.upper == "bath line")


def test_a_section_that_was_looked_at_is_less_likely_by_what_a_look_misses():
    """By hand, Bayes: a look misses 0.25 of what is there, so the three sections from the floor plug down
    keep a quarter of their weight beside those that nobody looked at."""
    before, after = untold(), study(*SEEN)
    looked = [each for each in after.suspects if "a push looked at all of it and met nothing" in each.because]
    assert {each.lower for each in looked} == {"kitchen line", "bath line", "yard cleanout"}
    was = {each.words: each.share for each in before.suspects}
    other = [each for each in after.suspects if not any("a push" in why for why in each.because)]
    for one, two in product(looked, other):
        assert one.share / two.share == pytest.approx(0.25 * was[one.words] / was[two.words])
    assert other
    assert not any("a push" in why for each in before.suspects for why in each.because)


@pytest.mark.parametrize(
    "met",
    [
        ("stopped", 9.0, {"sign": "roots"}),
        ("find", 9.0, {"what": "roots"}),
        ("sighting", 9.0, {"what": "standing water"}),
    ],
)
def test_what_was_found_makes_its_section_the_likeliest(met):
    made = study(START, KITCHEN, BATH, met, END)
    assert made.suspects[0] == below_bath(made)
    assert "a push found something in it" in below_bath(made).because


@pytest.mark.parametrize(
    "met", [("find", 9.0, {"what": "joint stepped down 15 mm"}), ("stopped", 9.0, {"sign": "rim ahead"})]
)
def test_a_step_that_holds_no_water_back_explains_no_complaint(met):
    """From a trial: a low rim that the head passed sent the next man back to it."""
    assert "a push found something in it" not in below_bath(study(START, KITCHEN, BATH, met, END)).because


@pytest.mark.parametrize(
    "met",
    [
        ("stopped", 9.0, {"sign": "far wall"}),
        ("sighting", 9.0, {"what": "lens under water"}),
        ("try", 9.0, {"technique": "steady push", "outcome": "stopped"}),
    ],
)
def test_where_the_head_was_held_or_nothing_was_seen_nobody_has_looked(met):
    before, after = (below_bath(made) for made in (untold(), study(START, KITCHEN, BATH, met, END)))
    assert not any("a push" in why for why in after.because)
    assert after.share >= before.share


ROOTS = ("find", 9.0, {"what": "roots, long"})
WALL = ("stopped", 9.0, {"sign": "far wall"})
UNSURE = (*START[:2], {"opening": "floor plug", "direction": "unknown"})


@pytest.mark.parametrize(
    ("begun", "met", "found"), [(START, ROOTS, True), (START, WALL, False), (UNSURE, ROOTS, False)]
)
def test_what_one_push_met_another_has_not_seen_to_be_nothing(begun, met, found):
    """From a trial: roots stopped a push that had recognized nothing yet. After the cutter the
    next one went through, and the plan sent him away from where the stoppage was found."""
    before, after = (below_bath(made) for made in (untold(), study(begun, met, END, *SEEN)))
    says = ("a push found something in it",) if found else ()
    assert tuple(why for why in after.because if "a push" in why) == says
    assert after.share >= before.share


@pytest.mark.parametrize(
    "told",
    [
        SEEN[:-1],  # still at it
        (START, NOTHING, END),  # nothing of the map was recognized
        ((*START[:2], {"opening": "floor plug", "direction": "unknown"}), NOTHING, END),
        # One tie-in, and nobody told the way: no surer than 85 %, and 90 % settle it (where.yaml).
        ((*START[:2], {"opening": "floor plug", "direction": "unknown"}), KITCHEN, END),
    ],
)
def test_what_does_not_show_where_it_was_is_no_look(told):
    made = looks_of(case(SLOW), entries(*told), tables(), rules())
    assert made.at == ()


def test_looks_of_a_case_change_no_way_that_a_push_is_taken_to_have_gone():
    once = as_pushes_show(case(SLOW), entries(*SEEN), tables(), rules())
    assert as_pushes_show(once, entries(*SEEN), tables(), rules()) == once
    assert replace(once, looked_at=()) != once
