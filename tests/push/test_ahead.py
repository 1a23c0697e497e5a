"""What comes next: landmarks with their readings, hard passages a metre before, what not seeing one means."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.log.sighting import Read, Seen, Water
from advisor.push.now.ahead import if_not_seen, next_hard, next_landmarks, on_run
from advisor.push.track.checks import checks
from advisor.push.track.fix import fix_of
from advisor.push.track.ways import Intent
from tests.push.sites import UNKNOWN, WALK, tracker_on
from tests.push.test_stuck import TEE, course, met

DOWN = [Water(1.6, "laundry tub", 20.0, side="behind"), Seen(3.4, "tie-in", 9.0)]


def test_the_next_landmark_with_its_readings():
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    first = next_landmarks(tracker, tracker.replay(DOWN))[0]
    # By hand: the bath line joins 4 m past the kitchen line, which was seen at 3.4 m on the counter.
    assert first.landmark.piece.name == "bath line"
    assert first.likely == pytest.approx(7.4, abs=0.15)
    assert first.low < 7.4 < first.high
    assert first.high - first.low < 2.0


def test_the_end_of_the_pipe_is_a_landmark_and_places_the_head():
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    down = [*DOWN, Seen(7.4, "tie-in", 3.0), Seen(10.9, "two mouths")]
    first = next_landmarks(tracker, tracker.replay(down))[0]
    # By hand: the sewer comes 12 m past the yard cleanout, which was seen at 10.9 m on the counter.
    assert (first.landmark.kind, first.landmark.piece.name) == ("end", "public sewer")
    assert first.likely == pytest.approx(22.9, abs=0.3)
    # Up from the plug: 0.4 m of riser, 3 m to the laundry line and 4 m more to the capped end.
    up = fix_of(tracker, tracker.replay([Water(1.6, "laundry tub", 20.0, side="ahead"), Seen(7.4, "end")]))
    told = fix_of(tracker, tracker.replay([Water(1.6, "laundry tub", 20.0, side="ahead"), Read(7.4)]))
    assert (up.best.line, up.best.with_flow) == ("house drain", False)
    assert up.best.at == pytest.approx(0.0, abs=0.3)
    assert up.best.chance > told.best.chance
    assert up.off_map < told.off_map


@pytest.mark.parametrize("shown", [0.0, 0.6])
def test_no_range_begins_before_the_counter_at_the_opening(shown):
    """The fork lies 0.4 m in on a map that is a guess, and nothing comes before the opening."""
    near = WALK.replace("depth: 400 mm", "depth: 100 mm").replace("measured", "guess")
    near = near.replace(
        "- pipe: 3 m\n      - joined by: kitchen", "- pipe: 0.3 m\n      - joined by: kitchen"
    )
    tracker = tracker_on(near, "floor plug", intent=Intent(ports=("down",)))
    ahead = next_landmarks(tracker, replace(tracker.start(), shift=-shown))
    (first,) = (each for each in ahead if each.landmark.piece.name == "kitchen line")
    assert first.low == pytest.approx(shown)
    assert not f"{first.low:.1f}".startswith("-")
    assert first.high > shown + 0.1


def test_not_seeing_it_tells_against_the_line():
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    belief = tracker.replay(DOWN)
    ahead = next_landmarks(tracker, belief)[0]
    here, then = fix_of(tracker, belief), if_not_seen(tracker, belief, ahead)
    assert then.best.chance <= here.best.chance
    assert then.off_map > here.off_map


def test_the_two_ways_of_an_opening_are_told_apart():
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    belief = tracker.replay([Read(2.0)])
    up = next_landmarks(tracker, on_run(tracker, belief, "house drain", False))[0]
    down = next_landmarks(tracker, on_run(tracker, belief, "house drain", True))[0]
    assert up.landmark.piece.name == "laundry line"
    assert down.landmark.piece.name == "kitchen line"
    # Against the flow left is right: the laundry line joins at the left of one who looks downstream.
    assert up.landmark.clocks == ((3.0, 1.0),)
    assert down.landmark.clocks == ((9.0, 1.0),)


def test_a_hard_place_is_told_a_metre_before():
    of = course()
    tracker = tracker_on(TEE.replace("HOLDING", "holding: no"), "wall plug", intent=of.intent(True))
    hard = next_hard(tracker, tracker.start(), of.hard, frozenset())
    assert hard is not None
    assert hard.met.name == met(of).name
    assert hard.slow_from == pytest.approx(hard.low - 1.0)
    assert hard.low < hard.likely < hard.high
    past = next_hard(tracker, tracker.start(), of.hard, frozenset({hard.met.name}))
    assert past is None or past.met.name != hard.met.name


def test_the_check_that_tells_most_is_the_fixture_that_parts_the_ways():
    """The laundry lies up the other way. A fixture that runs past both or neither could tell nothing."""
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    belief = tracker.replay([Read(1.6)])
    found = checks(tracker, belief)
    assert found[0].fixture == "laundry tub"
    assert found[0].bits > 0.5
    sure = checks(tracker, tracker.replay(DOWN))
    assert sure[0].bits < found[0].bits
    assert all(0 <= check.bits <= 3 for check in found)
    assert checks(tracker, belief, frozenset({"laundry tub"}))[0].fixture != "laundry tub"
