"""Roots that held the head are remembered: past them the rod lies in them, and comes home through them.

Common practice, no source: nothing is turned in roots, and what went in through them is drawn out slowly. The
pull from which the owner is asked is that of the stop itself.
"""

from __future__ import annotations

import re

import pytest

import tests.terminal.test_push_session as session
from advisor.push.held_now import held_now, plight_of
from advisor.push.log.kinds import PASSED, RESET, STOPPED, TRY
from advisor.push.now.evidence import planned_anew
from advisor.push.now.now import Now
from advisor.push.onward import onward
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_since import FT
from tests.push.test_stop_ahead import back, drawn, read, stopped
from tests.push.test_which_spot import CLAY, in_clay
from tests.push.test_which_spot import ROOTS as SOFT_ROOTS
from tests.terminal.test_now_shown import case_of
from tests.terminal.test_push_water import FREE

job, push = session.job, session.push  # fixtures
ROOTS = {"sign": "blocked, roots", "feel": "soft"}
AT = "10.1 m"  # 33 ft


def text(capsys, show, *given) -> str:
    capsys.readouterr()
    show(*given, Page())
    return " ".join(capsys.readouterr().out.replace("│", " ").split())


def came_by(how: str = "steady push") -> tuple[str, float, dict]:
    return TRY, 33 * FT, {"technique": how, "outcome": PASSED}


PAST = [
    (stopped(33, ROOTS), came_by(), read(38)),
    (stopped(33, ROOTS), back(28), read(33), read(38)),  # pushed on past with no try told
    (stopped(33, ROOTS), came_by(), read(38), back(36)),
]


@pytest.mark.parametrize("told", PAST)
def test_past_the_roots_the_rod_is_said_to_lie_in_them(told, capsys):
    now = drawn(*told)
    assert plight_of(now).roots == pytest.approx((33 * FT,))
    said = text(capsys, show_now, now)
    assert "ROD IN ROOTS" in said
    assert f"they held the head at {AT}. No turning." in said


@pytest.mark.parametrize("told", [(stopped(33, ROOTS), back(28)), (stopped(33, {"feel": "soft"}), read(38))])
def test_short_of_them_or_with_no_roots_the_rod_lies_in_none(told, capsys):
    now = drawn(*told)
    assert plight_of(now).roots == ()
    assert "ROD IN ROOTS" not in text(capsys, show_now, now)


@pytest.mark.parametrize("told", [*PAST, (stopped(33, ROOTS),)])
def test_coming_home_names_the_roots_their_reading_and_the_owners_pull(told, capsys, job):
    now = drawn(*told)
    said = text(capsys, lambda page: show_coming_home(now, page))
    home = re.search(
        rf"At {re.escape(AT)} it comes back through the roots.*?Before any pull over (\d+) N", said
    )
    assert home is not None
    held = held_now(drawn(stopped(33, ROOTS)))
    assert held is not None
    assert f"Before any pull over {home[1]} N: stop and tell the owner" in " ".join(held.out.steps)


def test_drawn_back_out_of_them_they_are_no_more_on_the_way_home(capsys, job):
    now = drawn(stopped(33, ROOTS), back(28))
    assert "through the roots" not in text(capsys, lambda page: show_coming_home(now, page))


def test_a_counter_set_anew_moves_the_reading_with_it(capsys):
    now: Now = drawn(*PAST[0], (RESET, 38 * FT, {"now": 10 * FT}))
    assert plight_of(now).roots == pytest.approx((5 * FT,))


def test_held_beyond_them_nothing_is_turned(capsys):
    now = drawn(*PAST[0], stopped(40, {"sign": "rim ahead", "feel": "dead"}))
    found = held_now(now)
    assert found is not None
    assert "turn the rod" not in {each.technique for each in found.tries}
    assert not any("turn the rod a quarter" in step for step in found.out.steps)


def test_passed_at_that_very_reading_the_rod_lies_in_them_and_going_on_hangs_on_the_way_back(capsys):
    now = in_clay((STOPPED, 4.0, SOFT_ROOTS), (TRY, 4.0, {"technique": "steady push", "outcome": PASSED}))
    assert "ROD IN ROOTS" in text(capsys, show_now, now), "before the next reading, not after it"
    made = planned_anew(case_of(CLAY), now.push.course, now.tries, now.wrong_port)
    said = text(capsys, lambda page: show_plan_anew(now, made, onward(made, now), page))
    assert "Roots held the head at 4 m, and the rod lies in them." in said
    assert "Only if it comes back through the roots at 4 m as it went in" in said
    assert "Go on here." not in said


@pytest.mark.parametrize(
    ("keys", "remark"),
    [
        ("gphn", "Pushed hard where it said gently, or not at all."),
        ("gpln", "Pushed on where it said not a bit further."),
        ("gphr", "That was not to be tried here (water): Water that is run above"),
    ],
)
def test_who_pushes_on_into_roots_is_told_at_once_what_that_does(job, push, keys, remark):
    """Stopped at 26 ft, roots seen before the lens, soft at the hand: pushed gently again, it says."""
    job.site.write_text(FREE)
    said = push("11ys\r\r" + "s26\r" + "910" + "20" + keys + "q")
    assert "Stop. Not a bit further." in said.partition("And now?")[0]
    after = said.partition("> pushed gently again")[2]
    assert remark in after
    assert "does it run free both ways" in after
