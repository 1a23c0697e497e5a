"""The droop test: rods solved apart by scipy's boundary-value solver, read as with a tape."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from advisor.evidence import TOLD, Grade
from advisor.kit.loadouts import default_kit
from advisor.kit.measure import BEST, CannotTell, Droop, core_of, measured, radius_of, rod_weight
from advisor.quantity import Estimate, Known
from tests.cases.jobs import tables
from tests.outside.test_droop_inverse import ENDS, hung, overhang

OFF = {
    name: tables().limits[name].likely
    for name in ("droop_reading", "overhang_reading", "clamp_tilt", "weight_reading")
}


def told(value: float) -> Known:
    return Known(value, TOLD)


def weighed(value: float) -> Estimate:
    return Estimate(value * (1 - OFF["weight_reading"]), value, value * (1 + OFF["weight_reading"]), TOLD)


@pytest.mark.parametrize(("ei", "w"), ENDS)
@pytest.mark.parametrize("radius", [np.inf, 4.0, 1.5])
def test_the_true_stiffness_lies_within_the_stated_error(ei, w, radius):
    """Three readings of each rod, each off by up to what the table allows; a tilted clamp swings the end."""
    length = min(overhang(ei, w, 5.0), 1.1 * radius)
    true = [hung(length, ei, w, sign / radius) for sign in (1, -1)]
    draw = Random(f"{ei} {w} {radius}")
    for _ in range(3):
        off = {name: draw.uniform(-1, 1) * most for name, most in OFF.items()}
        level = off["clamp_tilt"] * float(np.sqrt(max(length**2 - np.mean(true) ** 2, 0.0)))
        reads = [fall + level + draw.uniform(-1, 1) * OFF["droop_reading"] for fall in true]
        read = Droop(length + off["overhang_reading"], *reads, weighed(w * (1 + off["weight_reading"])))
        found = measured(read, tables()).stiffness
        assert found.low <= ei <= found.high


def test_without_error_it_is_the_stiffness_itself_and_the_curl():
    length = overhang(0.4, 0.7, 5.0)
    found = measured(
        Droop(length, hung(length, 0.4, 0.7, 0.25), hung(length, 0.4, 0.7, -0.25), told(0.7)), tables()
    )
    assert found.stiffness.likely == pytest.approx(0.4, rel=1e-4)
    assert found.curl_radius == pytest.approx(4.0, rel=1e-3)
    assert found.better is None
    assert found.stiffness.evidence.grade is Grade.COMPUTED


def test_a_weight_that_is_only_guessed_makes_the_error_wide():
    length = overhang(0.4, 0.7, 5.0)
    falls = (hung(length, 0.4, 0.7, 0.0),) * 2
    sharp = measured(Droop(length, *falls, weighed(0.7)), tables()).stiffness
    wide = measured(Droop(length, *falls, Estimate(0.5, 0.7, 1.0, TOLD)), tables())
    assert wide.stiffness.high / wide.stiffness.low > 1.9  # the weight alone is off by 2 from end to end
    assert sharp.high / sharp.low < 1.2
    assert wide.parts[0][0] == "the weight"


def test_a_short_end_is_told_to_be_hung_out_further():
    length = overhang(0.4, 0.7, 1.0)
    falls = [hung(length, 0.4, 0.7, c) for c in (0.2, -0.2)]
    found = measured(Droop(length, *falls, weighed(0.7)), tables())
    assert found.better is not None
    assert found.better > length
    better = found.better
    share = np.mean([hung(better, 0.4, 0.7, c) for c in (0.2, -0.2)]) / better
    assert BEST[0] < share < BEST[1]


def test_a_long_end_is_told_to_be_hung_out_less():
    length = overhang(0.4, 0.7, 12.0)
    found = measured(Droop(length, *(hung(length, 0.4, 0.7, c) for c in (0.2, -0.2)), weighed(0.7)), tables())
    assert found.better is not None
    assert found.better < length


@pytest.mark.parametrize(
    ("droop", "rolled", "says"),
    [
        (1.2, 0.5, "cannot fall further than the length"),
        (0.1, -0.3, "hardly droops"),
        (0.92, 0.9, "hang out less"),
        (0.7, -0.55, "curl is too strong"),
        (0.002, 0.002, "hang out more|too near"),
    ],
)
def test_readings_that_tell_nothing_are_refused_with_what_to_do(droop, rolled, says):
    with pytest.raises(CannotTell, match=says):
        measured(Droop(1.0, droop, rolled, told(0.7)), tables())


def test_core_and_radius_by_hand():
    """E pi d^4/64 of a round bar and d/(2 strain) of its bent fibre, as any book of mechanics has them."""
    rod = default_kit(tables()).loadouts[0].rod
    stiffness = 38e9 * np.pi / 64 * 0.0037**4
    assert rod.modulus.likely == 38e9
    core = core_of(told(stiffness), rod)
    assert core.likely == pytest.approx(0.0037, rel=1e-9)
    assert core.low < core.likely < core.high
    assert radius_of(told(0.0037), rod).likely == pytest.approx(0.0037 / (2 * rod.strain_limit.likely))
    assert radius_of(told(0.0037), rod).low == pytest.approx(0.0037 / (2 * rod.strain_limit.high))


def test_weight_of_a_rod_that_nobody_weighed_is_that_of_its_class():
    rod = default_kit(tables()).loadouts[0].rod
    by_hand = 1950 * 0.8 * 9.80665 * np.pi / 4 * 0.007**2
    assert rod_weight(rod).likely == pytest.approx(by_hand)


def test_the_parts_of_the_error_by_the_beam_formula():
    """EI = w l^4/(8 d), d the mean of both droops (any beam table): its differential, part by part."""
    length, fall = 1.0, 0.08
    found = dict(measured(Droop(length, fall, fall, weighed(0.7)), tables()).parts)
    reading = OFF["droop_reading"] / (2 * fall)
    by_hand = {
        "the first droop": reading,
        "the second droop": reading,
        "the length": 4 * OFF["overhang_reading"] / length,
        "a table or clamp that is not level": OFF["clamp_tilt"] * length / fall,
        "a curl that is not quite upright": 0.0,  # both fall alike: there is none
        "the weight": OFF["weight_reading"],
    }
    assert found == pytest.approx(by_hand, rel=0.03)


@pytest.mark.parametrize("radius", [4.0, 2.0])
@pytest.mark.parametrize("crooked", [(25.0, 0.0), (0.0, 25.0)])
def test_the_error_holds_a_curl_that_stood_25_degrees_off_upright_in_one_of_the_falls(radius, crooked):
    """By the boundary-value solver: of a curl so far off only the cosine counts."""
    length = overhang(0.4, 0.7, 5.0)
    down, up = (np.cos(np.radians(off)) / radius for off in crooked)
    read = Droop(length, hung(length, 0.4, 0.7, down), hung(length, 0.4, 0.7, -up), told(0.7))
    found = measured(read, tables())
    share = dict(found.parts)["a curl that is not quite upright"]
    assert share > 0.9 * abs(np.log(found.stiffness.likely / 0.4))
    assert share < 1.5 * abs(np.log(found.stiffness.likely / 0.4))


@pytest.mark.parametrize(
    ("droop", "rolled", "cannot"), [(0.044, 0.36, True), (0.36, 0.367, True), (0.36, 0.365, False)]
)
def test_a_first_fall_that_is_not_the_largest_is_no_set_of_readings(droop, rolled, cannot):
    """The curl down adds to the fall and the curl up takes from it; a tape may be 3 mm off at each."""
    read = Droop(1.8, droop, rolled, weighed(1.373))
    if cannot:
        with pytest.raises(CannotTell, match="measure both again, the largest first"):
            measured(read, tables())
    else:
        assert measured(read, tables()).stiffness.low > 0
