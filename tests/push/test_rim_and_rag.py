"""What hangs at a rim, or is known by no row, is dealt with by how much it leaves open, as a wad is.

From a trial: "diaper caught on an offset, less than two thirds open" was taken for the offset: water was
run, and nothing kept the head out of it. And a towel was told more weakly than a wad. Common practice, no
source: a rim is where rags hang, and what holds the water is taken out before a camera goes in again.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.push.before.found_before import heeded
from advisor.push.log.kinds import FIND
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.tables.open_past import CANNOT_TELL, HARDLY, LITTLE, MOST, NEARLY_ALL
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT, read
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee

AT_RIM = (
    "diaper caught on an offset",
    "towel hung on a lip",
    "open joint, gravel heaped up",
    "mud in the sag",
)
NO_ROW = ("towel", "white mush", "bath mat")
FIRST = "taken out or cleaned out"


@pytest.mark.parametrize(
    "what", [*AT_RIM, *NO_ROW, "standing water with a diaper in it", "crack, soil came in"]
)
@pytest.mark.parametrize("past", [LITTLE, CANNOT_TELL, HARDLY])
def test_it_bars_by_the_answer(what, past):
    finds = tables().finds
    assert finds.may_hold_water(what, past)
    heed = heeded(entry(what, past), tables())
    assert heed.not_past is (past == HARDLY)
    assert heed.not_past or "not into it" in heed.do


@pytest.mark.parametrize("what", [*AT_RIM, *NO_ROW, "offset joint", "brick"])
@pytest.mark.parametrize("past", [NEARLY_ALL, MOST])
def test_what_leaves_enough_open_bars_nothing_by_its_filling(what, past):
    finds, heed = tables().finds, heeded(entry(what, past), tables())
    assert not finds.may_hold_water(what, past)
    assert not heed.not_past
    assert not heed.first
    assert "not into it" not in heed.do


def test_each_row_is_told_as_well():
    said = [row.says for row in tables().finds.advised("diaper caught on an offset", True, LITTLE)]
    assert "no cutter, no chain and no jet on it" in said[0]
    assert "Then have it cleared or taken out, see the line drain" in said[1]
    do = heeded(entry("crack with a towel in it", LITTLE), tables()).do
    assert "keep off" in do, "the ground over it may cave in whatever hangs in it"


def test_a_gas_pipe_and_a_hole_stay_what_they_are():
    for what in ("yellow pipe across", "a hole, towel in it"):
        assert {heeded(entry(what, past), tables()).do for past in (NEARLY_ALL, LITTLE, HARDLY)} == {
            heeded(entry(what, None), tables()).do
        }


@pytest.mark.parametrize("past", [LITTLE, CANNOT_TELL])
@pytest.mark.parametrize("what", [*AT_RIM[:2], *NO_ROW])
def test_plan_and_card_have_it_out_before_a_camera_goes_in(what, past):
    plan = planned(what, past)
    cleaned, then, _ = plan.first_step.partition(" Then open ")
    assert f"have {FIRST}: {what}, 4.75 m in from {TEE_PLUG}" in cleaned
    assert then
    assert f"First have {FIRST}: {what}, 4.75 m in from {TEE_PLUG}. See the line drain. Open " in card(plan)


@pytest.mark.parametrize(
    ("what", "first"),
    [
        ("brick", "taken out"),
        ("an object", "taken out, once it is known what it is"),
        ("step with a wad of wipes caught on it", "cleaned out"),
        ("crack all round, a wad of wipes on it", ""),  # dug, and no jet: the wad is the least of it
        ("asbestos pipe, towel in it", ""),  # asked first
    ],
)
def test_what_is_done_with_it_first(what, first):
    assert heeded(entry(what, LITTLE), tables()).first == first
    assert not heeded(entry(what, LITTLE), tables(), lambda: True).first, "it was"


def test_once_a_machine_was_run_there_no_more():
    assert FIRST not in planned("towel", LITTLE, cutter(5.6, TEE_PLUG, "downstream")).first_step


@pytest.mark.parametrize(("what", "first"), [("paper fills the pipe", "cleared"), ("root mass", "cut")])
def test_what_bars_the_way_is_named_before_the_opening(what, first):
    """From a trial: "Open other toilet ... Have it cleared there first" named nothing before "it"."""
    plan = planned(what, None)
    cleared, _, then = plan.first_step.partition(", and see the line drain. Then open ")
    assert cleared.endswith(f"have {first}: {what}, 4.75 m in from {TEE_PLUG}")
    assert "Have" not in then, "it is told once"
    assert plan.first_step.endswith("Look again the same day.")
    assert f"First have {first}: {what}, 4.75 m in from {TEE_PLUG}. See the line drain. Open " in card(plan)


def entry(what: str, past: str | None):
    return numbered(BEGUN, told(what, past))[1]


def told(what: str, past: str | None) -> Told:
    return FIND, 4.75, {"what": what, **({"open": past} if past else {})}


def planned(what: str, past: str | None, *more: Told) -> Plan:
    study = study_of(tee())
    return plan_of(study, met_before(study, numbered(BEGUN, told(what, past), read(5.0), OUT, *more)))


def card(plan: Plan) -> str:
    made = card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", False)
    return " ".join(card_text(made).split())
