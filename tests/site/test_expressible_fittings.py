# ruff: noqa: E501 (one piece of pipe after another reads best on one line)
"""Openings, junctions and stoppers of real houses that a sheet can say."""

from __future__ import annotations

import pytest

from advisor.result.build import plan_of
from tests.site.test_expressible import END, PLUG, line, openings, studied


def test_chamber_with_several_branches():
    study = studied(
        line(
            "drain",
            "{opening: chamber, kind: inspection chamber}",
            "{joined by: left line, fitting: chamber branch, side: left}",
            "{joined by: right line, fitting: chamber branch, side: right}",
            "{pipe: 6 m}",
            END,
        )
        + line("left line", "{opening: left eye, kind: rodding eye}", "{pipe: 4 m}")
        + line("right line", "{opening: right eye, kind: rodding eye}", "{pipe: 4 m}"),
        "left line",
        "britain",
    )
    found = openings(study)
    assert found["left eye"] > 0.5
    # Down one branch, round in the open channel and up the next is the worst of the three ways; at the chamber
    # the head is laid into the mouth by hand (common practice, no source).
    assert found.get("right eye", 0.0) < min(found["chamber"], found["left eye"])


def test_rodding_eye_leads_only_downstream():
    study = studied(
        line("run", "{opening: top, kind: end cleanout}", "{pipe: 3 m}", "{opening: eye, kind: rodding eye}", "{pipe: 3 m}", END),
        "run",
        "britain",
    )  # fmt: skip
    ports = {
        r.outcome.route.passages[0].leaves for r in study.ranked if r.outcome.route.opening.name == "eye"
    }
    assert ports == {"down"}


@pytest.mark.parametrize("kind", ["two-way cleanout", "twin cleanout"])
def test_two_ways_in_from_one_place(kind):
    study = studied(
        line("run", "{opening: top, kind: end cleanout}", "{pipe: 3 m}", f"{{opening: double, kind: {kind}}}", "{pipe: 3 m}", END),
        "run",
    )  # fmt: skip
    routes = [r.outcome.route for r in study.ranked if r.outcome.route.opening.name == "double"]
    assert {route.passages[0].leaves for route in routes} == {"up", "down"}
    assert [route.covers for route in routes] == pytest.approx([0.5, 0.5])


def test_saddle():
    study = studied(
        line("main", PLUG, "{pipe: 2 m}", "{joined by: side, fitting: saddle}", "{pipe: 2 m}", END)
        + line("side", "{opening: side plug, kind: end cleanout}", "{pipe: 2 m}"),
        "main, from side to public sewer",
    )
    # A square hole in the pipe's side: a gentle push alone seldom turns there.
    side = next(r.outcome for r in study.ranked if r.outcome.route.opening.name == "side plug")
    assert min(float(spot.spot.plain.passes.mean()) for spot in side.spots) < 0.5


def test_vents_that_meet_in_a_loop_give_two_ways():
    study = studied(
        line("stack", "{opening: vent, kind: roof vent}", "{drop: 2 m}", "{joined by: loop, fitting: vent tee, upside down: yes}", "{drop: 4 m}",
             "{joined by: branch, fitting: sanitary tee}", "{drop: 2 m}", END)
        + line("loop", "{tied to: stack}", "{pipe: 1 m}", "{drop: 4 m}", size="50 mm")
        + line("branch", "{opening: branch plug, kind: end cleanout}", "{pipe: 1 m}", "{joined by: loop, fitting: vent tee}", "{pipe: 1 m}", size="75 mm"),
        "branch plug",
    )  # fmt: skip
    assert len([r for r in study.routes if r.opening.name == "vent"]) == 2


def test_upside_down_junction_leads_up():
    sheet = line("stack", "{opening: vent, kind: roof vent}", "{drop: 2 m}", "{joined by: arm, fitting: sanitary tee, UP}", "{drop: 2 m}", END) + line(
        "arm", PLUG, "{pipe: 1 m}"
    )  # fmt: skip
    up = openings(studied(sheet.replace("UP", "upside down: yes"), "vent"))["plug"]
    down = openings(studied(sheet.replace("UP", "upside down: no"), "vent"))["plug"]
    assert up > down


def test_pumped_rise_belly_and_change_of_size():
    study = studied(
        line(
            "run",
            PLUG,
            "{pipe: 2 m}",
            "{belly: 1 m}",
            "{change: {size: 75 mm}}",
            "{rise: 1 m}",
            "{pipe: 1 m}",
            END,
        ),
        "run",
    )
    assert "plug" in openings(study)
    assert plan_of(study).routes[0].unseen


@pytest.mark.parametrize(
    ("piece", "fact"),
    [
        ("{tank: ejector}", "site.pumps"),
        ("{valve: check valve, name: in the pit}", "site.pumps"),
        ("{tank: septic tank, name: out back}", "site.septic"),
    ],
)
def test_what_is_drawn_is_there_whatever_was_answered(piece, fact):
    sheet = line("run", PLUG, "{pipe: 2 m}", piece, "{pipe: 2 m}", END)
    assert studied(sheet, "run").site_facts[fact] is True
    assert studied(sheet.replace(piece, "{pipe: 1 m}"), "run").site_facts[fact] is None


def test_a_stopper_says_what_to_do_instead_under_any_name():
    sheet = line("run", PLUG, "{pipe: 2 m}", "{valve: backwater valve, name: in the pit}", "{pipe: 2 m}", END)
    spots = studied(sheet, "run").ranked[0].outcome.spots
    told = [f.conclusion.steps for spot in spots for r in spot.rulings for f in r.firings if f.outcome]
    assert any("tie the flap up" in step for steps in told for step in steps.get("other opening", ()))
