"""An opening that is there and does not open is told as it is found, whatever the drain holds."""

from __future__ import annotations

from advisor.interview.answers import Answer
from advisor.result.build import plan_of
from tests.interview.small_session import HOUSE, session
from tests.interview.test_neighbours_ground import CALM, PIT

FULL = tuple(Answer(a.question, a.about, ("don't know",)) if a.question == "holding" else a for a in CALM)
SHUT = Answer("opening-there", PIT, ("shut",))


def test_a_seized_cover_is_told_where_nobody_may_try_it():
    """Whether it opens is asked only where the line is told to drain; what somebody tried is told before."""
    of = session(sheet=HOUSE)
    assert "shut" in [option.value for option in of.ask(FULL, "opening-there", PIT).options]
    hole = next(p.hole for p in of.sheets.drain((*FULL, SHUT)).network.openings() if p.name == "yard pit")
    assert (hole.there, hole.opens) == (1, False)
    assert not [ask for ask in of.open((*FULL, SHUT)) if ask.key == ("opening-opens", PIT)]


def test_nobody_is_sent_there_then():
    of = session(sheet=HOUSE)
    first = plan_of(of.study((*CALM, Answer("opening-there", PIT, ("yes",))))).attempts[0].opening
    tried = plan_of(of.study((*CALM, SHUT))).attempts
    assert first == "yard pit"
    assert "yard pit" not in [each.opening for each in tried]
