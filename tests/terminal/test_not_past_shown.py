"""Beside the opening: a trap ahead is told from afar, in a box when near, and nobody pushes at it."""

from __future__ import annotations

import re

import pytest

from advisor.push.held.stuck import stuck
from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED
from advisor.push.now.plight import Plight
from advisor.push.onward import onward
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee, trapped

INSIDE = "You are where it may begin: no further unless the lens shows open pipe ahead."
SHORT = "Stop short of it."


def shown(capsys, text: str, counter: float) -> str:
    show_now(pushed(text, TEE_PLUG, (SIGHTING, counter, {"what": "nothing"})), Page())
    return " ".join(capsys.readouterr().out.replace("┃", " ").replace("│", " ").split())


def test_a_trap_far_ahead_is_told_in_a_line_with_where_to_go_slowly(capsys):
    """By hand: the trap lies 2 m of branch and 3 m of drain past the plug."""
    said = shown(capsys, trapped(), 1.0)
    line = said.partition("Not past: house trap, counter ")[2]
    low, high = (float(line.split()[i]) for i in (0, 3))
    assert low < 5 < high + 0.2
    assert "It holds the head" in line
    assert "Slow from" in line


def test_near_it_stands_in_a_box_and_nobody_is_told_to_push_at_it(capsys):
    said = shown(capsys, trapped(), 5.0)
    box = said.partition("NOT PAST HERE")[2]
    assert "House trap" in box
    assert INSIDE in box
    assert "gentle push" not in box
    assert "Use its two plugs" in box


def test_short_of_the_span_it_is_told_to_stop_short_and_in_it_to_go_on_by_the_lens_alone(capsys):
    """As plan and card have it: nobody in the span can stop short of it."""
    for made, told in ((trapped(), 1.0), (tee(), 11.0)):
        begin = float(re.search(r"[Nn]ot past.*?counter ([\d.]+) m to", shown(capsys, made, told), re.I)[1])
        for at, says, never in ((begin - 0.2, SHORT, INSIDE), (begin + 0.2, INSIDE, SHORT)):
            box = shown(capsys, made, at).partition("NOT PAST HERE")[2].partition("What now")[0]
            assert says in box
            assert never not in box


@pytest.mark.parametrize(("counter", "told"), [(2.5, False), (11.0, True)])
def test_the_sewer_that_the_drain_ends_in_is_told_near_it(capsys, counter, told):
    said = shown(capsys, tee(), counter)
    assert ("NOT PAST HERE" in said) is told


def test_what_was_missed_may_be_the_trap_ahead(capsys):
    """A chamber of which nobody knows where it lies, and the trap just behind it."""
    text = trapped().replace(
        "- pipe: 3 m\n      - trap",
        "- pipe: assumed 2 to 4 m\n      - opening: front chamber\n"
        "        kind: inspection chamber\n      - trap",
    )
    said = shown(capsys, text, 2.6)
    assert "front chamber" in said.partition("Next:")[2][:80]
    missed = said.partition(f"Past {begins(said):g} m without it:")[2]
    assert "no further unless the lens shows open pipe ahead. It may be the house trap." in missed[:100]
    assert said.count("without it") == 1, "one limit on a screen"


def test_a_trap_that_comes_next_is_never_called_missed(capsys):
    missed = shown(capsys, trapped(), 3.0).partition("Next: a trap")[2].partition("without it:")[2][:120]
    assert missed.startswith(" no further unless the lens shows open pipe ahead. It may be the house trap.")
    assert "missed" not in missed


def off() -> str:
    """The trap, of which the sheet only knows that it lies 2 to 6 m past the branch."""
    return trapped().replace("- pipe: 3 m\n      - trap", "- pipe: assumed 2 to 6 m\n      - trap")


def screen(capsys, text: str, *told) -> str:
    capsys.readouterr()
    show_now(pushed(text, TEE_PLUG, *told), Page())
    return " ".join(capsys.readouterr().out.replace("┃", " ").replace("│", " ").split())


def begins(said: str) -> float:
    """The reading at which the trap may begin, as told."""
    return float(re.search(r"ouse trap, counter ([\d.]+) m", said).group(1))


def nothing(at: float):
    return SIGHTING, at, {"what": "nothing"}


def test_the_limit_does_not_run_ahead_of_the_head(capsys):
    """That the head went on unseen shows of no trap that it lies further off."""
    readings = [nothing(at) for at in (1.0, 3.0, 5.0, 6.0, 7.0)]
    told = [begins(screen(capsys, off(), *readings[:count])) for count in range(len(readings) + 1)]
    assert told == sorted(told, reverse=True), told
    assert told[0] < 5  # it may lie 2 m past the branch, which is 2 m long


def test_a_look_at_what_lies_before_it_settles_where_it_begins(capsys):
    """A chamber 2 m past the tee and 4 m before the trap: the trap is 8 m in, whatever was told before."""
    text = trapped().replace(
        "- pipe: 3 m\n      - trap",
        "- pipe: assumed 0.5 to 6 m\n      - opening: front chamber\n"
        "        kind: inspection chamber\n      - pipe: 4 m\n      - trap",
    )
    before = begins(screen(capsys, text, nothing(1.0)))
    after = begins(screen(capsys, text, nothing(1.0), (SIGHTING, 6.0, {"what": "chamber"})))
    water = begins(screen(capsys, text, nothing(1.0), (SIGHTING, 6.0, {"what": "standing water"})))
    assert before < after
    assert after == pytest.approx(10, abs=1.5)
    assert water <= before  # that is what a trap looks like


def test_a_sag_that_is_drawn_settles_nothing_for_a_trap_looks_like_it(capsys):
    text = trapped().replace("- pipe: 3 m\n", "- pipe: 1 m\n      - belly: 1 m\n      - pipe: 1 m\n")
    before = begins(screen(capsys, text, nothing(1.0)))
    assert begins(screen(capsys, text, nothing(1.0), (SIGHTING, 3.8, {"what": "standing water"}))) <= before


def test_a_head_that_may_be_past_it_unseen_is_told_of_it_still(capsys):
    said = screen(capsys, trapped(), nothing(1.0), nothing(9.0))
    assert begins(said) < 5
    assert "You are where it may begin" in said


def test_a_plan_made_at_it_goes_no_further_there(capsys):
    now = pushed(off(), TEE_PLUG, nothing(4.0), (SIGHTING, 5.0, {"what": "standing water"}))
    show_plan_anew(now, now.push.study, onward(now.push.study, now), Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "Next: only back." in said
    assert "Go on here" not in said


def test_drawn_back_from_a_stop_there_no_try_is_told_at_it(capsys):
    text = trapped().replace(
        "- pipe: 3 m\n", "- pipe: assumed 1 to 6 m\n      - bend: 1/4 bend\n      - pipe: 0.5 m\n"
    )
    held = (STOPPED, 5.6, {"sign": "open pipe ahead", "feel": "springs back"})
    said = screen(capsys, text, nothing(3.6), held, (BACK, 5.0, {}))
    box = said.partition("STOP AHEAD")[2].partition("NOT PAST")[0]
    assert "No push here unless the lens shows open pipe" in box
    assert "a try" not in box


@pytest.mark.parametrize("what", ["nothing", "standing water"])
def test_where_it_may_begin_no_hard_place_is_pushed_at(capsys, what):
    text = trapped().replace(
        "- pipe: 3 m\n",
        "- pipe: assumed 1 to 6 m\n      - joint: offset\n        step: 25 mm\n      - pipe: 0.5 m\n",
    )
    first = screen(capsys, text, nothing(3.42))
    assert "First a gentle push" in first.partition("Offset joint in house drain, counter")[2]
    said = screen(capsys, text, nothing(3.42), (SIGHTING, 5.0, {"what": what}))
    assert "First a gentle push" not in said
    assert ("unless the lens shows open pipe ahead: it may be the house trap" in said) is (what == "nothing")


def test_where_it_may_begin_nobody_is_told_to_push(capsys):
    said = screen(capsys, off(), nothing(5.5))
    assert "You are where it may begin: no further unless" in said
    assert "gentle push" not in said.lower()
    assert "without it" not in said
    assert "You are where" not in screen(capsys, off(), nothing(0.5))


@pytest.mark.parametrize(
    ("what", "told"), [("standing water", "what it looks like from its inlet"), ("trap", "before the lens")]
)
def test_at_it_nothing_is_next_but_back(capsys, what, told):
    said = screen(capsys, off(), nothing(4.0), (SIGHTING, 5.0, {"what": what}))
    assert told in said.partition("NOT PAST HERE")[2]
    assert "Next: only back." in said
    assert "gentle push" not in said.lower()


def test_a_trap_that_no_sheet_has_is_not_passed_either(capsys):
    """The sheet has a sewer further on: at a trap a technician was told that it was before the lens."""
    said = screen(capsys, tee(), (SIGHTING, 4.0, {"what": "trap"}))
    box = said.partition("NOT PAST HERE")[2].partition("What now?")[0]
    assert "A trap: the pipe dips under water. It is before the lens. Stop here: no further." in box
    assert "sewer" not in box
    assert "Next: only back." in said


def test_standing_water_elsewhere_is_told_how_to_go_through(capsys):
    said = screen(capsys, tee(), (SIGHTING, 4.0, {"what": "standing water"}))
    assert "Water hides what lies ahead. Slower" in said
    assert "you are asked where the water ended" in said
    assert "only back" not in said
    assert "Water hides" not in screen(capsys, tee(), nothing(4.0))


@pytest.mark.parametrize(("sign", "stops"), [("wall ahead", True), ("open pipe ahead", False)])
def test_held_where_it_may_begin_nothing_is_tried_unless_the_lens_shows_what_it_is(sign, stops):
    now = pushed(off(), TEE_PLUG, nothing(4.0), (STOPPED, 5.0, {"sign": sign, "feel": "springs back"}))
    found = held_now(now)
    assert ("it may be the house trap" in (found.stop or "")) is stops


def test_a_head_that_may_be_in_it_is_neither_pushed_nor_tried():
    course, signs = pushed(tee(), TEE_PLUG).push.course, frozenset(["rim ahead", "dead"])
    elsewhere = stuck(course, None, signs, (), 4.0, ())
    in_it = stuck(course, None, signs, (), 4.0, (), Plight(stopper="house trap"))
    assert elsewhere.tries
    assert elsewhere.first
    assert not in_it.tries
    assert not in_it.first


# -- where the drain ends in a sewer behind a turn that nobody knows the place of ------------------------
