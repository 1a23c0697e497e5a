"""What failed here as often as it may be tried is no first step any more while something else is tried.

From a trial: at a rim "turn the rod" had failed both times and water came next, and above it stood on
"First ... 2. Turn the rod half round", on the list of tries and in the box of every screen.
"""

from __future__ import annotations

import pytest

from advisor.outcome.attempts import STEADY, TURN
from advisor.push.held.gently import first_steps
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import held_now
from advisor.push.log.kinds import HELD, SIGHTING, STOPPED, TRY
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import Told, pushed

DRAIN = """
site: invented
region: britain
built: 1996
map: guess
lines:
  - line: house drain
    size: 110 mm
    material: plastic
    condition: sound
    pieces:
      - opening: yard chamber
        kind: inspection chamber
      - pipe: 8 m
      - opening: front chamber
        kind: inspection chamber
        depth: 0.9 m
      - pipe: 10 m
      - end: public sewer
task: {look at: "house drain, from yard chamber to front chamber", complaint: {holding: no, chemicals: no}}
"""
RIM: Told = (STOPPED, 7.1, {"sign": "rim ahead", "feel": "dead"})
TURNED: Told = (TRY, 7.1, {"technique": TURN, "outcome": HELD, "force": "light"})
TURN_IT = "Turn the rod half round, a quarter at a time."
LEAN = "Lean on it gently and look. No stroke yet."


def held_after(*tries: Told) -> Stuck:
    seen: Told = (SIGHTING, 2.0, {"what": "nothing"})
    found = held_now(pushed(DRAIN, "front chamber", seen, RIM, *tries, direction="upstream"))
    assert found is not None
    return found


def test_at_a_rim_the_rod_is_turned_first_until_that_is_spent():
    assert TURN_IT in held_after().first
    once = held_after(TURNED)
    assert TURN in [each.technique for each in once.tries]
    assert TURN_IT in once.first


def test_once_it_is_spent_the_head_is_only_drawn_back_and_leaned_on():
    most = round(tables().limits[f"tries, {TURN}"].likely)
    spent = held_after(*[TURNED] * most)
    assert spent.tries, "something else is still tried"
    assert TURN not in [each.technique for each in spent.tries]
    assert TURN_IT not in spent.first
    assert spent.first[0].startswith("Draw back")
    assert spent.first[-1] == LEAN


@pytest.mark.parametrize("signs", [{"dead"}, {"soft"}])
def test_a_turn_in_drawing_back_loosens_a_head_that_jams_however_often_it_was_tried(signs):
    """It is no try: a stiff head comes out of a turn more easily as it turns (common practice, no source)."""
    steps = first_steps(tables().stuck, frozenset(signs), ["head jams"], (), {TURN, STEADY})
    assert "While drawing, a quarter turn each way." in [step.do for step in steps]
    assert TURN_IT not in [step.do for step in steps]
