"""What a push met and what the sheet has of the same place is one row of the card, the stricter.

From a trial: "42 ft: roots. Not seen? Slowly on." and "42 ft: Do not go past 42 ft" one under the
other; a bend that a push had seen as "only assumed"; a mark 5 ft behind the end that a push saw, in the road.
Rules of the trade: what is seen counts before what was drawn; who was stopped marks where and stays there.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.card.build import card_of
from advisor.card.content import KEPT, Card, Sight
from advisor.card.text import card_text
from advisor.push.log.kinds import END, FIND, SIGHTING, STOPPED
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee

BEND_AT = 6.0  # m in: 2 m to the tee, 4 m of a pipe of which nobody knows the length
SITE = tee().replace(
    "- pipe: 9 m", "- pipe: about 4 m\n      - bend: assumed 45 degree bend\n      - pipe: 5 m"
)
ROOTS: Told = (STOPPED, 5.0, {"sign": "blocked, roots", "feel": "soft"})
SEEN_ROOTS: Told = (FIND, 5.0, {"what": "roots, long, at a joint"})
CRACK: Told = (FIND, 4.75, {"what": "crack all round"})
GAS: Told = (FIND, 5.0, {"what": "roots, and a gas line across"})
BEND: Told = (SIGHTING, BEND_AT, {"what": "bend"})
PIPE_END: Told = (SIGHTING, 9.0, {"what": "end"})  # the sheet has it 11 m in
OUT: Told = (END, 1.0, {"reached": False, "out": True})


def made(*told: Told) -> Card:
    whole = study_of(SITE)
    plan = plan_of(whole, met_before(whole, numbered(BEGUN, *told, OUT)))
    return card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", False)


def met(card: Card, word: str) -> list[Sight]:
    return [row for row in card.sights if word in row.see]


def marks(card: Card) -> list[str]:
    (block,) = (each for each in card.blocks if each.title.startswith("Marking"))
    return [line.text for line in block.lines if line.text.startswith("Mark ")]


def test_roots_that_stopped_it_and_were_seen_there_are_one_row_and_nobody_goes_on():
    (row,) = met(made(ROOTS, SEEN_ROOTS), "roots")
    assert row.see == "stopped before: roots; it feels soft; seen before: roots, long, at a joint"
    assert row.do.startswith("Look from before it. Do not go past 5 m.")
    assert (row.missed, row.worth) == ("No further. It may lie just ahead.", KEPT)


def test_what_is_graver_than_any_find_is_told_there_as_well():
    (row,) = met(made(ROOTS, GAS), "gas line")
    (alone,) = met(made(GAS), "gas line")
    assert alone.do in row.do
    assert row.missed == "No further. It may lie just ahead."


def test_once_cut_it_is_one_row_too():
    (row,) = met(made(ROOTS, SEEN_ROOTS, cutter(7.0, TEE_PLUG, "downstream")), "roots")
    assert row.do.count("stubs and loose cuttings") == 1
    assert "no blow" in row.do
    assert row.missed == "Slowly on."


def test_before_what_ends_the_way_nothing_that_is_missed_sends_on():
    """By the counter 4.75 m and 5 m may be the same place."""
    rows = made(ROOTS, CRACK).sights
    assert [row.missed for row in rows if "before" in row.see] == ["No further. It may lie just ahead."] * 2
    assert met(made(CRACK), "crack")[0].missed == "Slowly on."


def test_what_comes_only_behind_it_has_no_row_and_no_mark():
    assert met(made(), "45° bend")
    card = made(ROOTS)
    assert not met(card, "45° bend")
    assert met(card, "stopped before")
    assert max(float(each.split()[1]) for each in marks(card)) == 5.0


def test_where_the_plan_says_to_mark_what_holds_the_card_has_order_and_mark():
    card = made(ROOTS)
    (row,) = met(card, "stopped before")
    assert "locate what holds there and mark it" in row.do
    assert "locate what holds there and mark it" in row.heed, "on half a sheet as well"
    assert marks(card)[-1].startswith("Mark 5 m: an earlier stop")


def test_the_end_that_was_seen_is_the_end_and_no_mark_lies_behind_it():
    card = made(PIPE_END)
    assert not met(card, "city sewer")
    (row,) = met(card, "the end of the pipe")
    assert row.reading == "9 m"
    assert marks(card)[-1].startswith("Mark 9 m: the end of the pipe")
    assert met(made(), "city sewer")
    assert marks(made())[-1].endswith(": city sewer.")


@pytest.mark.parametrize("told", [(BEND,), (BEND, OUT, BEGUN, BEND)])
def test_a_bend_that_was_seen_is_not_only_assumed(told):
    (before,), (after,) = met(made(), "45° bend"), met(made(*told), "45° bend")
    assert "only assumed" in before.missed
    assert after.missed == "Stop: wrong pipe or count."
    assert after.reading == f"{BEND_AT:g} m"


def test_one_seen_elsewhere_is_another():
    (row,) = met(made((SIGHTING, 3.5, {"what": "bend"})), "45° bend")
    assert "only assumed" in row.missed


@pytest.mark.parametrize(("count", "told"), [(1, "1 line left out"), (2, "2 lines left out")])
def test_one_line_is_not_told_as_lines(count, told):
    assert f"{told}:" in card_text(replace(made(), left_out=count, stuck=(), blocks=()))
