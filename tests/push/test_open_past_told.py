"""How much of the pipe is open past a find decides what it bars, whatever its words.

From a trial: "wipes, nothing gets through" let a tap be run, and "fine roots over most of the line" ended a
push. A good part is a third shut or more, so less than two thirds open: the thresholds of
rules/report/finds.yaml. That a coat of grease lets a tap by, and that no head goes through a plug, is common
practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.push.before.found_before import heeded
from advisor.push.before.held_back import held_back
from advisor.push.log.kinds import FIND, entry_faults
from advisor.push.met_before import met_before
from advisor.result.build import plan_of
from advisor.tables.open_past import CANNOT_TELL, HARDLY, LITTLE, MOST, NEARLY_ALL
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, walk
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT, read
from tests.terminal.test_now_shown import pushed, study_of, tee

FEW = ("a few hairs of roots", "fine roots over most of the line", "coat of grease on most of the pipe")
GONE_WRONG = ("wipes, nothing gets through", "wipes, not a quarter open", "wad, most of the pipe", "blockage")
FILLERS = ("wipes", "rag", "paper", "grease", "roots", "stones", "mortar", "foreign object", "white mush")


@pytest.mark.parametrize("what", [*FEW, *GONE_WRONG, *FILLERS])
@pytest.mark.parametrize("past", [NEARLY_ALL, MOST])
def test_what_leaves_more_than_two_thirds_bars_nothing(what, past):
    finds = tables().finds
    assert not finds.may_hold_water(what, past)
    assert not finds.that_bar(what, past)
    assert finds.to_be_cleaned(what, past) is None


@pytest.mark.parametrize("what", [*FEW, *GONE_WRONG, *FILLERS])
@pytest.mark.parametrize("past", [LITTLE, HARDLY, CANNOT_TELL])
def test_what_leaves_less_or_may_holds_water_and_nothing_goes_into_it(what, past):
    finds = tables().finds
    assert finds.may_hold_water(what, past)
    row = finds.for_find(what, past)
    bars = finds.that_bar(what, past)
    assert bars or "not into it" in row.on_the_way.lower()


@pytest.mark.parametrize("what", [*FEW, *GONE_WRONG, *FILLERS])
def test_no_head_goes_where_hardly_any_is_open(what):
    bars = tables().finds.that_bar(what, HARDLY)
    assert bars[0].till_cleared
    assert bars[0].clears
    assert bars[0].cleared_by


@pytest.mark.parametrize("past", [LITTLE, CANNOT_TELL])
def test_roots_that_fill_a_good_part_are_a_mass(past):
    assert [row.find for row in tables().finds.that_bar("roots", past)] == ["root mass"]


@pytest.mark.parametrize("past", [LITTLE, CANNOT_TELL])
def test_a_wad_is_cleaned_first_and_is_no_plug(past):
    finds = tables().finds
    assert finds.to_be_cleaned("wipes", past) is not None
    assert not finds.that_bar("wipes", past)


def test_what_nobody_could_tell_is_all_of_the_bore_by_its_words():
    """The stricter of both."""
    assert tables().finds.that_bar("wipes, blocked", CANNOT_TELL)
    assert not tables().finds.that_bar("wipes, blocked", LITTLE), "it was told otherwise"


@pytest.mark.parametrize(
    "what", ["a pipe across", "collapse", "roots in a hole", "full of water", "wipes, water rises"]
)
def test_what_bars_whatever_it_leaves_open_still_does(what):
    assert tables().finds.may_hold_water(what, NEARLY_ALL)


def test_no_cutter_and_no_machine_is_sent_into_what_may_be_a_pipe():
    row = tables().finds.for_find("white mush", HARDLY)
    assert "No cutter" in row.says
    assert "no cutter" in tables().finds.for_find("an object", LITTLE).on_the_way


@pytest.mark.parametrize(
    ("what", "holds"), [("wad of wipes", True), ("pipe 3/4 shut", True), ("a few wipes", False)]
)
def test_without_an_answer_as_in_older_logs_the_words_decide(what, holds):
    assert tables().finds.may_hold_water(what) is holds


def told(what: str, past: str | None):
    return FIND, 4.75, {"what": what, **({"open": past} if past else {})}


@pytest.mark.parametrize("past", [LITTLE, CANNOT_TELL])
def test_the_next_plan_has_it_cleaned_first_and_says_how_much_is_open(past):
    study = study_of(tee())
    plan = plan_of(study, met_before(study, numbered(BEGUN, told("rag", past), read(5.0), OUT)))
    assert "have cleaned out: rag, 4.75 m in" in plan.first_step
    (note,) = plan.found
    assert f"rag, {past}" in note.see
    assert f"rag, {past}" in note.left


def test_a_later_push_is_told_of_it_as_it_was_answered():
    def heed(what, past):
        return heeded(numbered(BEGUN, told(what, past))[1], tables())

    assert heed("roots", NEARLY_ALL).told == f"roots, {NEARLY_ALL}"
    assert not heed("fine roots over most of the line", NEARLY_ALL).not_past
    assert heed("wipes", HARDLY).not_past
    assert heed("a lump of something", HARDLY).clears
    assert heed("root mass", None).told == "root mass", "an older log says no more"


@pytest.mark.parametrize("what", ["step with a rag on it", "scale", "an object", "crack, wipes in it"])
def test_nothing_is_pushed_into_what_fills_it_whatever_else_is_there(what):
    """A step came first of its words, and the rag on it was told with no heed of its own."""
    do = {past: heeded(numbered(BEGUN, told(what, past))[1], tables()).do for past in (LITTLE, CANNOT_TELL)}
    assert all("not into it" in each for each in do.values())
    assert "not into it" not in heeded(numbered(BEGUN, told("scale", MOST))[1], tables()).do


@pytest.mark.parametrize(("past", "holds"), [(MOST, False), (LITTLE, True), (CANNOT_TELL, True)])
def test_no_fixture_above_it_is_run_where_it_may_hold_water(past, holds):
    """In this push and, as it was seen in an earlier one, in the next."""
    find = (FIND, 8.0, {"what": "rag", "open": past})
    now = pushed(walk(), FLOOR_PLUG, read(8.0), find, direction="downstream")
    assert bool(now.not_to_run) is holds
    assert [each.words.endswith(f"rag, {past}") for each in held_back([now], now.entries)] == [True] * holds


def test_an_answer_is_one_of_the_few():
    assert not entry_faults(*told("rag", LITTLE))
    (fault,) = entry_faults(*told("rag", "half"))
    assert fault.startswith("find: open: got 'half'")
