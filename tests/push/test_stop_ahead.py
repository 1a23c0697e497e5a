"""Drawn back from a stop, the stop is told as what comes next: at its own reading, with what to do there.

The readings are those of a technician's push: soft roots at 33 ft, drawn back to 28 ft to look. What to do:
common practice, no source: roots are not pushed into, a stop of which nobody knows is met gently.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, HELD, PASSED, RESET, SIGHTING, STOPPED, Value
from advisor.push.now.now import Now
from advisor.push.stop_ahead import StopAhead, stop_ahead
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.push.test_since import BRANCH, EDGE, FT, HOUSE
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee, tried


@pytest.fixture
def shown(capsys):
    def run(show, now: Now) -> str:
        capsys.readouterr()
        show(now, Page())
        return " ".join(capsys.readouterr().out.replace("│", " ").split())

    return run


ROOTS: dict[str, Value] = {"sign": "blocked", "feel": "soft"}
SOFT: dict[str, Value] = {"feel": "soft"}


def drawn(*told: tuple[str, float, dict[str, Value]]) -> Now:
    return pushed(HOUSE, "yard cleanout", EDGE, BRANCH, *told, direction="upstream")


def stopped(at: float, signs: dict[str, Value]) -> tuple[str, float, dict[str, Value]]:
    return STOPPED, at * FT, signs


def back(to: float) -> tuple[str, float, dict[str, Value]]:
    return BACK, to * FT, {}


def read(at: float) -> tuple[str, float, dict[str, Value]]:
    return SIGHTING, at * FT, {"what": "nothing"}


def found(now: Now) -> StopAhead:
    again = stop_ahead(now)
    assert again is not None
    return again


def test_roots_at_33_ft_are_next_at_33_ft_and_nobody_is_told_to_push_into_them(shown):
    now = drawn(stopped(33, ROOTS), back(28))
    assert found(now).reading == pytest.approx(33 * FT)
    said = shown(show_now, now)
    assert "Ahead: it was stopped at 10.1 m" in said  # 33 ft
    assert "Do not go past 10.1 m." in said
    assert "Gently" not in said


def test_near_by_it_stands_in_a_box_with_its_warnings(shown):
    said = shown(show_now, drawn(stopped(33, ROOTS), back(28), read(31)))
    assert "STOP AHEAD" in said
    assert "Do not go past 10.1 m." in said
    assert "More push packs them tighter." in said  # roots
    assert "WARNING: A cut gas line can kill." in said


def test_a_stop_of_which_nobody_knows_is_met_gently_and_the_next_try_is_told(shown):
    now = drawn(stopped(33, SOFT), back(28), read(31))
    assert not found(now).not_past
    said = shown(show_now, now)
    assert "Gently to 10.1 m" in said
    assert "If it holds, turn the rod." in said
    assert "Do not go past" not in said


def test_what_held_both_ways_is_not_pushed_at_again():
    assert found(drawn(stopped(33, {"feel": "will not come back"}), back(28))).not_past


def test_of_two_stops_the_nearer_is_next_though_it_was_passed_and_then_the_other():
    both = (stopped(33, ROOTS), stopped(37.2, SOFT), back(28))
    first, second = found(drawn(*both)), found(drawn(*both, read(35)))
    assert first.reading == pytest.approx(33 * FT)
    assert (first.passed, first.not_past) == (True, False)
    assert second.reading == pytest.approx(37.2 * FT)
    assert not second.passed


@pytest.mark.parametrize("at", [33.0, 33.3])
def test_come_to_it_again_it_is_still_told_and_further_on_no_more(at):
    assert found(drawn(stopped(33, SOFT), back(28), read(at))).reading == pytest.approx(33 * FT)
    assert stop_ahead(drawn(stopped(33, SOFT), back(28), read(34))) is None


def test_while_it_is_held_there_it_is_not_ahead_and_with_no_stop_there_is_none():
    assert stop_ahead(drawn(stopped(33, SOFT))) is None
    assert stop_ahead(drawn(back(20))) is None


def test_the_counter_set_anew_in_between_the_reading_is_that_which_it_will_show():
    """At 28 ft set to nothing: the stop lies 5 ft further on."""
    now = drawn(stopped(33, SOFT), back(28), (RESET, 28 * FT, {"now": 0.0}))
    assert found(now).reading == pytest.approx(5 * FT)


def test_told_twice_at_one_place_all_its_signs_count():
    now = drawn(stopped(33, ROOTS), stopped(33.2, SOFT), back(28))
    assert found(now).signs == {"blocked", "soft"}
    assert found(now).not_past


def test_at_a_fitting_of_the_plan_the_reading_of_the_push_stands_for_the_length_of_the_sheet(shown):
    stop = (STOPPED, 2.0, {"sign": "wall ahead"})
    said = shown(show_now, pushed(tee(), TEE_PLUG, stop, tried(HELD), (BACK, 1.5, {})))
    assert "It was stopped at 2 m at the sanitary tee into house drain (a wall across the picture)." in said
    assert "If it holds, turn the rod: " in said
    assert "HARD PLACE" not in said
    assert "Hard:" not in said


def test_a_place_that_a_try_has_passed_says_so(shown):
    stop, on = (STOPPED, 2.0, {"sign": "wall ahead"}), (SIGHTING, 4.0, {"what": "nothing"})
    said = shown(show_now, pushed(tee(), TEE_PLUG, stop, tried(PASSED), on, (BACK, 1.5, {})))
    assert "It came past it afterwards by this: turn the rod." in said


def test_gone_another_way_at_a_fork_before_it_the_stop_is_not_ahead():
    """Stopped where the hall toilet's dye came from ahead; then the branch's plastic is seen."""
    dye = ("water", 35 * FT, {"fixture": "hall toilet", "seconds": 8.0, "side": "ahead", "dye": True})
    main = (read(35), dye, stopped(36, SOFT), back(20))
    assert found(drawn(*main)).reading == pytest.approx(36 * FT)
    assert stop_ahead(drawn(*main, (SIGHTING, 29.6 * FT, {"what": "material", "material": "abs"}))) is None
