"""A plan whose part a push has seen says so, what of the rest nobody has looked at, and what comes first.

From a trial: held in roots at 23.5 ft, marked, and the plan after it sent him back to the 16 ft
that had just passed the lens, "locate what holds there and mark it". Lengths by hand: the sink line joins
3 m in, the trap that ends what is to be seen is 9 m in; the part ends at 7 m.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from advisor.plan import plan
from advisor.push.met_before import met_before
from advisor.push.seen_whole import again, seen_whole
from advisor.ranking.part import Part
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.result.target_model import SeenNote
from advisor.site.target import target_in
from tests.cases.jobs import rules, tables
from tests.push.test_report import Told, entries
from tests.push.test_seen_whole import MET, SITE
from tests.terminal.test_now_shown import case_of

PART = "drain, from sink line to 4 m below sink line"
ROOTS: Told = ("stopped", 8.0, {"sign": "blocked, roots", "feel": "soft"})
RIM: Told = ("stopped", 8.0, {"sign": "rim ahead", "feel": "dead"})
FLAG: Told = ("mark", 8.0, {"name": "orange flag"})
TIE_IN = MET[0]


@cache
def study() -> Study:
    made = plan(replace(case_of(SITE), worlds=100), tables(), rules())
    network, part = target_in(PART, made.network)
    return replace(made, network=network, target=part, part=Part(part, made.target, 0.66, 0.66, 30.0, ()))


def log(*told: Told, reached: bool = False, target: str = PART):
    start: Told = ("start", 0.0, {"opening": "floor plug", "direction": "downstream", "target": target})
    far = max(at for _, at, _ in told if at is not None)
    return entries(start, *told, ("end", far, {"reached": reached, "out": True}))


def look(at: float) -> Told:
    return ("sighting", at, {"what": "nothing"})


def said(*told: Told, reached: bool = False) -> str:
    return " ".join(seen_whole(study(), log(*told, reached=reached)).told)


def test_the_part_the_rest_and_what_holds_there_are_told():
    told = said(TIE_IN, ROOTS, FLAG)
    assert f"from floor plug: {PART}. Again only to look again" in told
    # A floor plug stands above its drain: somewhat less than the 8 m of the counter lie along it.
    rest = re.search(r"Not shown to have been seen: ([\d.]+) m to 9 m down drain", told)
    assert rest is not None
    assert 7.0 < float(rest[1]) < 8.0
    assert told.index("8 m in from floor plug (stopped before: ") < told.index("comes first")
    assert told.endswith("It was marked above ground: orange flag.")


def test_what_was_marked_is_not_sent_for_again():
    (end,) = (note for note in met_before(study(), log(TIE_IN, ROOTS)) if note.not_past)
    assert "locate what holds there and mark it" in end.instead
    (end,) = (note for note in met_before(study(), log(TIE_IN, ROOTS, FLAG)) if note.not_past)
    assert "locate" not in end.instead
    assert "orange flag" in end.instead
    assert "Push on only once it is out." in end.instead


def test_what_a_gentle_push_may_pass_is_gone_to_gently():
    assert "held 8 m in from floor plug and never came past. Gently there" in said(TIE_IN, RIM)


@pytest.mark.parametrize(("at", "reached"), [(8.0, False), (8.0, True), (7.0, True)])
def test_where_nothing_held_it_the_look_goes_on(at, reached):
    told = said(TIE_IN, look(at), reached=reached)
    assert f"Past {at:g} m slowly on" in told
    assert "comes first" not in told


@pytest.mark.parametrize(
    "told",
    [
        (TIE_IN, look(6.0)),  # a metre is wanting
        (TIE_IN, look(7.0)),  # less, but nobody says that it was all
        (look(8.0),),  # nothing on the way was recognized
        (TIE_IN, ("sighting", 5.0, {"what": "lens under water"}), look(8.0)),  # passed, not seen
    ],
)
def test_what_may_not_all_have_been_seen_is_not_told_as_seen(told):
    assert seen_whole(study(), log(*told)) == SeenNote()


def test_the_word_on_a_shorter_part_is_none_on_this():
    standing = log(TIE_IN, look(7.0), reached=True, target="drain, from sink line to 3 m below sink line")
    assert seen_whole(study(), standing) == SeenNote()


def test_the_same_step_once_more_is_told_as_that():
    made, seen = plan_of(study()), seen_whole(study(), log(TIE_IN, ROOTS))
    assert again(made, seen, study()).startswith(f"To look again: {made.first_step[0].lower()}")
    assert again(made, SeenNote(), study()) == made.first_step
