"""Roots that held the head are remembered: past them the rod lies in them, and comes home through them.

Common practice, no source: nothing is turned in roots, and what went in through them is drawn out slowly. The
pull from which the owner is asked is that of the stop itself.
"""

from __future__ import annotations

import re

import pytest

import tests.terminal.test_push_session as session
from advisor.push.held_now import held_now, plight_of
from advisor.push.kinds import PASSED, RESET, TRY
from advisor.push.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.push.screens import show_now
from tests.push.test_since import FT
from tests.push.test_stop_ahead import back, drawn, read, stopped

job = session.job  # fixture
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
