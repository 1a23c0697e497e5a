"""Two tie-ins told on two sides are two, however near they are to each other, and at one reading too.

From a trial: 2 in at 3 o'clock and, a hand's breadth to two feet on, 2 in at 9 o'clock were told
as one, "likely (95 %)". A pipe that joins has one side; that whoever tells two sides saw two, and that two
lines often join face to face, is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from scipy.stats import norm

from advisor.push.log.sighting import Back, Seen
from advisor.push.now.since import read_twice
from advisor.push.track.again import _once_more, two_sides
from advisor.push.track.fix import called, named
from tests.cases.jobs import tables
from tests.push.test_junction_again import FIRST, INCH, SITE, chart
from tests.push.test_junction_again import told as told_of_site
from tests.terminal.test_now_shown import pushed

NEAR = (0.0, 0.15, 0.3, 0.5, 0.7)
told_side = SITE.replace("fitting: wye", "fitting: wye\n        side: right", 1)


def after(site: str, *told: Seen | Back):
    """The tracker of a push, and what it makes of what was told."""
    tracker = pushed(site, "foot plug").push.tracker
    return tracker, tracker.replay(told)


def tie(at: float, clock: float, size: float | None = 2 * INCH) -> Seen:
    return Seen(at, "tie-in", clock, size)


def name_of(site: str, *told: Seen | Back) -> str | None:
    best = called(*after(site, *told), told[-1])
    return best and best.landmark.piece.name


@pytest.mark.parametrize("site", [SITE, SITE.replace("guess", "measured"), told_side])
@pytest.mark.parametrize("away", NEAR)
@pytest.mark.parametrize("hours", [9.0, 10.0])
def test_the_other_side_is_another(site, away, hours):
    at, right = FIRST
    assert name_of(site, tie(at, right), tie(at + away, hours)) != "laundry line"


@pytest.mark.parametrize("away", NEAR)
def test_so_too_where_no_size_was_told(away):
    at, right = FIRST
    assert name_of(SITE, tie(at, right, None), tie(at + away, 9.0, None)) != "laundry line"


@pytest.mark.parametrize("away", NEAR[:-1])
@pytest.mark.parametrize("hours", [2.0, 3.0, 4.0])
def test_the_same_side_near_by_is_the_same(away, hours):
    """An hour off is the eye's."""
    at, right = FIRST
    assert name_of(SITE, tie(at, right), tie(at + away, hours)) == "laundry line"


def test_which_of_two_it_is_nobody_knows():
    """One of them is the line that is drawn there, the other nobody drew: told at one reading, as likely."""
    at, right = FIRST
    tracker, belief = after(SITE, tie(at, right), tie(at, 9.0))
    found = {each.landmark.piece.name: each.chance for each in named(tracker, belief, tie(at, 9.0))}
    assert found["laundry line"] == pytest.approx(0.5, abs=0.05)


def test_looked_at_anew_after_drawing_back_it_may_be_read_otherwise():
    """Whoever drew back to it looked again: the hour told last may be the right one."""
    at, right = FIRST
    assert name_of(SITE, tie(at, right), Back(at - 0.6), tie(at, 10.5)) == "laundry line"


def test_a_name_given_on_one_side_is_given_on_another_only_when_that_is_settled():
    at, right = FIRST
    for away in (0.6, 0.8, 1.0):
        tracker, belief = after(SITE, tie(at, right), tie(at + away, 9.0))
        (laundry,) = (each for each in belief.anew if "laundry" in each.piece)
        assert laundry.taken
        assert not any(each.taken for each in after(SITE, tie(at, right), tie(at + away, 3.5))[1].anew)
        best = called(tracker, belief, tie(at + away, 9.0))
        settles = tables().where.sure.settles.value
        assert best is None or best.landmark.piece.name != "laundry line" or best.chance >= settles


@pytest.mark.parametrize(
    ("run", "one", "other", "two"),
    [
        (0.2, 3.0, 9.0, True),
        (0.2, 2.0, 10.0, True),  # four hours over the top
        (0.2, 11.0, 1.0, False),
        (0.2, 3.0, 12.0, True),
        (1.0, 3.0, 12.0, False),  # by then the lens may hang otherwise
        (1.0, 3.0, 9.0, True),
        (1.0, 11.5, 0.5, False),
    ],
)
def test_hours_no_eye_takes_for_one(run, one, other, two):
    assert two_sides(tables().where, one, other, run) is two
    assert two_sides(tables().where, other, one, run) is two


@pytest.mark.parametrize(("run", "told", "spread"), [(0.2, 1.0, 0.7), (1.0, 0.1, 2**0.5)])
@pytest.mark.parametrize("hours", [1.0, 3.0, 4.5, 9.0])
def test_how_likely_one_is_told_again_so(run, told, spread, hours):
    """By hand: so many times a normal distribution about the hour told first, and 1 in 1000 at any."""
    mark = next(m for way in chart().ways for m in way.landmarks if m.clocks)
    want = told * norm.pdf(hours - 3.0, scale=spread) + 0.001 / 12
    assert _once_more(chart(), tie(3.0, hours), tie(2.8, 3.0), mark, run) == pytest.approx(want)


def test_no_hour_told_first_leaves_the_side_open():
    mark = next(m for way in chart().ways for m in way.landmarks if m.clocks)
    first = replace(tie(2.8, 3.0), clock=None)
    left, right = (_once_more(chart(), tie(3.0, hours), first, mark, 0.2) for hours in (9.0, 3.0))
    assert left == pytest.approx(right)


def test_no_counter_slipped_between_two_near_each_other():
    assert read_twice(told_of_site(FIRST, (FIRST[0] + 0.45, 9.5))) is None
