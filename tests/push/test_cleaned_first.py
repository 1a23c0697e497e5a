"""What fills a good part of the bore and may be cleaned is cleaned before a camera goes in again.

From a trial: the report had a wad that shuts the pipe by three quarters cleaned, and the plan sent
the head out once more as if it were not there. Common practice, no source: who has seen what holds the water
has it cleaned, sees the line drain, and looks again. A few wipes or a coat of grease are passed slowly.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import FIND
from advisor.push.met_before import met_before
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT, read
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee

WAD = "wad of wipes and a toothbrush caught at a joint, pipe 3/4 shut"
CLEANED = cutter(5.6, TEE_PLUG, "downstream")


def planned(what: str, *more: Told) -> Plan:
    study = study_of(tee())
    told = (BEGUN, (FIND, 4.75, {"what": what}), read(5.0), OUT, *more)
    return plan_of(study, met_before(study, numbered(*told)))


def test_the_plan_says_so_before_it_sends_a_camera():
    plan = planned(WAD)
    cleaned, then, push = plan.first_step.partition(" Then open ")
    assert f"have cleaned out: {WAD}, 4.75 m in from {TEE_PLUG}" in cleaned
    assert then
    assert "getting there is" in push, "it is no bar: a head may come past"
    (note,) = [each for each in plan.found if each.what == WAD]
    assert "no blow, not into it" in note.do
    assert "Key f, then c in a push tells it" in note.left


def test_once_it_is_told_as_cleaned_no_more():
    assert "cleaned out" not in planned(WAD, CLEANED).first_step


@pytest.mark.parametrize(
    ("what", "first"),
    [
        ("wipes, pipe half shut", True),
        ("grease, 3/4 shut", True),
        ("scale, and a wad of wipes caught on it", True),
        ("step at a joint with a wad of wipes caught on it", False),  # a hose and no jet: they bite its edge
        ("a few wipes", False),
        ("thin coat of grease", False),
        ("grease, 1/4 shut", False),
        ("crack all round, a wad of wipes on it", False),  # dug, and no jet: the wad is the least of it
        ("roots at a joint", False),
        ("object in a wad of wipes", False),  # first it is seen what it is
    ],
)
def test_what_is_cleaned_first(what, first):
    assert (tables().finds.to_be_cleaned(what) is not None) is first
