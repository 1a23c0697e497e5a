"""One rule for a chance in hundredths, on the screen and in a table: nothing is certain."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from advisor import demo
from advisor.batch.row import _row
from advisor.explain.how import how_route
from advisor.quantity import never_certain
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.way_screen import show_way_in
from tests.card.cards import DEMOS, made
from tests.cases.jobs import studied


@pytest.mark.parametrize("chance", [0.0, 1e-6, 0.004, 0.3, 0.994, 0.996, 1.0])
def test_a_table_says_what_the_plan_says_and_nothing_is_certain(chance, capsys):
    plan_, units = made(DEMOS[0])
    route = plan_.routes[0].model_copy(update={"chance": chance})
    sure = plan_.model_copy(update={"routes": (route,), "attempts_chance": chance})
    row = _row("a", "b", sure)
    assert row.chance == row.chance_in_all
    assert row.chance != "1.00"
    assert (row.chance == "0.00") == (chance == 0)
    told = plan_.chance_words.say(chance)
    assert "100 %" not in told
    if chance >= 0.005:
        assert f"({100 * float(row.chance):.0f} %)" in told
    show_way_in(sure, units, Page())
    assert "Of 100 such pushes 100" not in capsys.readouterr().out


def test_of_a_way_that_nothing_ends_the_hundredth_push_is_told_of(capsys):
    plan_, units = made(DEMOS[0])
    route = plan_.routes[0].model_copy(update={"chance": 1.0, "covers": 1.0, "ends": (), "ended": None})
    show_way_in(plan_.model_copy(update={"routes": (route,)}), units, Page())
    told = " ".join(capsys.readouterr().out.split())
    assert (
        "Of 100 such pushes 99 get to the end of it and back. Nothing that is drawn ends the others" in told
    )


def test_an_explanation_is_no_surer_than_the_plan():
    study = studied(demo.MAIN.read_text(), demo.KIT.read_text(), 50)
    first = study.ranked[0].outcome
    always = replace(first, walk=replace(first.walk, arrived=np.ones_like(first.walk.arrived)))
    assert always.chance == 1
    about = how_route(study, always).about
    assert "100%" not in about
    assert "sees the target in 99% of 50 cases" in about
    assert "no push is certain" in about


def test_what_is_not_zero_is_not_told_as_zero():
    assert never_certain(1e-9) == pytest.approx(0.01)
    assert never_certain(1.0) == pytest.approx(0.99)


def test_the_minutes_say_what_is_in_them(capsys):
    """By hand from the plan's own figures: work and leaving it undone do not add up, harm is the rest."""
    plan_, units = made(DEMOS[0])
    route, all_ = plan_.routes[0], plan_.attempts_minutes
    assert len(plan_.attempts) == 1
    undone = plan_.failing_minutes * (1 - plan_.attempts_chance)
    assert all_ - route.minutes - undone > 1
    show_plan(plan_, units, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert (
        f"about {all_:.0f} minutes: the work, what head or rod lost or hurt may cost, and 480 where" in said
    )


def test_where_hardly_any_reaches_it_the_order_is_told(capsys):
    plan_, units = made(DEMOS[0])
    told = "Those that hardly reach it (under 5%) stand last, the likeliest first, whatever their minutes."
    for chance, there in ((0.01, True), (0.2, False)):
        others = tuple(route.model_copy(update={"chance": chance}) for route in plan_.routes[1:])
        show_plan(plan_.model_copy(update={"routes": (plan_.routes[0], *others)}), units, Page())
        assert (told in " ".join(capsys.readouterr().out.split())) == there
