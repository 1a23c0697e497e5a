"""From a trial: a bend on no sheet stood on other ways by one bare figure, where all about it had a span.

It was surer there than the chamber that it is counted from. By hand: what is counted back from the far end of
a pipe of unsure length is as unsure as that end; where the rod comes by the same end, as unsure as that.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.way_screen import show_way_in
from tests.cases.jobs import tables
from tests.push.test_bend_on_no_sheet import BEGUN, FIRST, OUT, SITE
from tests.push.test_earlier_stop import numbered
from tests.terminal.test_now_shown import study_of

LOWER = """- pipe: assumed 8 to 12 m
      - opening: lower chamber
        kind: inspection chamber
        depth: 900 mm
      - pipe: 3 m"""
PACED = SITE.replace("- pipe: 4 m\n      - pipe: 4 m", "- pipe: assumed 6 to 10 m").replace(
    "- pipe: 9 m", LOWER
)


@pytest.fixture(scope="module")
def plan():
    study = study_of(PACED)
    return plan_of(study, met_before(study, numbered(BEGUN, FIRST, OUT)))


def way_from(plan, opening):
    return next(each for each in plan.routes if each.opening == opening)


def bend_on(plan, opening):
    (note,) = (each for each in plan.found if each.undrawn and each.opening == opening)
    return note


def test_counted_back_from_the_far_end_it_is_as_unsure_as_that(plan):
    end, (low, high) = way_from(plan, "side chamber").sights[-1], bend_on(plan, "side chamber").span_m
    assert high - low == pytest.approx(end.at_high_m - end.at_low_m, abs=0.1)
    assert (low, high) == pytest.approx((end.at_low_m - 4.0, end.at_high_m - 4.0), abs=0.1)  # 4 m short of it


def test_by_the_same_end_it_is_as_unsure_as_the_chamber_before_it(plan):
    way, (low, high) = way_from(plan, "lower chamber"), bend_on(plan, "lower chamber").span_m
    (before,) = (each for each in way.sights if each.sight == "opening" and each.name == "front chamber")
    assert (low, high) == pytest.approx((before.at_low_m + 4.0, before.at_high_m + 4.0), abs=0.1)


def test_where_it_was_seen_it_stands_by_the_counter(plan):
    assert bend_on(plan, "front chamber").span_m is None


def test_card_and_plan_tell_it(plan, capsys):
    way, note = way_from(plan, "side chamber"), bend_on(plan, "side chamber")
    card = card_of(plan, way, tables().card, Units.METRIC, "", False)
    (row,) = (each for each in card.sights if "not on" in each.see)
    assert row.span == f"{note.span_m[0]:.2g} to {note.span_m[1]:.2g} m"
    show_way_in(plan.model_copy(update={"routes": (way,)}), Units.METRIC, Page())
    assert f"({note.span_m[0]:.2g} m to {note.span_m[1]:.2g} m)" in capsys.readouterr().out
