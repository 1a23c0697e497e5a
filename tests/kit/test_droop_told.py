"""The droop test's readings and words: which rod, what was weighed, and what cannot be."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from advisor.errors import BadInput, QuantityError
from advisor.evidence import TOLD
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.measure import Droop, first_overhang, measured, rod_weight
from advisor.kit.sheet import kit_of_text
from advisor.quantity import Known, Units
from advisor.terminal.droop_ask import _fall, _weight, read_droop, rod_of, steps
from advisor.terminal.droop_screen import tell_droop
from advisor.terminal.page import Page
from tests.cases.jobs import SMALL_ROD, kit_text, tables
from tests.outside.test_droop_inverse import hung, overhang

INCH = 0.0254
ONE = kit_of(kit_of_text(kit_text(), "kit"), tables())


def test_the_only_rod_need_not_be_named():
    assert rod_of(ONE, None, None).name == "small reel"


def test_what_stands_above_the_table_droops_less_than_nothing():
    assert _fall("5 cm") == pytest.approx(0.05)
    assert _fall("5 cm up") == _fall("up 5 cm") == pytest.approx(-0.05)
    with pytest.raises(QuantityError, match="it is empty"):
        _fall(" ")


def test_a_rough_weight_is_taken_as_wider_than_a_weighed_one():
    # 45 g/m is 0.45 x 0.0980665 = 0.4413 N/m; about: off by the share of a rough value on both sides.
    weighed, rough = _weight("45 g/m", tables()), _weight("about 45 g/m", tables())
    assert rough.likely == weighed.likely == pytest.approx(0.4413, abs=1e-4)
    for told, name in ((weighed, "weight_reading"), (rough, "rough_share")):
        off = tables().limits[name].likely
        assert told.low == pytest.approx(0.4413 * (1 - off), abs=2e-4) or name == "rough_share"
        assert told.high > told.likely > told.low
    assert rough.high - rough.low > weighed.high - weighed.low


def test_a_core_thicker_than_its_rod_is_no_answer(capsys):
    """A reel rod of some 7 mm that hangs out 3 m and droops a hand's breadth would be a steel bar."""
    rod = rod_of(ONE, None, None)
    read = read_droop("3 m", "8 cm", "7 cm", "20 N/m", rod, tables())
    with pytest.raises(BadInput, match="so stiff a core would be thicker than small reel itself"):
        tell_droop(read, rod, tables(), Units.METRIC, Page())


def test_where_it_hangs_too_short_a_better_length_is_told(capsys):
    rod = rod_of(ONE, None, None)
    # A thin rod of 0.5 N/m over half a metre droops some centimetres: the reading is most of the error.
    read = read_droop("0.5 m", "2 cm", "1.5 cm", "0.5 N/m", rod, tables())
    tell_droop(read, rod, tables(), Units.METRIC, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "and measure again: there the error is least." in said


def told(core: str, capsys, marked: str = "") -> str:
    """What is said of a rod with a core of 1/8 in, EI = E pi d^4 / 64, where the sheet says another."""
    rod_told = f"{{rod: small reel, like: small reel, core: {core}{marked}}}"
    sheet = kit_of_text(kit_text().replace(SMALL_ROD, rod_told), "kit")
    rod = rod_of(kit_of(sheet, tables()), None, None)
    stiffness = rod.modulus.likely * pi * (INCH / 8) ** 4 / 64
    length = overhang(stiffness, 0.45, 5.0)
    falls = [f"{hung(length, stiffness, 0.45, sign / 5.0):.4f} m" for sign in (1, -1)]
    read = read_droop(f"{length:.4f} m", *falls, "0.45 N/m", rod, tables())
    tell_droop(read, rod, tables(), Units.INCH, Page())
    return " ".join(capsys.readouterr().out.split())


def test_a_core_that_the_droop_contradicts_is_told_with_which_of_them_is_used(capsys):
    said = told("5/32 in", capsys)
    assert "The sheet says core 5/32 in, the droop says 0.1" in said
    assert (
        "Once kept, the droop is used for the stiffness and the sheet's core for the smallest bend only."
        in said
    )
    assert "advisor kit edit 'rods/small reel/core=...'" in said
    assert "and the sheet's core for nothing." in told("5/32 in", capsys, ", minimum radius: 5 in")


@pytest.mark.parametrize("core", ["1/8 in", "about 1/8 in", "0.12 in to 0.16 in"])
def test_a_core_that_the_droop_bears_out_is_not_held_against_the_sheet(core, capsys):
    assert "The sheet says" not in told(core, capsys)


def test_a_weight_without_its_length_is_refused_with_what_to_say():
    with pytest.raises(QuantityError, match="of how much rod\\? Such as 22 lb per 200 ft"):
        _weight("22 lb", tables())
    with pytest.raises(QuantityError, match="or of a piece 22 lb per 200 ft"):
        _weight("heavy", tables())
    # 22 lb are 9.979 kg, 200 ft are 60.96 m.
    assert _weight("22 lb per 200 ft", tables()).likely == pytest.approx(9.979 * 9.80665 / 60.96, rel=1e-4)


def test_the_smallest_bend_that_is_told_is_the_one_that_plans_take(capsys):
    assert "Smallest bend, by the core on the sheet: radius" in told("1/8 in", capsys)
    assert "Smallest bend, as told: radius 5 in." in told("1/8 in", capsys, ", minimum radius: 5 in")


@pytest.mark.parametrize("like", ["small reel", "large reel"])
def test_what_is_to_hang_out_suits_a_table(like, capsys):
    """A table is some 0.75 m high: by scipy's solver a rod of the class falls by half a metre or less there,
    and a thin one by half of what hangs, where the error is least."""
    rod = next(e.rod for e in default_kit(tables()).loadouts if e.rod.name == like)
    stiffness = rod.modulus.likely * pi * rod.core.likely**4 / 64
    length, told_fall = first_overhang(rod, tables())
    fall = hung(length, stiffness, rod_weight(rod).likely, 0.0)
    assert told_fall == pytest.approx(fall, abs=0.001)
    assert fall < 0.51
    assert fall == pytest.approx(0.5, abs=0.005) or fall / length == pytest.approx(0.5, abs=0.03)
    in_words = f"Hang out about {length:.1f} m: its end should fall some {round(fall * 100) * 10} mm."
    assert any(in_words in each for each in steps(rod, tables(), Units.METRIC))
    assert any(f"fall some {fall / INCH:.0f} in." in each for each in steps(rod, tables(), Units.INCH))


def test_a_stiff_rod_whose_end_would_be_on_the_floor_is_not_sent_there(capsys):
    """5 N m2 and 1.6 N/m hung out 1.8 m: less than a third, but further out no table would be high enough."""
    falls = [hung(1.8, 5.0, 1.6, 0.0)] * 2
    assert falls[0] / 1.8 < 1 / 3
    assert measured(Droop(1.8, *falls, Known(1.6, TOLD)), tables()).better is None


LARGE = next(e.rod for e in default_kit(tables()).loadouts if e.rod.name == "large reel")


def told_of(rod, length, falls, weight, capsys):
    tell_droop(read_droop(length, *falls, weight, rod, tables()), rod, tables(), Units.METRIC, Page())
    return " ".join(capsys.readouterr().out.split())


AGAIN = "Measure again before this is kept: what hangs, both falls, the weight, and the rod bare."


@pytest.mark.parametrize(
    ("length", "falls", "weight"),
    [
        ("1.8 m", ("440 mm", "36 mm"), "140 g/m"),  # 360
        ("2.8 m", ("440 mm", "360 mm"), "140 g/m"),  # 1.8
    ],
)
def test_a_core_unlike_its_class_is_told_with_what_to_measure_again(length, falls, weight, capsys):
    """A thick rod by rules/tables/kits.yaml has a core of 5.8 to 7.5 mm; w l^4/(8 d) lies far off it."""
    said = told_of(LARGE, length, falls, weight, capsys)
    assert "That is an unusual core: large reel's core is usually 4 mm to 7 mm." in said
    assert AGAIN in said


def test_a_core_like_its_class_is_no_reason_to_measure_again(capsys):
    assert AGAIN not in told_of(LARGE, "1.8 m", ("440 mm", "360 mm"), "140 g/m", capsys)


def test_falls_further_apart_than_a_reel_leaves_a_curl_are_told(capsys):
    """0.6 m between falls of 0.7 m: by l c/2 each way a curl of some 0.8 m."""
    thin = rod_of(ONE, None, None)
    said = told_of(thin, "0.7 m", ("370 mm", "-200 mm".replace("-", "up ")), "45 g/m", capsys)
    assert "The two falls lie further apart than the curl of a reel makes them." in said
    assert AGAIN in said


def test_a_stiffness_unlike_the_one_kept_before_is_told(capsys):
    kept = replace(LARGE, stiffness=Known(9.0, TOLD))
    said = told_of(kept, "1.8 m", ("440 mm", "360 mm"), "140 g/m", capsys)
    assert "The sheet says stiffness 9 N m²: one of the two is wrong." in said
    assert AGAIN in said
