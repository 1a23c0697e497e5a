"""A line that was known to back up is watched till it is surely cleared, however water ran away once.

From a trial: after a cup, a jug and a short run had run away nothing warned any more, in a house with roots,
a wet cellar and live mains, and the laundry stood among the first to run. Common practice, no source: what
backed a line up stands there still till it is cut or cleaned; the fixture with the least flow that is
stopped at once goes first, and what a pump empties last.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.log.kinds import FIND, LOOKED, MACHINE
from advisor.push.now.backs_up import CLEARED_NOW
from advisor.push.now.known_drains import Known
from advisor.push.now.now import Now
from advisor.push.now.smallest import smallest_first
from advisor.push.now.watched import and_words, from_stairs
from advisor.push.track.checks import Check, worth_making
from advisor.terminal.push.water import show_watched, warn_before_any
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, UNSURE, ran, walk
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]  # fixture
UP = walk("holding: no, chemicals: no, backs up: [bath]")
AWAY: Told = (LOOKED, 1.5, {"drains": True})
STOOD: Told = (LOOKED, 1.5, {"drains": False})
CUT: Told = (MACHINE, None, {"opening": FLOOR_PLUG, "direction": "downstream", "to": 20.0, "outside": True})


def unsure(site: str, *told: Told) -> Now:
    return pushed(site, FLOOR_PLUG, UNSURE, *told, direction="unknown")


def _watched(now: Now) -> str | None:
    """What is watched still; None where nothing backed up, or it was surely cleared."""
    return and_words(now.line.backed) or None if now.line.known < Known.CLEARED else None


@pytest.mark.parametrize(
    ("site", "told", "what"),
    [
        (UP, (AWAY,), "bath"),
        (UP, (ran("bath", True, 1.5),), "bath"),
        (UP, (AWAY, CUT), "bath"),
        (UP, (CUT, AWAY), None),
        (walk(), (STOOD, AWAY), "the line"),
        (walk(), ((FIND, 1.5, {"what": "root mass"}), AWAY), "the line"),
        (walk(), ((FIND, 1.5, {"what": "root mass"}), CUT, AWAY), None),
        (walk(), (AWAY,), None),
        (walk(), (), None),
    ],
)
def test_what_backed_up_is_watched_till_it_is_cut_or_cleaned_and_ran_away_then(site, told, what):
    assert _watched(unsure(site, *told)) == what


def test_what_was_told_as_cleared_as_the_push_began_is():
    now = unsure(UP)
    began = replace(now.push.began, data={**now.push.began.data, "drains": True, "told": CLEARED_NOW})
    assert _watched(replace(now, push=now.push.begun(began))) is None


def test_every_screen_says_so_once_water_may_be_run(shown):
    now = unsure(UP, AWAY)
    for said in (shown(show_watched, now), shown(warn_before_any, now)):
        assert "Water: bath backed up" in " ".join(said.replace("│", "").replace("┃", "").split())
    assert not shown(show_watched, unsure(UP)), "no water at all is told elsewhere"
    assert not shown(show_watched, unsure(walk(), AWAY))


def test_where_nothing_was_told_to_back_up_it_is_not_said_that_anything_did(shown):
    """Only what was met may hold water back."""
    now = unsure(walk(), (FIND, 1.5, {"what": "root mass"}), AWAY)
    said = " ".join(shown(show_watched, now).replace("│", "").split())
    assert "what was met in the line may hold it back" in said
    assert "backed up" not in said


def test_what_is_run_first_is_the_least_that_is_stopped_at_once_and_a_pump_comes_last():
    now = unsure(UP, AWAY)
    fixtures = now.push.tracker.chart.fixtures
    assert [*smallest_first(fixtures, now.push.study.network, tables())] == [
        "kitchen sink",
        "bath",
        "laundry tub",
    ]
    pump, tap = (
        Check(name, False, bits, 2.0, 0.9, 1.0) for name, bits in (("laundry tub", 1.0), ("bath", 0.5))
    )
    assert worth_making((pump, tap), 0.5, (), now.push.smallest) is tap
    assert worth_making((pump, tap), 0.5, ()) is pump, "where nothing comes up what tells most goes first"


@pytest.mark.parametrize("wet", ["comes up", "no"])
def test_nobody_watches_from_a_wet_cellar(wet, shown):
    """Where the sheet's danger of live mains in the wet holds, and nowhere else."""
    now = unsure(UP.replace("backs up", f"wet cellar: {wet}, backs up"), AWAY)
    assert bool(from_stairs(now.push.study)) is (wet == "comes up")
    said = " ".join(shown(show_watched, now).replace("│", "").split())
    assert ("stays up on the stairs" in said) is (wet == "comes up")
