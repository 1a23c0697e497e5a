"""From a trial: a tie-in that a push knew to be on no sheet was told by no plan, card or report after it.

Lengths are by hand, as for the bends of that push: what the counter ran, less the depth of the chamber.
"""

from __future__ import annotations

from advisor.push.before.turns_seen import undrawn_told
from advisor.push.log.kinds import SIGHTING
from tests.push.test_bend_on_no_sheet import BEGUN, FIRST, OUT, SITE, planned, rows
from tests.push.test_earlier_stop import numbered
from tests.terminal.test_now_shown import Told, study_of

TIE: Told = (SIGHTING, 2.9, {"what": "tie-in", "clock": 9.0})  # 2 m along the pipe
LAST = "      - pipe: 4 m\n      - opening: front"
JOINED = "      - pipe: 2 m\n      - joined by: sink line\n        drawn: no\n"
DRAWN = SITE.replace(LAST, JOINED + LAST.replace("4 m", "2 m"))


def test_plan_card_and_report_tell_it_and_no_turn_is_counted_for_it():
    plan = planned(SITE, BEGUN, TIE, OUT)
    (told,) = (note.left for note in plan.found if note.undrawn and note.left)
    assert told.startswith("Not on your sheet: a tie-in seen in from front chamber, upstream, at 2.9 m.")
    assert "2 m along the pipe from front chamber" in told
    assert rows(plan, "front chamber") == [("2.9 m", "seen before: a tie-in, not on the sheet")]
    assert {way.turns_undrawn for way in plan.routes} == {0}
    (line,) = undrawn_told(study_of(SITE), numbered(BEGUN, TIE, OUT))
    assert line.startswith("Not on the sheet: the tie-in seen in from front chamber at 2.9 m, 2 m along")


def test_beside_a_bend_each_kind_has_its_own_sentence():
    plan = planned(SITE, BEGUN, TIE, FIRST, OUT)
    left = [note.left for note in plan.found if note.undrawn and note.left]
    assert [told.partition(" seen")[0] for told in left] == [
        "Not on your sheet: a tie-in",
        "Not on your sheet: a bend",
    ]


def test_one_that_is_drawn_there_has_its_own_row_and_no_other():
    assert "joined by: sink line" in DRAWN
    assert not [note for note in planned(DRAWN, BEGUN, TIE, OUT).found if note.undrawn]
