"""What a push met in one mouth of a channel is nothing that the next comes to in another.

Two pipes that begin in one chamber are two pipes: common sense. From a trial: a stop in the stack
stood on the way into the bathroom beside it.
"""

from __future__ import annotations

import pytest

from advisor.push.before.earlier import earlier
from advisor.push.before.left_stops import left_stops
from advisor.push.log.kinds import END, FIND, START, STOPPED, UP, WATER
from advisor.push.log.log import Entry
from advisor.push.met_before import met_before
from advisor.push.now.one_push import Push
from advisor.push.now.seen import runs_of
from advisor.push.report.pushes import pushes_section
from advisor.result.build import plan_of
from advisor.result.told import found_elsewhere, found_on
from tests.push.test_earlier_stop import numbered
from tests.push.test_other_mouth import SINK, into_the_annexe

STUDY = into_the_annexe().push.study
BEGUN = (START, 0.0, {"opening": "pit", "direction": UP})
FAR = (WATER, 3.0, {"fixture": "far toilet", "seconds": 4.0, "side": "ahead"})
MET = ((FIND, 3.2, {"what": "wipes"}), (STOPPED, 3.5, {"sign": "roots"}))
OUT = (END, 0.0, {"reached": False, "out": True})


def told(came: tuple) -> tuple[Entry, ...]:
    """A push told as upstream that met something in the pipe from which this water came, and ended."""
    return tuple(numbered(BEGUN, came, *MET, OUT))


@pytest.mark.parametrize(
    ("came", "led", "ahead"),
    [(SINK, "annexe", 0), (FAR, "annexe", 1), (SINK, "yard drain", 1), (SINK, None, 1)],
)
def test_only_a_push_in_the_same_mouth_went_before(came, led, ahead):
    standing = told(came)
    data = {**BEGUN[2], "mouth": led} if led else BEGUN[2]
    push = Push(STUDY, Entry(9, standing[-1].told_at, standing[-1].happened_at, START, 0.0, data))
    assert len(earlier(push, standing)) == ahead


@pytest.mark.parametrize(
    ("came", "led", "says"),
    [
        (SINK, None, "pit, upstream into yard drain by what it passed"),
        (FAR, "annexe", "pit, upstream into annexe"),
        (SINK, "annexe", "pit, upstream into yard drain by what it passed, told as into annexe"),
    ],
)
def test_the_report_tells_the_mouth(came, led, says):
    begun = (*BEGUN[:2], {**BEGUN[2], "mouth": led} if led else BEGUN[2])
    section = pushes_section(runs_of(numbered(begun, came, *MET, OUT)), STUDY)
    assert [row[1] for row in section.rows] == [says]


@pytest.mark.parametrize(("came", "mouth"), [(SINK, "yard drain"), (FAR, "annexe")])
def test_on_plan_and_card_it_stands_on_the_way_into_its_own_mouth(came, mouth):
    standing = told(came)
    notes = [note for note in met_before(STUDY, standing) if not note.turn]
    assert {note.mouth for note in notes} == {mouth}
    plan = plan_of(STUDY, tuple(notes))
    way = next(each for each in plan.routes if each.opening == "pit")
    assert way.mouth == "annexe"
    here = mouth == "annexe"
    assert bool(found_on(plan, way)) is here
    assert bool(found_elsewhere(plan, way)) is not here
    said = [*(note.left for note in notes), *left_stops(STUDY, standing)]
    assert all(f"upstream into {mouth}" in each for each in said if each)
