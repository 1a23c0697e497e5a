"""A head that turns out of a leg of pipe as round a corner of two bores."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from advisor.mechanics.junction_case import JunctionKind
from advisor.outcome.geometry import cleaned
from advisor.outcome.spot_facts import SpotFacts
from advisor.outcome.turns import turn_of
from tests.cases.jobs import kit_text, studied
from tests.outcome.test_turns_and_facts import SITE

SCALED = """    material: cast iron
    condition: heavy scale
    slope: 1 %
    pieces:
      - {opening: own, kind: end cleanout, opens: yes}"""


def longest(bore_in, bore_out, head, angle):
    """A head with square ends round a sharp corner, by a dense search over how it leans, as a ladder's is."""
    lean = angle * np.linspace(0.002, 0.998, 1500)[:, None]
    rest = angle - lean
    both = (bore_in - head * np.cos(lean)) / np.sin(lean) + (bore_out - head * np.cos(rest)) / np.sin(rest)
    return both.min(axis=0)


@pytest.mark.parametrize("diameter", ["20 mm", "28 mm"])
def test_a_head_turns_out_of_a_narrow_branch_as_round_a_corner_of_two_bores(diameter):
    """Against the sweep, up a wide main, the edge is sharp: a half circle less 45 degrees."""
    text = SITE.replace("LOOK", "main, from upper to side").replace("FITTING", "45 degree branch")
    text = text.replace("  - line: side\n    size: 100 mm", "  - line: side\n    size: 50 mm")
    text = text.replace("    material: pvc\n    slope: 1 %\n    pieces:\n      - capped: yes", SCALED)
    text = text.replace("      - drop: 2.5 m\n      - belly: 1 m\n", "      - pipe: 2 m\n")
    study = studied(text, kit_text().replace("25 mm", diameter), 300)
    outcome = next(o for o in study.outcomes if o.route.opening.name == "own")
    shape = next(s for s in outcome.geometries if s.turn.way == "hairpin")
    kit = study.drawn.kit(outcome.loadout)
    for each in (shape, cleaned(shape, kit, study.drawn)):
        head, angle = np.asarray(kit.head_diameter, float), np.asarray(each.turn.angle, float) * np.ones(300)
        narrow = np.minimum(each.bore_in, each.bore_out)
        room = head < 0.75 * narrow  # slim enough for the plane to tell
        expected = longest(
            np.asarray(each.bore_in, float), np.asarray(each.bore_out, float), head, angle
        ) / np.asarray(kit.head_length)
        assert room.any() or each is shape  # heavy scale leaves the wider head no such world
        assert np.asarray(each.rigid)[room] == pytest.approx(expected[room], rel=2e-3)
    assert (np.asarray(cleaned(shape, kit, study.drawn).rigid) > 1).mean() >= (
        np.asarray(shape.rigid) > 1
    ).mean()


@pytest.mark.parametrize(
    ("fitting", "shares"),
    [
        (
            "combination",
            {JunctionKind.SHORT_LEG: 0.35, JunctionKind.LONG_LEG: 0.25, JunctionKind.SWEEP: 0.40},
        ),
        ("wye and 1/8 bend", {JunctionKind.SHORT_LEG: 0.40, JunctionKind.LONG_LEG: 0.60}),
    ],
)
def test_out_of_a_swept_branch_the_leg_is_drawn_and_against_the_sweep_there_is_none(fitting, shares):
    """The shares of short, long and one-piece legs stand in the table of junctions (our judgement)."""
    start = "      - capped: yes\n      - drop: 2.5 m\n      - belly: 1 m\n"
    assert start in SITE
    text = SITE.replace(start, "      - {opening: own, kind: end cleanout, opens: yes}\n      - pipe: 2 m\n")
    text = text.replace("FITTING", fitting)

    def out_of_the_branch(look: str, leaves: str):
        study = studied(text.replace("LOOK", look), kit_text(), 3000)
        way = next(o for o in study.outcomes if o.route.opening.name == "own")
        passage = next(p for p in way.route.passages if p.piece.kind == "junction")
        assert (passage.enters, passage.leaves) == ("branch", leaves)
        return turn_of(passage, study.drawn)

    swept = out_of_the_branch("main, from lower to public sewer", "down")
    assert swept.way == "merge"
    drawn = {kind: float(np.mean(mask)) for kind, mask in swept.merges.items()}
    assert set(drawn) == set(shares)
    for kind, share in shares.items():
        assert drawn[kind] == pytest.approx(share, abs=0.036)  # four standard errors
    against = out_of_the_branch("main, from upper to side", "up")
    assert (against.way, against.merges) == ("hairpin", {})
    assert np.asarray(against.angle) == pytest.approx(pi / 2, rel=0.02)  # half a circle less a right angle


@pytest.mark.parametrize(
    ("kind", "shape"), [("wall-hung toilet carrier", "straight tee"), ("shower drain", "entry")]
)
def test_a_square_turn_behind_an_opening_is_told_to_rules_as_a_straight_tee(kind, shape):
    """A carrier is a tee that its bowl hangs on; the bottom of a trap is a bend and no tee."""
    text = SITE.replace("LOOK", "main, from lower to public sewer").replace("FITTING", "swept branch")
    text = text.replace(
        "opening: upper\n        kind: two-way cleanout", f"opening: upper\n        kind: {kind}"
    ).replace("material: pvc", "material: cast iron")  # rough, so that either turn is a hard one
    study = studied(text, kit_text(), 200)
    way = next(o for o in study.outcomes if o.route.opening.name == "upper")
    hard = next(s for s in way.spots if s.passage.step is not None and s.spot.shape.turn.bends)
    (ruling, *_) = hard.rulings
    assert (
        SpotFacts(hard.spot, study.kit.besides(way.loadout), way.loadout).of(ruling.variant, None)[
            "passage.shape"
        ]
        == shape
    )
