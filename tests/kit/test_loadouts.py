"""Kit sheets to loadouts, and a rod's figures from its core, worked by hand."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from advisor.errors import BadInput
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.drawn import Drawn
from advisor.worlds.draws import Worlds
from tests.cases.jobs import tables

KIT = """
kit: van
heads:
  - {head: small head, diameter: 25 mm, length: 40 mm}
  - {head: big head, diameter: 50 mm, length: 80 mm, nose: flat}
springs: [{spring: soft, like: small reel, feel: soft}]
rods: [{rod: thin, like: small reel, core: 4 mm, diameter: 7 mm}, {rod: thick, like: large reel, EXTRA}]
guides: [{guide: ring, diameter: 60 mm, length: 15 mm}]
"""


def made(extra: str = "length: 60 m", more: str = ""):
    return kit_of(kit_of_text(KIT.replace("EXTRA", extra) + more, "kit"), tables())


def test_without_loadouts_every_head_goes_with_every_spring_and_rod():
    names = {(e.head.name, e.spring.name, e.rod.name) for e in made().loadouts}
    assert names == {(h, "soft", r) for h in ("small head", "big head") for r in ("thin", "thick")}


def test_named_loadouts_and_guides():
    kit = made(more="loadouts: [{head: small head, spring: soft, rod: thin, guide: ring}]\n")
    assert [e.name for e in kit.loadouts] == ["small head on thin + ring"]


def test_built_in_kit_is_two_reels_with_and_without_a_guide_and_says_so():
    kit = default_kit(tables())
    assert len(kit.loadouts) == 4
    assert "no kit sheet" in kit.assumed[0]


def test_stiffness_and_radius_follow_from_the_core():
    loadout = next(e for e in made().loadouts if e.rod.name == "thin")
    drawn = Drawn(Worlds(1, 4000), tables(), wet=None)
    kit = drawn.kit(loadout)
    # E pi d^4/64 of a 4 mm core; the modulus is a triangle whose mean is (low + likely + high)/3.
    modulus = np.mean([loadout.rod.modulus.low, loadout.rod.modulus.likely, loadout.rod.modulus.high])
    assert kit.stiffness.mean() == pytest.approx(modulus * pi / 64 * 0.004**4, rel=0.01)
    strain = loadout.rod.strain_limit
    assert kit.minimum_radius.min() >= 0.002 / strain.high * 0.999
    assert kit.minimum_radius.max() <= 0.002 / strain.low * 1.001


def test_measured_values_stand_above_the_core():
    kit = made("stiffness: 5 N m2, weight: 1.5 N/m, minimum radius: 400 mm")
    loadout = next(e for e in kit.loadouts if e.rod.name == "thick")
    drawn = Drawn(Worlds(1, 50), tables(), wet=None).kit(loadout)
    assert (drawn.stiffness == 5).all()
    assert drawn.weight == pytest.approx(1.5)
    assert drawn.minimum_radius == pytest.approx(0.4)


def test_guide_widens_and_lengthens_the_head():
    kit = made(more="loadouts: [{head: small head, spring: soft, rod: thin, guide: ring}]\n")
    drawn = Drawn(Worlds(1, 10), tables(), wet=None).kit(kit.loadouts[0])
    assert drawn.head_diameter == pytest.approx(0.06)
    assert drawn.head_length == pytest.approx(0.055)
    assert drawn.guided


def test_feel_says_which_spring_of_the_class():
    soft = made().loadouts[0].spring
    kind = tables().kit_classes["small reel"].spring
    assert soft.stiffness == kind.soft
    assert soft.firm is False


def test_more_than_a_dozen_loadouts_are_refused():
    heads = ", ".join(f"{{head: h{n}, diameter: 25 mm, length: 40 mm}}" for n in range(13))
    text = f"kit: x\nheads: [{heads}]\nsprings: [{{spring: s}}]\nrods: [{{rod: r}}]\n"
    with pytest.raises(BadInput, match="13 loadouts"):
        kit_of(kit_of_text(text, "kit"), tables())


def test_two_springs_on_one_rod_are_two_loadouts_each_with_its_own_values():
    """The values of one must not stand for the other, whichever is listed first."""
    for feels in (("soft", "firm"), ("firm", "soft")):
        springs = ", ".join(f"{{spring: {feel} one, like: small reel, feel: {feel}}}" for feel in feels)
        text = (
            f"kit: van\nheads: [{{head: small head, like: small reel}}]\nsprings: [{springs}]\n"
            "rods: [{rod: thin, like: small reel}]\n"
        )
        kit = kit_of(kit_of_text(text, "kit"), tables())
        assert [e.name for e in kit.loadouts] == [f"small head on thin, {feel} one" for feel in feels]
        drawn = Drawn(Worlds(1, 200), tables(), wet=None)
        stiff = {e.spring.name: float(drawn.kit(e).spring_over_rod.mean()) for e in kit.loadouts}
        assert stiff["soft one"] < stiff["firm one"]


def test_a_loadout_may_stand_there_once():
    one = "{head: small head, spring: soft, rod: thin}"
    with pytest.raises(BadInput, match="stands there already"):
        made(more=f"loadouts: [{one}, {one}]\n")


@pytest.mark.parametrize(("size", "kind"), [(30, 25), (37, 25), (38, 50), (45, 50)])
def test_a_part_of_no_class_is_taken_for_the_class_whose_usual_size_is_nearer(size, kind):
    """Heads of the two classes are 25 and 50 mm, halfway is 37.5 mm; their lengths are 42 and 80 mm."""
    text = (
        f"kit: van\nheads: [{{head: h, diameter: {size} mm}}]\nsprings: [{{spring: s}}]\nrods: [{{rod: r}}]\n"
    )
    (loadout,) = kit_of(kit_of_text(text, "kit"), tables()).loadouts
    assert loadout.head.length.likely == pytest.approx({25: 0.042, 50: 0.080}[kind])


@pytest.mark.parametrize(
    ("diameter", "low", "likely", "high"),
    [
        # A core of 4, 5 to 7 mm in a jacket of 9.5, 11 to 13 mm.
        ("12.9 mm", 4.0, 5.0 * 12.9 / 11, 7.0 * 12.9 / 11),
        ("10 mm", 4.0 * 10 / 11, 5.0 * 10 / 11, 7.0),
        ("16 mm", 4.0 * 16 / 11, 5.0 * 16 / 11, 7.0 * 16 / 11),  # no such jacket in its class: the share
    ],
)
def test_a_thick_jacket_of_its_class_need_not_hold_a_thick_core(diameter, low, likely, high):
    text = (
        "kit: x\nheads: [{head: h, like: large reel}]\nsprings: [{spring: s, like: large reel}]\n"
        f"rods: [{{rod: r, like: large reel, diameter: {diameter}}}]\n"
    )
    core = kit_of(kit_of_text(text, "kit"), tables()).loadouts[0].rod.core
    assert [1000 * each for each in (core.low, core.likely, core.high)] == pytest.approx([low, likely, high])
