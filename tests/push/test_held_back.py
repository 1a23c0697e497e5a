"""Held while it is drawn back is no stop of the way in, and a hold belongs to its opening and direction.

From a trial: a head that had been to 71 ft was held at 5 ft on its way out and came. The next
push, the other way from that cleanout, was told that one "was stopped at 5 ft and never came past".
"""

from __future__ import annotations

import pytest

from advisor.push.before.left_stops import left_stops
from advisor.push.stop_ahead import stop_ahead
from advisor.push.track.way_back import on_way_back
from advisor.terminal.page import Page
from advisor.terminal.push.home import show_coming_home
from tests.push.test_earlier_stop import begun, logged, numbered, read
from tests.push.test_report import START, report, section
from tests.push.test_which_spot import CLAY
from tests.terminal.test_now_shown import Told, study_of

NEITHER = {"feel": "will not come back"}
HELD = ("stopped", 3.0, NEITHER)
HOME = ("pulled back", 0.0, {})
OVER = ("end", 0.0, {"reached": False, "out": True})
THERE_AND_BACK = (begun(), read(8.0), HELD, HOME, OVER)
FORK = """
site: two ways
region: north america
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    pieces:
      - fixture: laundry tub
      - pipe: 8 m
      - joined by: side
        fitting: wye
      - pipe: 4 m
      - opening: yard
        kind: two-way cleanout
      - pipe: 30 m
      - end: public sewer
  - line: side
    size: 3 in
    pieces:
      - fixture: kitchen sink
      - pipe: 3 m
task: {look at: drain, complaint: {holding: no}}
"""


def words(*told: Told, text: str = CLAY) -> tuple[str, ...]:
    return left_stops(study_of(text), numbered(*told))


@pytest.mark.parametrize(
    ("rods", "back"),
    [
        ([0.0, 8.0, 3.0], True),
        ([0.0, 8.0, 2.0, 3.0], False),  # pushed in once more
        ([0.0, 8.0, 3.0, 3.0], True),  # told twice
        ([3.0], False),  # the first that is told
        ([0.0, 3.09, 3.0], False),  # the same place
        ([0.0, 11.58, 9.14, 9.29], False),  # 38 ft, drawn back to 30, and held at 30.5: on the way in again
    ],
)
def test_where_it_came_from_tells(rods, back):
    assert on_way_back(rods, len(rods) - 1, 0.2) is back


def test_a_plan_tells_it_as_what_it_was():
    (told,) = words(*THERE_AND_BACK)
    assert "was held at 3 m when drawn back (it does not come back either)" in told
    assert "never came past" not in told


def test_it_is_not_ahead_of_the_next_push_and_told_on_its_way_home(capsys):
    now = logged(*THERE_AND_BACK, begun(), read(5.0))
    assert stop_ahead(logged(*THERE_AND_BACK, begun())) is None
    show_coming_home(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "At 3 m an earlier push was held when drawn back (it does not come back either)" in said
    assert "held on the way in" not in said


def test_a_stop_of_the_way_in_at_the_same_place_is_not_forgotten_for_it():
    stop = ("stopped", 3.0, {"sign": "rim ahead"})
    found = words(begun(), stop, OVER, *THERE_AND_BACK)
    assert any("when drawn back" in each for each in found)
    again = stop_ahead(logged(begun(), stop, OVER, *THERE_AND_BACK, begun()))
    assert again is not None
    assert again.signs == {"rim ahead"}


def test_the_report_tells_it_so_and_digs_nothing_for_it():
    made = report(START, ("sighting", 8.0, {"what": "nothing"}), HELD, OVER)
    assert "held when drawn back, at 3 m" in section(made, "In short")
    assert "it was held when drawn back" in section(made, "Seen in this order")
    assert "new cleanout" not in section(made, "Recommended")
    assert "stopped at 3 m" in section(report(START, HELD, OVER), "In short")


def test_a_find_at_its_reading_says_nothing_of_a_head_that_was_held_fast_there():
    """A lip logged at 3 m; on its way home the head hung there. A stop alone it says already."""
    find = ("find", 3.0, {"what": "joint pushed out of line, lip 20 mm"})
    in_and_back = (START, ("sighting", 8.0, {"what": "nothing"}), find)
    made = report(*in_and_back, HELD, HOME, OVER)
    assert "held when drawn back, at 3 m: it does not come back either." in section(made, "In short")
    assert "Nobody logged it" not in section(made, "In short")
    assert "held when drawn back, at 3 m: it does not come back either: look again" in section(
        made, "Recommended"
    )
    assert "No. 1, joint pushed out of line, lip 20 mm: watch" in section(made, "Recommended")
    only = report(START, find, ("stopped", 3.0, {"sign": "roots"}), OVER)
    assert "stopped at 3 m" not in section(only, "In short")


def fork(direction: str):
    return ("start", 0.0, {"opening": "yard", "direction": direction})


@pytest.mark.parametrize(("direction", "met"), [("upstream", True), ("downstream", False), ("unknown", True)])
def test_which_way_nobody_knew_is_told_by_what_was_passed(direction, met):
    """The only joint on the drain lies 4 m up from the yard; down there is nothing for 30 m."""
    joint = ("sighting", 4.0, {"what": "tie-in", "size": 0.08})
    stop = ("stopped", 7.0, {"sign": "rim ahead"})
    told = (fork("unknown"), joint, stop, OVER)
    now = logged(*told, fork(direction), text=FORK)
    assert (stop_ahead(now) is not None) is met
    assert words(*told, text=FORK)[0].startswith("In from yard, upstream, a push was stopped at 7 m")


def test_what_went_the_other_way_passed_nothing():
    joint = ("sighting", 4.0, {"what": "tie-in", "size": 0.08})
    stop = ("stopped", 7.0, {"sign": "rim ahead"})
    found = words(fork("unknown"), joint, stop, OVER, fork("downstream"), read(20.0), OVER, text=FORK)
    assert "and never came past" in found[0]
