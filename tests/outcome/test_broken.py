"""What came back tells of a broken place somewhere: a head may be held there, and is harmed oftener.

By hand from the likely values of rules/tables/limits.yaml: 65 of 100 such drains are broken, the place lies
on 10 m of 20 m in half of them, and holds 40 of 100 heads: 13 in 100 are held, and a fifth of these stay.
The numbers are ranges, skewed upwards in length, so that less comes out than by their likely values.
"""

from __future__ import annotations

import numpy as np
import pytest

from advisor.explain.how import how_route
from advisor.outcome.walk import walk_on
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.ends import BREAK, ends_of
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import kit_text, studied

SITE = """
site: two chambers
region: britain
built: 2005
lines:
  - line: drain
    size: 110 mm
    material: pvc
    condition: sound
    pieces:
      - {{opening: yard chamber, kind: inspection chamber, depth: 0.6 m, there: yes, opens: yes}}
      - pipe: {length} m
      - end: public sewer
task: {{look at: drain, complaint: {{gas smell: no, chemicals: no, holding: no}}{history}}}
"""


def first(length: float, came_back: str = "", worlds: int = 400):
    history = f", history: {{came back: [{came_back}]}}" if came_back else ""
    study = studied(SITE.format(length=length, history=history), kit_text(), worlds=worlds)
    return study, study.ranked[0].outcome


def test_soil_that_came_back_holds_some_heads_and_harms_some():
    study, sound = first(10)
    broken_study, broken = first(10, "soil or pipe")
    held = sound.chance - broken.chance
    assert held == pytest.approx(0.13, abs=0.04)
    harmed = float((broken.walk.lost - sound.walk.lost).mean())
    assert harmed == pytest.approx(held / 5, abs=0.01)
    assert broken.walk.harm_minutes.mean() > sound.walk.harm_minutes.mean()
    ends = {end.where: end for end in ends_of(broken, broken_study.reader)}
    assert ends[BREAK].share == pytest.approx(held, abs=0.005)
    assert sum(end.share for end in ends.values()) + broken.chance == pytest.approx(1, abs=0.015)
    assert all(end.where != BREAK for end in ends_of(sound, study.reader))


def test_the_longer_way_has_it_oftener_and_what_lies_behind_the_head_holds_no_more():
    study, long = first(10, "soil or pipe")
    _, short = first(3, "soil or pipe")
    assert np.mean(short.way.breaks) < np.mean(long.way.breaks) / 2
    half, near = (
        float(walk_on(long.way, long.spots, study.drawn, len(long.spots), at).arrived.mean())
        for at in (5, 9.9)
    )
    assert long.chance < half < near


def test_no_word_says_that_nothing_on_the_way_is_hard(capsys):
    """Beside `The pipe may be broken` it read `No spot on it is hard`, and the wall `sound 84 %`."""
    study, outcome = first(10, "soil or pipe", 100)
    show_plan(plan_of(study), Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    assert "No spot on it is hard" not in shown
    assert "The broken place is not drawn: it may be anywhere on it, and hold the head." in shown
    row = shown.partition("hardest spot")[2].partition("comes out best")[0]
    assert "a broken place, anywhere" in row
    (told,) = how_route(study, outcome).story
    assert told.startswith("the pipe may be broken, anywhere on the way: that ends ")
    sound, way = first(10, worlds=100)
    show_plan(plan_of(sound), Units.METRIC, Page())
    assert "No spot on it is hard for this kit." in capsys.readouterr().out
    assert how_route(sound, way).story == ("nothing on the way is hard for this kit",)


@pytest.mark.parametrize(("came_back", "counted"), [("soil or pipe", True), ("grease", False)])
def test_how_sound_the_wall_is_says_that_a_break_is_not_in_it(came_back, counted):
    history = f", history: {{came back: [{came_back}]}}"
    text = SITE.format(length=10, history=history).replace("    condition: sound\n", "")
    (wall,) = [a for a in plan_of(studied(text, kit_text(), worlds=50)).assumed if "condition" in a.about]
    assert "sound " in wall.taken
    assert ("a broken place is counted by itself" in wall.taken) is counted


def test_other_things_that_came_back_tell_of_no_break():
    _, outcome = first(10, "grease", 60)
    assert not outcome.way.breaks.any()
