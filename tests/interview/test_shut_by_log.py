"""An opening that did not open when it was to be pushed from: the log tells it, and the questions know it."""

from __future__ import annotations

from datetime import UTC, datetime
from math import inf

import tests.terminal.test_ask_begin as begin
from advisor.interview.answers import Answer
from advisor.interview.carry import still_right
from advisor.interview.question import DONT_KNOW
from advisor.interview.sketch import sketch
from advisor.push.log.kinds import SHUT
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.result.before import ruled_out
from advisor.site.looked_for import LookedFor
from tests.interview.small_session import HOUSE, session

away, sit = begin.away, begin.sit  # fixtures
PIT = "house drain/opening:yard pit"
VENT = "vent/opening:roof vent"
SAFE = tuple(
    Answer(question, "job", (word,))
    for question, word in (
        ("gas-smell", "no"),
        ("holding", "no"),
        ("chemicals", "no"),
        ("pumps", "no"),
        ("roof", "yes"),
        ("deep", "no"),
        ("septic", "no"),
    )
)
SEEN = (*SAFE, Answer("opening-there", PIT, ("yes",)), Answer("opening-opens", PIT, ("yes",)))


def at(of, opening: str) -> set[str]:
    return {ask.question.id for ask in of.open(SAFE) if ask.subject.id == opening}


def test_nothing_is_asked_of_what_did_not_open_and_the_others_are_asked_about():
    free, shut = session(sheet=HOUSE), session(sheet=HOUSE, shut=("yard pit",))
    assert {"opening-there", "pit-depth"} & at(free, PIT)
    assert at(shut, PIT) == set()
    assert at(shut, VENT) == at(free, VENT) != set()


def test_it_is_no_way_in_whatever_was_answered_before():
    """Told to open, and tried since: what was tried holds, as in every plan of the job."""
    free, shut = session(sheet=HOUSE), session(sheet=HOUSE, shut=("yard pit",))
    for answers in (SAFE, SEEN):
        assert ruled_out(shut.study(answers), "yard pit") == "it does not open"
        assert shut.standing(answers).opening != "yard pit"
    assert ruled_out(free.study(SEEN), "yard pit") is None


def test_what_was_answered_of_it_before_is_not_lost():
    shut = session(sheet=HOUSE, shut=("yard pit",))
    held = still_right(SEEN, shut)
    assert held.lost == ()
    assert set(SEEN) <= set(held.answers)


def test_the_drawing_says_so():
    rows = {
        shut: " ".join(sketch(session(sheet=HOUSE, shut=shut).sheets.drain(SAFE).network, Units.INCH, 90))
        for shut in ((), ("yard pit",))
    }
    assert "opening: yard pit, does not open" in rows["yard pit",]
    assert "does not open" not in rows[()]


def test_whoever_goes_on_is_told_and_the_plan_is_made_without_it(away, sit):
    job = begin.folder(away, site=HOUSE)
    said = sit(begin.LATER + "l", site=job)
    assert "did not open" not in said
    log = Log.open(job / "log.db")
    now = datetime(2026, 11, 2, 12, tzinfo=UTC)
    log.append(SHUT, None, {"opening": "yard pit"}, now)
    log.close()
    said = sit("l", site=job)
    assert "By the log yard pit did not open: it is planned without it, until a push begins there." in said


def test_what_a_push_recognized_is_not_asked_for_and_no_answer_is_lost():
    """Answered before with not known, and seen from within the pipe since."""
    free, found = session(sheet=HOUSE), session(sheet=HOUSE, looked_for=(LookedFor("yard pit", 1, inf),))
    assert "opening-there" in at(free, PIT)
    assert "opening-there" not in at(found, PIT)
    before = (*SAFE, Answer("opening-there", PIT, (DONT_KNOW,)))
    assert still_right(before, found).lost == ()
    assert still_right(SEEN, found).lost == ()
