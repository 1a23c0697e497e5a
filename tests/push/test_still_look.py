"""What backs up comes up as water is run: that it stands low with nobody at a tap gives no leave to run any.

From a trial: laundry and floor drain come up whenever somebody showers upstairs. As the push began
nobody ran water, so the line was told to be seen to drain, and the bath was to be run. Common practice, no
source: a pipe that is half shut lets a still line run down; only water that was run and ran away, a cup
first, tells that it takes more.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.outcome.attempts import CLEANED
from advisor.push.held.freeing import TURN, WATER
from advisor.push.held.not_wet import drain_first
from advisor.push.held.stuck import stuck
from advisor.push.held_now import plight_of
from advisor.push.log.kinds import ANEW, LOOKED
from advisor.push.now.backs_up import CLEARED_NOW
from advisor.push.now.now import Now
from advisor.push.now.plight import Plight
from advisor.push.now.tries import NextTry
from advisor.terminal.push.look_first import to_be_seen
from advisor.terminal.push.water import show_check, warn_before_any
from advisor.terminal.push.words import Words
from tests.cases.jobs import tables
from tests.push.test_drains import ALL, FLOOR_PLUG, RIM, UNSURE, ran, walk
from tests.terminal.test_now_shown import TEE_PLUG, Told, pushed, shown, tee
from tests.terminal.test_push_session import job, push
from tests.terminal.test_push_water import IN

__all__ = ["job", "push", "shown"]  # fixtures
UP = walk("holding: no, chemicals: no, backs up: [bath]")
STILL = "tells nothing of what comes up as somebody does"


def begun(site: str, *told: Told, said: str = "nobody smells gas") -> Now:
    """A push whose start tells that the line was seen to drain just then."""
    now = pushed(site, FLOOR_PLUG, UNSURE, *told, direction="unknown")
    began = replace(now.push.began, data={**now.push.began.data, "drains": True, "told": said})
    return replace(now, push=now.push.begun(began))


def test_a_look_with_nobody_running_water_frees_no_fixture_above_what_backs_up(shown):
    now = begun(UP)
    assert now.drains is True, "so a camera may go in"
    assert (now.not_to_run, now.check, to_be_seen(now)) == (ALL, None, True)
    said = " ".join(shown(warn_before_any, now).replace("┃", "").split())
    assert "Run nothing until the line is seen to drain: bath backs up." in said
    assert STILL in said
    asked = " ".join(shown(lambda now, page: show_check(now, page, Words(now), sure=False), now).split())
    assert "No water test until the line is seen to drain: bath backs up." in asked


@pytest.mark.parametrize("seen", [ran("bath", True, 1.5), (LOOKED, 1.5, {"drains": True})])
def test_water_that_ran_away_does(seen, shown):
    now = begun(UP, seen)
    assert (now.not_to_run, to_be_seen(now)) == (frozenset(), False)
    assert STILL not in shown(warn_before_any, now)


def test_so_does_what_was_cleared_and_a_line_that_backs_nothing_up():
    assert not begun(UP, said=f"nobody smells gas; {CLEARED_NOW}").not_to_run
    assert not begun(walk()).not_to_run


def test_a_still_look_hours_later_asks_again():
    """What was asked anew is so long ago that it may be otherwise."""
    later: Told = (ANEW, None, {"told": "nobody smells gas", "drains": True})
    assert begun(UP, (LOOKED, 1.5, {"drains": True}), later).not_to_run == ALL


def test_at_the_opening_a_still_look_lets_the_camera_in_and_no_water(job, push):
    job.site.write_text(UP.replace("chemicals: no", "chemicals: no, gas smell: no"))
    said = " ".join(push("y" + IN + "r5\rn" + "w" + "bq").replace("┃", " ").split())
    assert "No camera before the line is seen to drain" not in said
    assert "tells most" not in said
    assert "Run nothing until the line is seen to drain: bath backs up. It was seen to stand low" in said


def test_held_there_no_tap_and_no_flush_comes_before_it_was_seen_to_drain():
    """As of a cleaning where water is barred: the try stays, and what comes before it is its first step."""
    tries = tuple(NextTry(each, 0.5, 1, 60.0, ("Do it.",), "") for each in (WATER, CLEANED, TURN))
    in_pipe = tables().in_pipe
    tap, cleaning, turn = drain_first(tries, (), in_pipe, still_look=True)
    assert all("First see the line drain: key w." in each.steps[0] for each in (tap, cleaning))
    assert turn.steps == ("Do it.",)
    assert drain_first(tries, (), in_pipe) == tries


@pytest.mark.parametrize(
    ("still", "says"), [(True, "No water until you have seen"), (False, "A little water")]
)
def test_nor_is_water_run_behind_the_head_to_free_it(still, says):
    now = pushed(tee(), TEE_PLUG)
    met = next(each for each in now.push.course.spots if "sanitary tee" in each.name)
    told = Plight(True, still_look=still)
    out = stuck(now.push.course, met, frozenset({"wall ahead"}), (), 2.0, (), told).out
    assert any(step.startswith(says) for step in out.steps)


@pytest.mark.parametrize(("told", "still"), [((RIM,), True), ((ran("bath", True, 1.5), RIM), False)])
def test_what_the_push_knows_of_it_goes_with_the_head_that_is_held(told, still):
    assert plight_of(begun(UP, *told)).still_look is still
