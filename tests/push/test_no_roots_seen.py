"""A run in which roots are expected, and along which a push has looked, is told with what that saw.

From a trial: 16 ft that had just passed the lens were told as "roots are an even chance", as if nobody had
been there. Readings by hand: the sink line joins 3 m in, the trap is 9 m in. That a look misses one in four
of what is there is rules/tables/signs.yaml, "nothing found, there"; the rest is Bayes' rule.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.plan import plan
from advisor.push.met_before import met_before
from advisor.push.no_roots_seen import with_looks
from advisor.result.build import plan_of
from advisor.result.model import PassageNote
from advisor.result.study import Study
from tests.cases.jobs import rules, tables
from tests.push.test_plan_after_trap import ROOTED
from tests.push.test_report import Told, entries
from tests.push.test_seen_whole import MET, START, end
from tests.terminal.test_now_shown import case_of

TIE_IN = MET[0]
PASSED = end(9.0, "trap", reached=True)


@cache
def study(text: str = ROOTED) -> Study:
    return plan(replace(case_of(text), worlds=100), tables(), rules())


def run_after(*told: Told, text: str = ROOTED, **start: str) -> PassageNote:
    """The run of roots past the sink line on the way in from the floor plug, after such a push from there."""
    standing = entries((START[0], START[1], {**START[2], **start}), *told)
    made = with_looks(plan_of(study(text), met_before(study(text), standing)), study(text), standing)
    way = next(each for each in made.routes if each.opening == "floor plug")
    *_, last = (each for each in way.passages if each.somewhere)
    return last


def test_what_it_saw_is_told_and_makes_roots_the_less_likely():
    told = run_after(TIE_IN, *PASSED)
    assert "looked from " in told.looked
    assert "told of none there. A look misses some: as slowly all the same." in told.looked


def test_by_how_much_is_the_rule_of_bayes():
    (there,) = {
        float(hard.spot.shape.roots.there.mean())
        for each in study().ranked
        if each.outcome.route.opening.name == "floor plug"
        for hard in each.outcome.spots[-1:]
        if hard.spot.shape.roots is not None
    }
    left = there / 4 / (there / 4 + 1 - there)
    assert f"({left:.0%})".replace("%", " %") in run_after(TIE_IN, *PASSED).looked


@pytest.mark.parametrize(
    "told",
    [
        ("find", 5.0, {"what": "roots"}),
        ("stopped", 5.0, {"sign": "blocked, roots", "feel": "soft"}),
        ("sighting", 5.0, {"what": "lens under water"}),
    ],
)
def test_beyond_the_first_that_was_told_or_what_was_not_seen_nothing_is_said(told):
    """5 m less what a reading may be off, 0.5 m (rules/signs/where.yaml, near)."""
    looked = run_after(TIE_IN, told, *PASSED).looked
    until = float(looked.partition(" to ")[2].split(" m ")[0])
    assert until == pytest.approx(4.5)
    assert "now" not in looked


@pytest.mark.parametrize(
    ("told", "start"),
    [
        ((TIE_IN,), {}),  # it has not ended
        ((("find", None, {"what": "roots"}), *PASSED), {}),  # nobody knows where
        ((TIE_IN, *PASSED), {"opening": "kitchen sink"}),  # by another way in
    ],
)
def test_without_such_a_look_nothing_is_said(told, start):
    assert run_after(*told, **start).looked == ""


def test_of_a_push_that_may_have_gone_the_other_way_nothing_is_said():
    plug = "      - opening: floor plug"
    above = ROOTED.replace(plug, f"      - fixture: bath\n      - pipe: 9 m\n{plug}")
    told = (("sighting", 8.0, {"what": "nothing"}), ("end", 8.0, {"reached": True, "out": True}))
    assert run_after(*told, text=above, direction="downstream").looked
    assert run_after(*told, text=above, direction="unknown").looked == ""
