"""Turns, reach and minutes of whole ways, each against what a ruler or the table itself says."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from advisor import demo
from advisor.mechanics.junction_case import JunctionKind
from advisor.outcome.attempts import _string
from advisor.outcome.turns import turn_of
from advisor.outcome.walk import walk_way
from tests.cases.jobs import kit_text, studied, tables
from tests.outcome.test_techniques_by_hand import spot

MAIN = """
site: by hand
region: north america
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    material: CLAD
    condition: sound
    slope: level
    pieces:
      - {opening: top, kind: end cleanout, opens: yes}
      - pipe: LONG
      - {joined by: side, fitting: FITTING}
      - pipe: 3 m
      - {opening: foot, kind: two-way cleanout, opens: yes}
      - pipe: 1 m
      - end: public sewer
  - line: side
    kind: branch
    size: 2 in
    material: pvc
    condition: sound
    slope: level
    pieces:
      - {opening: plug, kind: end cleanout, opens: yes}
      - pipe: 2 m
task: {look at: "main, from LOOK", complaint: {holding: no}}
"""


def site(look: str, fitting: str = "combination", long: str = "4 m", clad: str = "pvc"):
    text = MAIN.replace("LOOK", look).replace("FITTING", fitting).replace("LONG", long)
    return studied(text.replace("CLAD", clad), kit_text(), 400)


def side_turn(look: str, fitting: str):
    study = site(look, fitting)
    outcome = next(o for o in study.outcomes if o.route.opening.name == "plug")
    passage = next(p for p in outcome.route.passages if p.piece.kind == "junction")
    return turn_of(passage, study.drawn)


def test_a_combination_is_swept_down_the_main_and_a_hairpin_up_it():
    """Downward the head comes out of one of its legs, in the shares of the table; upward it doubles back."""
    down, up = side_turn("side to foot", "combination"), side_turn("top to side", "combination")
    assert down.way == "merge"
    shares = dict(tables().junctions["combination"].leg.options)
    kinds = {"short": JunctionKind.SHORT_LEG, "long": JunctionKind.LONG_LEG, "one-piece": JunctionKind.SWEEP}
    for name, share in shares.items():
        assert float(np.mean(down.merges[kinds[name]])) == pytest.approx(share, abs=0.08)
    assert np.sum([np.asarray(mask) for mask in down.merges.values()], axis=0) == pytest.approx(1)
    assert up.way == "hairpin"
    assert not up.merges
    assert np.asarray(up.angle) == pytest.approx(pi / 2)  # a right angle, from the other side


def test_the_throat_is_that_of_the_branch_and_not_of_the_main():
    """A tee takes its curve from its 2 in branch: the table's throat for that size, not for 4 in."""
    throat = tables().junctions["sanitary tee"].throat_radius(0.0508)
    radius = np.asarray(side_turn("side to foot", "sanitary tee").radius)
    assert radius.min() >= throat.low - 1e-6
    assert radius.max() <= throat.high + 1e-6


def test_a_rod_that_cannot_be_drawn_back_is_stuck_and_of_the_others_some_are_kinked():
    # Of all that get there a share s stays where the pull is too much, and of the rest a share k is kinked.
    study = site("top to foot")
    outcome = next(o for o in study.outcomes if o.route.opening.name == "top")
    n, costs = study.worlds, tables().costs
    nothing, kinks = np.zeros(n, np.float32), np.full(n, 0.25, np.float32)
    free = replace(outcome.way, march=replace(outcome.march, pull=nothing), kinks=nothing)
    held = replace(outcome.way, march=replace(outcome.march, pull=np.full(n, 1e6, np.float32)), kinks=kinks)
    plain, walk = (walk_way(way, outcome.spots, study.drawn) for way in (free, held))
    s = study.drawn.limit("stuck_share")
    assert walk.arrived == pytest.approx(plain.arrived * (1 - s) * 0.75, abs=1e-6)
    stuck, kinked = plain.arrived * s, plain.arrived * (1 - s) * 0.25
    assert walk.lost - plain.lost == pytest.approx(stuck + kinked, abs=1e-6)
    harm = stuck * costs["wedge"].likely + kinked * costs["kink"].likely
    assert walk.harm_minutes - plain.harm_minutes == pytest.approx(harm, rel=1e-4, abs=1e-3)


def test_a_push_goes_on_beyond_the_end_as_it_would_in_a_longer_pipe():
    """The reach is told past the target: in a rough pipe it is where the same push dies in 60 m of it."""
    short, far = (site("top to foot", "wye", long, "concrete") for long in ("6 m", "60 m"))
    near, long = (
        next(o.march for o in study.outcomes if o.route.opening.name == "top") for study in (short, far)
    )
    reel = short.drawn.kit(short.kit.loadouts[0]).reel
    dies = (long.reach < 55) & (long.reach > 12) & (long.reach < reel - 0.1)
    assert dies.any(), "in so rough a pipe some rods stop short"
    assert near.reach[dies] == pytest.approx(long.reach[dies], rel=0.1)


def test_a_pipe_begins_where_the_pipes_before_it_end():
    # Two lengths of the same pipe, told one after the other: 4 m and 2 m by the tape, 2 % either way.
    study = site("top to foot", long="4 m\n      - pipe: 2 m")
    outcome = next(o for o in study.outcomes if o.route.opening.name == "top")
    passed = zip(outcome.route.passages, outcome.march.stations, strict=True)
    first, second, after = (float(st.at.mean()) for p, st in passed if p.piece.kind == "pipe")
    assert second - first == pytest.approx(4, rel=0.03)
    assert after - second == pytest.approx(2, rel=0.03)


def test_pushing_takes_the_minutes_of_the_metres_that_were_pushed():
    study = site("side to foot", "sanitary tee")
    house = studied(demo.MAIN.read_text(), kit_text(), 200)
    assert max(len(o.spots) for o in house.outcomes) > 1, "from spot to spot as well"
    costs = tables().costs
    rate = costs["push_minutes_per_metre"].likely + costs["draw_back_minutes_per_metre"].likely
    for outcome in (*study.outcomes, *house.outcomes):
        most = rate * np.minimum(outcome.march.end.at, outcome.march.reach)
        assert (outcome.walk.pushing_minutes <= most + 1e-3).all()
        whole = outcome.walk.arrived > 0.99
        assert np.allclose(outcome.walk.pushing_minutes[whole], most[whole], rtol=0.02)


@pytest.mark.parametrize(("way", "turns"), [("merge", True), ("leg", True), ("hairpin", True), ("fork", True),
                                            ("bend", False), ("past", False), ("none", False)])  # fmt: skip
def test_a_string_turns_a_head_only_where_there_is_a_way_to_choose(way, turns):
    chance = _string(spot(way))[0]
    assert (float(chance[0]) > 0) is turns


def test_a_valve_that_shuts_stops_every_head():
    text = MAIN.replace("LOOK", "top to foot").replace("FITTING", "wye").replace("CLAD", "pvc")
    text = text.replace("pipe: LONG", "pipe: 1 m\n      - valve: backwater valve\n      - pipe: 1 m")
    study = studied(text, kit_text(), 100)
    outcome = next(o for o in study.outcomes if o.route.opening.name == "top")
    valve = next(s for s in outcome.spots if s.passage.piece.kind == "stopper")
    assert float(valve.spot.plain.passes.max()) == 0
    assert valve.spot.shape.turn.way == "stop"


def test_a_tank_on_the_way_makes_it_a_septic_site_whatever_was_said():
    text = MAIN.replace("LOOK", "side to foot").replace("FITTING", "wye").replace("CLAD", "pvc")
    text = text.replace("LONG", "2 m")
    for piece, septic in (
        ("pipe: 3 m", None),
        ("pipe: 1 m\n      - tank: septic tank\n      - pipe: 1 m", True),
    ):
        study = studied(text.replace("pipe: 3 m", piece), kit_text(), 50)
        assert study.site_facts["site.septic"] is septic
