"""An opening that nobody has looked for, and the throat of the one in use: from a trial.

He went in by a cleanout with one cap that sweeps to the sewer. Held at its throat, a hard place of the plan,
he was told that downstream is ahead with three chances in four only. A cleanout further on, of which he had
answered that he does not know whether there is one, was announced as likely, told as missed, and every place
was counted from it.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_now_shown as beside
from advisor.push.log.kinds import SIGHTING
from advisor.push.log.sighting import Stopped
from advisor.push.track.fix import fix_of
from advisor.push.track.ways import Intent
from advisor.terminal.push.here import show_now
from tests.push.sites import tracker_on
from tests.terminal.test_now_shown import Told, pushed

shown = beside.shown  # fixture
USED, OTHER = "other cleanout", "yard cleanout"
SITE = f"""
site: invented
region: north america
map: guess
lines:
  - line: house drain
    size: 3 in
    pieces:
      - fixture: laundry tub
      - pipe: 9 m
      - change: {{kind: sewer, size: 4 in}}
      - pipe: 0.5 m
      - opening: {USED}
        kind: yard cleanout
        there: yes
      - pipe: 1 m
      - opening: {OTHER}
        kind: two-way cleanout
        there: THERE
      - pipe: 14 m
      - end: public sewer
task: {{look at: house drain, complaint: {{holding: no, chemicals: no}}}}
"""


def at(*told: Told, there: str = "50 %"):
    return pushed(SITE.replace("THERE", there), USED, *told, direction="downstream")


@pytest.mark.parametrize("way", ["down", "up"])
def test_a_stop_at_the_throat_says_nothing_of_the_way(way):
    """A size that changes upstream of it may hold a head as well, 0.2 at most: by hand the throat's 0.3, and
    0.2 at 1.5 of the spread further on that leaves a third of it, are to 0.3 as 4 to 3."""
    intent = Intent(ports=("down",), sticks={(f"house drain/opening:{USED}", "hole", way): 0.3})
    tracker = tracker_on(SITE.replace("THERE", "yes"), USED, intent=intent)
    throat = tracker.chart.ways[0].legs[0].length
    before, after = (fix_of(tracker, tracker.replay(told)).downstream for told in ([], [Stopped(throat)]))
    against = [(1 - each) / each for each in (before, after)]
    assert against[1] / against[0] == pytest.approx(4 / 3, rel=0.2)


@pytest.mark.parametrize(("there", "doubted"), [("50 %", True), ("yes", False)])
def test_an_opening_that_may_not_be_there_is_told_so_and_no_place_from_it(shown, there, doubted):
    first = shown(show_now, at(there=there))
    assert f"two mouths, one close behind the other: {OTHER}" in first
    assert ("It may not be there." in first) is doubted
    assert ("it is not there, or it was missed" in first) is doubted
    past = shown(show_now, at((SIGHTING, 5.0, {"what": "nothing"}), there=there))
    assert (f"past {OTHER}" in past) is not doubted
    assert (f"past {USED} by the counter" in past) is doubted


def test_half_a_chance_that_it_is_there_halves_that_it_comes_next(shown):
    def told(there: str) -> float:
        return at(there=there).push.tracker.chart.fields("two mouths").popitem()[1].sum()

    assert told("50 %") == pytest.approx(told("yes") / 2)


def test_once_it_is_seen_it_is_there_and_places_are_told_from_it(shown):
    seen = (SIGHTING, 1.7, {"what": "two mouths"})
    said = shown(show_now, at(seen, (SIGHTING, 4.0, {"what": "nothing"})))
    assert f"past {OTHER} by the counter" in said
    assert "may not be there" not in said
