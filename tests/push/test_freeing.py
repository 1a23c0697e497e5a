"""What frees a held head is told so that nothing in it is what the cause beside it forbids.

The walk goes over every cause that the table knows and every step that is told of it. What a cause forbids is
read from the matrix of techniques and from the cause's own first words. Common practice, no source: what
roots hold is neither pushed in nor turned; a kinked rod folds or breaks at the next turn, and bears less.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest

from advisor.push.held.stuck import Stuck, stuck
from advisor.push.held_now import held_now
from advisor.push.log.kinds import SIGHTING, START, STOPPED
from advisor.push.log.log import Entry
from advisor.push.now.causes import Cause
from advisor.push.now.here import pieces_here
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.plight import Plight
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import show_coming_home
from tests.cases.jobs import rules, tables
from tests.terminal.test_held_here import held
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee
from tests.terminal.test_over_bent import LINE, NOON, study

MADE_OF = {
    "turn the rod": r"(?i)turn the rod|quarter turn|turn it a quarter",
    "string": r"(?i)draw on the string",
    "water": r"(?i)little water run",
    "steady push": r"(?i)push in a hand|lean on",
}
NO_PUSH = r"(?i)stop pushing|no (more )?push|not a bit further|not force"


@cache
def along() -> Now:
    return held()


@cache
def at_tee() -> Now:
    return pushed(tee(), TEE_PLUG)


def told_as(cause: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """This cause is what holds it, whatever was seen."""
    row = tables().stuck.causes[cause]
    sure = (Cause(cause, row.words, row.why, row.trouble, 0.99),)
    monkeypatch.setattr("advisor.push.held.told_by_signs.causes_of", lambda *_: sure)


def said_of(found: Stuck) -> list[str]:
    tries = [step for each in found.tries for step in (each.technique, *each.steps)]
    return [*found.first, *found.out.steps, *tries]


@pytest.mark.parametrize("at_fitting", [False, True])
@pytest.mark.parametrize("plight", [Plight(drains=True), Plight(kinked=True), Plight(roots=(6.2,))])
@pytest.mark.parametrize("signs", [(), ("dead",), ("will not come back",)])
@pytest.mark.parametrize("cause", tables().stuck.causes)
def test_no_step_is_what_the_told_cause_forbids(cause, signs, plight, at_fitting, monkeypatch):
    told_as(cause, monkeypatch)
    now, row = (at_tee() if at_fitting else along()), tables().stuck.causes[cause]
    met = now.push.course.spots[0] if at_fitting else None
    found = stuck(now.push.course, met, frozenset(signs), (), 2.0, pieces_here(now), plight)
    own = " ".join((*(step.do for step in tables().stuck.first.get(cause, ())), row.why))
    for technique, pattern in MADE_OF.items():
        never = technique == "steady push" and re.search(NO_PUSH, own)
        if never or not rules().matrix.cells[technique, row.trouble].allowed:
            # A push in is a step of its own; against some troubles the matrix allows a try to pass them.
            steps = [*found.first, *found.out.steps] if never else said_of(found)
            assert not [step for step in steps if re.search(pattern, step)], technique


@pytest.mark.parametrize("signs", [{"blocked", "roots"}, {"blocked", "roots", "will not come back"}])
def test_what_roots_hold_is_neither_pushed_in_nor_turned(signs):
    now = along()
    steps = stuck(now.push.course, None, frozenset(signs), (), 12.0, pieces_here(now)).out.steps
    assert any("No push in, no turning" in step for step in steps)
    assert not any("turn the rod" in step or "push in a hand" in step for step in steps)
    assert any("no pull on it" in step for step in steps if "string" in step)  # the cord is caught in them


def test_a_rim_may_be_come_free_of_by_a_turn_and_a_short_push_in():
    now = along()
    steps = stuck(now.push.course, None, frozenset({"rim ahead"}), (), 12.0, pieces_here(now)).out.steps
    assert any("push in a hand's breadth, turn the rod a quarter" in step for step in steps)


def test_held_both_ways_nothing_is_pushed_in_whatever_holds_it():
    """`No push onward and no try until it comes back`: a push in stood three lines above that."""
    met = next(each for each in at_tee().push.course.spots if "sanitary tee" in each.name)
    signs = frozenset({"wall ahead", "will not come back"})
    found = stuck(at_tee().push.course, met, signs, (), 2.0, ())
    assert found.both_ways
    assert not any("push in a hand" in step for step in found.out.steps)


def test_a_rod_that_lies_in_roots_is_not_turned_at_a_rim_beyond_them():
    now = along()
    signs, where = frozenset({"rim ahead", "dead"}), pieces_here(now)
    free = stuck(now.push.course, None, signs, (), 12.0, where)
    through = stuck(now.push.course, None, signs, (), 12.0, where, Plight(roots=(6.2,)))
    assert "turn the rod" in {each.technique for each in free.tries}
    assert "turn the rod" not in {each.technique for each in through.tries}
    assert dict(through.not_now)["turn the rod"].startswith("The rod lies in the roots at 6.2 m.")
    assert not any(step.startswith("Turn the rod") for step in through.first)
    assert any("No push in, no turning" in step for step in through.out.steps)


def test_a_kinked_rod_is_pulled_with_half_and_never_pushed_or_turned():
    now = along()
    signs, where = frozenset({"rim ahead"}), pieces_here(now)
    sound = stuck(now.push.course, None, signs, (), 12.0, where)
    kinked = stuck(now.push.course, None, signs, (), 12.0, where, Plight(kinked=True))
    assert kinked.out.limit == pytest.approx(sound.out.limit / 2)
    assert kinked.tries == ()
    assert "this push is over" in (kinked.stop or "")
    assert any("bears less" in step for step in kinked.out.steps)
    assert any("No push in, no turning" in step for step in kinked.out.steps)


def over_bent(radius: str, *told, line: str = LINE) -> Now:
    """The rod may lie in no bend of this pipe (900 mm), or in any (20 mm): the long sweep is 2 m in."""
    start = Entry(0, NOON, NOON, START, 0.0, {"opening": "floor plug", "direction": "known"})
    made = (
        replace(start, number=i, kind=kind, counter=at, data=data) for i, (kind, at, data) in enumerate(told)
    )
    return Now(Push(study(radius, line), start), tuple(made))


def turns(found: Stuck) -> bool:
    return any(re.search(MADE_OF["turn the rod"], step) for step in said_of(found))


@pytest.mark.parametrize("where", ["at it", "may be at it", "past it"])
@pytest.mark.parametrize("signs", [(), ("dead",), ("rim ahead",), ("rim ahead", "will not come back")])
@pytest.mark.parametrize("cause", tables().stuck.causes)
def test_no_list_of_what_to_do_turns_a_rod_that_a_rule_says_is_bent_past_its_limit(
    cause, signs, where, monkeypatch
):
    """`Twist on top of that breaks it`, and in the list below it: `turn the rod a quarter`."""
    told_as(cause, monkeypatch)
    now = over_bent("900 mm")
    (sweep,) = (met for met in now.push.course.spots if "long sweep" in met.name)
    met, may_be = (sweep if where == "at it" else None), ((sweep,) if where == "may be at it" else ())
    plight = Plight(drains=True, through=(sweep,) if where == "past it" else ())
    found = stuck(now.push.course, met, frozenset(signs), (), 2.0, pieces_here(now), plight, may_be)
    assert not turns(found)


@pytest.mark.parametrize(("radius", "bars"), [("900 mm", True), ("20 mm", False)])
def test_past_a_bend_that_bends_it_too_far_it_is_not_turned_either(radius, bars):
    """A twist at the hand goes through all of the rod."""
    read = (SIGHTING, 4.5, {"what": "nothing"})
    now = over_bent(radius, read, (STOPPED, 4.5, {"sign": "rim ahead", "feel": "dead"}))
    found = held_now(now)
    assert turns(found) is not bars
    assert dict(found.not_now).get("turn the rod", "").startswith("The rod lies through the long") is bars


@pytest.mark.parametrize(("radius", "bars"), [("900 mm", True), ("20 mm", False)])
def test_on_the_way_home_it_is_not_turned_at_a_rim_beyond_such_a_bend(radius, bars, capsys):
    wider = LINE.replace("- pipe: 4 m", "- pipe: 1 m\n      - change: {size: 4 in}\n      - pipe: 3 m")
    show_coming_home(over_bent(radius, (SIGHTING, 4.5, {"what": "nothing"}), line=wider), Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "a rim of the change of size faces the head" in said
    assert ("No turning." in said) is bars
    assert ("turn the rod a quarter" in said) is not bars


_MAIN = """lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: pvc
    condition: sound
    pieces:
      - capped: yes
      - pipe: 3 m
      - joined by: branch
        fitting: sanitary tee
        side: left
        lies: on its side
      - pipe: 9 m
      - end: public sewer
"""


@pytest.mark.parametrize(("radius", "bars"), [("900 mm", True), ("20 mm", False)])
def test_at_a_hard_place_beyond_such_a_bend_no_turn_is_proposed(radius, bars, capsys):
    line = LINE.replace("lines:\n", _MAIN).replace(
        "      - pipe: 4 m\n      - end: public sewer\n", "      - pipe: 2 m\n"
    )
    line = line.replace("look at: branch", "look at: 'house drain, from branch to public sewer'")
    show_now(over_bent(radius, (SIGHTING, 3.8, {"what": "nothing"}), line=line), Page())
    box = capsys.readouterr().out.partition("Sanitary tee into house drain")[2]
    assert ("If it holds: turn the rod" in box) is not bars
    assert "If it holds: " in box
    assert ("1. Not on it yet? Draw all of the rod out" in box) is bars  # it is a string then
