"""A trap ahead past a turn: told by the turn."""

from __future__ import annotations

import re

from advisor.push.before.limit import limit_of
from advisor.push.log.kinds import BACK, RESET, SIGHTING
from tests.terminal.test_not_past_shown import INSIDE, nothing, screen
from tests.terminal.test_now_shown import TEE_PLUG, pushed, trapped

TURN = "1/4 bend"


TURNED = """
site: invented
region: north america
map: sketch
lines:
  - line: house drain
    kind: drain
    size: 3 in
    material: cast iron
    condition: light scale
    pieces:
      - opening: wall plug
        kind: end cleanout
      - pipe: assumed 3 to 14 m
      - bend: TURN
      - pipe: 2 m
      - end: public sewer
task:
  look at: house drain
  complaint: {holding: no, chemicals: no}
"""


def boxes_at(capsys, counter: float) -> tuple[str, str]:
    """The box of what must not be passed, and that of the hard place; nothing where it is not there."""
    said = screen(capsys, TURNED.replace("TURN", TURN), nothing(4.0), nothing(counter))
    stop, hard = (said.partition(title)[2].partition("─ ")[0] for title in ("NOT PAST HERE", "HARD PLACE"))
    return stop, hard


def test_while_the_turn_lies_ahead_how_far_past_it_is_told_and_what_to_try_at_it(capsys):
    """2 m by the sheet: no more is told, and how long the pipe before the turn is tells nothing of that."""
    stop, hard = boxes_at(capsys, 7.0)
    assert "City sewer, counter" in stop
    on = re.search(r"Past [^:]+: at most ([\d.]+) m more", stop)
    assert on is not None
    assert float(on[1]) <= 2.0
    assert "If it holds:" in hard


def test_where_the_turn_may_be_behind_unseen_nobody_is_told_to_stroke_into_what_may_be_the_sewer(capsys):
    stop, hard = boxes_at(capsys, 12.0)
    assert INSIDE in stop
    assert "No push here unless the lens shows open pipe ahead: it may be the city sewer." in hard
    assert "stroke" not in hard


def test_a_counter_that_is_set_anew_leaves_the_trap_before_the_lens():
    """Told before it and after it: the head has not moved. Then it is drawn back from it."""
    trap, anew = (SIGHTING, 5.0, {"what": "trap"}), (RESET, 5.0, {"now": 0.0})
    for told in ((trap,), (trap, anew)):
        assert limit_of(pushed(trapped(), TEE_PLUG, *told)).seen
    assert not limit_of(pushed(trapped(), TEE_PLUG, trap, anew, (BACK, -1.0, {}))).seen


BRANCH = """  - line: bath line
    size: 2 in
    material: abs
    pieces:
      - fixture: bath
      - pipe: 2 m
"""


def test_where_no_way_is_planned_the_sewer_is_told_near_without_a_turn_to_know_it_by(capsys):
    """What is to be seen lies up the drain, so that the plan has no way down from there."""
    text = TURNED.replace("TURN", TURN).replace("  - line: house drain", BRANCH + "  - line: house drain")
    text = text.replace(
        "    pieces:\n      - opening: wall plug",
        "    pieces:\n      - joined by: bath line\n      - opening: wall plug",
    )
    said = screen(
        capsys, text.replace("look at: house drain", "look at: bath line"), nothing(4.0), nothing(12.0)
    )
    stop = said.partition("NOT PAST HERE")[2].partition("─ ")[0]
    assert INSIDE in stop
    assert "at most" not in stop
