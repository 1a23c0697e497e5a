"""Roots at the joints of a run, against the Poisson process worked by hand, and what they leave alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import triang

from advisor.evidence import Evidence, Grade
from advisor.outcome.drawn import Drawn
from advisor.outcome.held import held_by
from advisor.outcome.likeliest_roots import likeliest_run
from advisor.outcome.roots import roots_in
from advisor.quantity import Known, Units
from advisor.result.build import plan_of
from advisor.result.spots import steps_of
from advisor.worlds.draws import Worlds
from tests.cases.hazards import JOBS
from tests.cases.jobs import SMALL_REEL, kit_text, outcome, studied, tables

# A clay sewer behind the yard cleanout, and iron before it.
SITE = """
site: roots
region: north america
map: measured
lines:
  - line: house drain
    size: 4 in
    material: cast iron
    condition: sound
    pieces:
      - opening: hall
        kind: end cleanout
        opens: yes
      - pipe: 4 m
        landmark: edge of the slab
      - change: {kind: sewer, material: clay, condition: CONDITION}
      - opening: yard
        kind: yard cleanout
        size: 4 in
        opens: yes
        depth: 600 mm
PIPES
      - end: public sewer
task: {look at: "house drain, from yard to public sewer", complaint: {holding: no}HISTORY}
"""
WHOLE = "      - pipe: 10 m"
SPLIT = "      - pipe: 4 m\n        landmark: oak\n      - pipe: 6 m"
BIG = SMALL_REEL.replace("SPRING", "feel: soft").replace("diameter: 25 mm", "diameter: 55 mm")


def planned(condition: str, kit: str = "", pipes: str = WHOLE, history: str = "", worlds: int = 1500):
    text = SITE.replace("CONDITION", condition).replace("PIPES", pipes).replace("HISTORY", history)
    return studied(text, kit or kit_text(), worlds)


def by_hand(kit: str = "", pipes: str = WHOLE, worlds: int = 40_000) -> tuple[Drawn, list]:
    """Draws of a pipe with a joint every metre, a fifth of them with roots, half of these parting."""
    known = Evidence(Grade.COMPUTED, "own")
    book = tables()
    conditions = book.files.conditions
    row = conditions.roots.model_copy(
        update={
            "joint_length": {"any": Known(1.0, known)},
            "joints_with": Known(0.2, known),
            "parting": Known(0.5, known),
            "cut": Known(0.75, known),
        }
    )
    files = replace(book.files, conditions=conditions.model_copy(update={"roots": row}))
    drawn = Drawn(Worlds(5, worlds), replace(book, files=files), wet=True)
    return drawn, outcome(planned("roots", kit, pipes, worlds=50), "yard").route.passages


def runs(drawn: Drawn, passages) -> list:
    return [found for passage in passages if (found := roots_in(passage, drawn)) is not None]


@pytest.mark.parametrize("pipes", [WHOLE, SPLIT])
def test_places_are_scattered_over_the_run_as_a_poisson_process(pipes):
    """Ten metres have two places: none at all in e^-2 of the cases. Half do not part: one place that leaves
    less than a head of 55 mm needs in 1 - e^-F, F the share of such places that leave so little."""
    drawn, passages = by_hand(pipes=pipes)
    (roots,) = runs(drawn, passages)
    error = 4 * 0.5 / np.sqrt(40_000)
    assert roots.there.mean() == pytest.approx(1 - np.exp(-2), abs=error)
    bore = drawn.wall(passages[-1].wall_in).bore
    low, mode, high = 0.05, 0.8, 0.97  # of the bore, rules/tables/conditions.yaml
    share = triang((mode - low) / (high - low), low, high - low).cdf(0.055 / bore.mean())
    assert (roots.bore <= 0.055).mean() == pytest.approx(1 - np.exp(-share), abs=2 * error)
    # A cutter makes room at three of four: in each length of pipe the narrowest place stays in a quarter.
    lengths = [1.0] if pipes == WHOLE else [0.4, 0.6]
    stays = 1 - np.prod([1 - 0.25 * (1 - np.exp(-share * each)) for each in lengths])
    assert (roots.bore_cut <= 0.055).mean() == pytest.approx(stays, abs=error)


def test_the_narrowest_place_lies_anywhere_and_alike_from_either_end():
    drawn, passages = by_hand()
    (pipe,) = (p for p in passages if p.run)
    with_flow, against = (
        roots_in(replace(pipe, enters=enters, leaves=leaves), drawn)
        for enters, leaves in (("up", "down"), ("down", "up"))
    )
    assert (with_flow.bore == against.bore).all()
    assert with_flow.at + against.at == pytest.approx(with_flow.length, abs=1e-3)
    quarters = np.histogram(with_flow.at / with_flow.length, 4, (0, 1))[0] / drawn.worlds.n
    assert quarters == pytest.approx([0.25] * 4, abs=0.01)


def test_roots_that_hold_nothing_are_told_where_the_first_of_them_stands():
    """Parting roots at one joint in ten: in the first 4 of 10 m in 1 - e^-0.4, anywhere in 1 - e^-1."""
    drawn, passages = by_hand(pipes=SPLIT)
    (roots,) = runs(drawn, passages)
    soft = np.isinf(roots.bore) & (roots.there > 0)
    expected = (1 - np.exp(-0.4)) / (1 - np.exp(-1))
    assert (roots.at[soft] < 4).mean() == pytest.approx(expected, abs=4 * 0.5 / np.sqrt(soft.sum()))


def test_roots_leave_the_fitting_behind_the_opening_as_it_is():
    """They come in at joints; a fitting has none within. Scale grows on its wall as on any other."""
    shapes = {}
    for condition in ("sound", "roots", "moderate scale"):
        way = outcome(planned(condition, BIG), "yard")
        (shapes[condition],) = (s for s in way.geometries if s.passage.step is not None and s.turn.bends)
    for name in ("bore", "friction", "rigid", "load"):
        sound, rooted = (np.asarray(getattr(shapes[each], name)) for each in ("sound", "roots"))
        assert (sound == rooted).all(), name
    assert np.median(shapes["moderate scale"].bore) < 0.9 * np.median(shapes["sound"].bore)


def test_the_run_is_a_hard_place_of_its_own_and_the_push_reaches_as_far():
    rooted, sound = (planned(each, BIG) for each in ("roots", "sound"))
    way, clean = outcome(rooted, "yard"), outcome(sound, "yard")
    assert np.median(way.march.reach) == pytest.approx(np.median(clean.march.reach))
    plan = plan_of(rooted)
    (note,) = (n for n in plan.routes[0].passages if n.somewhere)
    assert note.name == "roots in house drain"
    assert note.at_high_m - note.at_low_m == pytest.approx(10, abs=0.4)
    assert note.at_low_m < note.at_m < note.at_high_m
    steps = {t.name: t for t in note.techniques}
    assert steps["steady push"].steps
    assert {steps[each].verdict for each in ("quick push", "string", "guide", "turn the rod")} == {"rejected"}
    assert steps["clean first"].verdict == "try"
    (sight,) = (s for s in plan.routes[0].sights if s.sight == "roots")
    assert (sight.at_low_m, sight.at_high_m) == (note.at_low_m, note.at_high_m)
    assert not [n for n in plan_of(sound).routes[0].passages if n.somewhere]
    assert any("gap that roots leave in house drain" in each for each in plan.weak)


def test_a_small_head_slips_through_more_often():
    chances = [
        float(
            next(
                s for s in outcome(planned("roots", kit), "yard").spots if s.spot.by_roots
            ).spot.plain.passes.mean()
        )
        for kit in (kit_text(), BIG)
    ]
    assert chances[0] > chances[1] + 0.1


def test_what_holds_it_there_is_roots_and_nothing_else():
    spot = next(s for s in outcome(planned("roots", BIG), "yard").spots if s.spot.by_roots).spot
    causes = held_by(spot)
    assert causes["roots"] == pytest.approx(spot.plain.stuck)
    assert sum(float(each.sum()) for name, each in causes.items() if name != "roots") == 0


def test_roots_that_came_back_are_told_with_the_run_where_they_are_likeliest():
    """Three feet from joint to joint in clay, five in iron: the clay behind the slab has the more."""
    study = planned("unknown", history=", history: {came back: [roots]}")
    assert likeliest_run(study.network, tables()) == "house drain below edge of the slab (clay)"
    told = [caution.text for caution in plan_of(study).cautions if caution.id == "roots-back"]
    assert len(told) == 1
    assert "house drain below edge of the slab (clay)" in told[0]
    assert not [c for c in plan_of(planned("roots")).cautions if c.id == "roots-back"]


def test_no_roots_where_none_grow():
    sound = planned("sound")
    assert sound.units is Units.INCH
    assert likeliest_run(sound.network, tables()) is None
    assert all(shape.roots is None for shape in outcome(sound, "yard").geometries)


def test_no_string_is_drawn_through_roots():
    """It is worked from the opening, through all that the head has passed: where roots stand there, there is
    no try with it, and the first push, without it, shows whether they do."""
    site, kit = JOBS["roots before a saddle"]
    found = outcome(studied(site, kit, 200), "way in")
    behind = next(shape.roots.there for shape in found.geometries if shape.roots is not None)
    hard = next(each for each in found.spots if each.passage.piece.kind == "junction")
    tried = hard.chance("string")
    assert 0.15 < behind.mean() < 1
    assert not tried[behind == 1].any()
    assert tried[behind == 0].any()
    clear = outcome(studied(site.replace("condition: roots", "condition: sound"), kit, 200), "way in")
    first = "First a push without it. Roots seen on the way? No string."
    for each, steps in ((found, True), (clear, False)):
        spot = next(spot for spot in each.spots if spot.passage.piece.kind == "junction")
        assert (first in steps_of("string", spot)) is steps
