"""A stop that is not to be passed and what was seen there are one word in a push too, the stricter.

From a trial: roots stopped the head at 42 ft and were logged there; drawn back to 40 ft the screen
said "Slowly, no blow" of them and named a bend behind them as next. Rule of the trade: roots are not pushed
into before they are cut.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, FIND, PASSED, STOPPED
from advisor.push.met_before import met_before
from tests.push.test_earlier_stop import CLAY, OUT, STOP, begun, logged, numbered, read, said
from tests.terminal.test_now_shown import Told, study_of, tried

SEEN: Told = (FIND, 6.0, {"what": "roots, long, at a joint"})
HOLE: Told = (FIND, 6.0, {"what": "crack with a hole, soil comes in"})
NO_BLOW = "Slowly, no blow"


@pytest.mark.parametrize(
    "told", [(begun(), STOP, SEEN, (BACK, 5.6, {})), (begun(), STOP, SEEN, OUT, begun())]
)
def test_of_roots_that_stopped_it_and_were_seen_there_only_the_stop_is_told(told, capsys):
    text = said(logged(*told), capsys)
    assert "SEEN BEFORE" not in text
    assert NO_BLOW not in text
    assert "Do not go past 6 m. Seen before: roots, long, at a joint." in text


def test_nor_is_it_the_last_word_on_that_reading_where_a_push_begins():
    (row,) = met_before(study_of(CLAY), numbered(begun(), STOP, SEEN, OUT))
    assert NO_BLOW not in row.left
    assert row.left.endswith("roots, long, at a joint. Look from before it. Do not go past 6 m.")


def test_nothing_behind_it_is_next(capsys):
    before = said(logged(begun(), read(5.6)), capsys)
    text = said(logged(begun(), STOP, (BACK, 5.6, {})), capsys)
    assert "Next: the stop at 6 m. No further." not in before
    assert "Next: the stop at 6 m. No further." in text
    assert text.count("Next:") == 1


def test_the_stop_behind_a_place_that_was_passed_is_told_from_the_start(capsys):
    rim: Told = (STOPPED, 2.0, {"sign": "wall ahead"})
    text = said(logged(begun(), rim, tried(PASSED), read(4.0), STOP, SEEN, OUT, begun()), capsys)
    assert "it was stopped at 2 m" in text
    assert "Do not go past 6 m. Seen before: roots" in text
    assert NO_BLOW not in text


def test_what_no_head_goes_past_keeps_its_own_word(capsys):
    text = said(logged(begun(), STOP, HOLE, OUT, begun(), read(5.6)), capsys)
    assert "no rod, no cutter and no jet through it" in text.partition("NOT PAST HERE")[2]
