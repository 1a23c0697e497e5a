"""What is told beside a mark and recommended for a find."""

from __future__ import annotations

import pytest

from tests.cases.jobs import rules
from tests.push.test_marks import HOUSE, advice, one


def test_remarks_beside_a_mark():
    plain = one(kind="mark", name="x", line="house drain", distance=7.0)
    assert any("level" in words for words in plain.remarks)
    assert any("two fixed points" in words for words in plain.remarks)
    taped = one(kind="mark", name="x", tape_a="corner", from_a=2.0, tape_b="gate", from_b=3.0)
    assert not any("two fixed points" in words for words in taped.remarks)
    riser = one(kind="mark", name="x", line="house drain", distance=19.5)
    assert any("upright pipe" in words for words in riser.remarks)
    assert not any("upright pipe" in words for words in plain.remarks)
    assert any("upright pipe" in words for words in one(kind="mark", name="x", upright=True).remarks)
    for material, warned in (("cast iron", True), ("pvc", False)):
        text = HOUSE.replace("    slope: 2 %", f"    material: {material}\n    slope: 2 %", 1)
        mark = one(text, kind="mark", name="x", line="house drain", distance=7.0)
        assert any("Iron" in words for words in mark.remarks) == warned


@pytest.mark.parametrize(
    ("what", "advised"),
    [
        ("roots at the joint", "clean"),
        ("Heavy SCALE", "descale"),
        ("crack along the top", "dig here"),
        ("yellow gas pipe through the drain", "stop"),
        ("two mouths close together", "bring it up"),
        ("belly", "watch"),
        ("no roots", None),
        ("not a single crack", None),
        ("rootstock", None),
        ("no roots up to 3 m, heavy roots at 5 m", "clean"),
        ("no roots up to 3 m, and no roots behind", None),
        ("pipe sound", None),
    ],
)
def test_what_is_recommended(what, advised):
    """Common practice, no source."""
    found = advice().finds.for_find(what)
    assert (found.advice if found else None) == advised


def warned(what: str) -> bool:
    return "gas-line-across-bore" in advice().finds.warnings(what)


@pytest.mark.parametrize(
    "what",
    [
        "yellow hose across",
        "round yellow tube through the drain",
        "smooth round bar across the bore",
        "yellow plastic",
        "pipe going straight across the drain",
        "through the drain runs a pipe",
        "there is a pipe inside the pipe",
        "hole with a black pipe through it",
        "bubbles rising",
        "Gas-pipe?",
        "not sure if yellow",
        "no idea what, a tube",
        "yellow pipe in yellow grease",
    ],
)
def test_what_may_be_a_gas_pipe_is_not_passed_and_warned_of(what):
    """By what the caution itself asks about: yellow plastic, smooth and round, bubbles."""
    row = advice().finds.for_find(what)
    assert row is not None
    assert (row.advice, row.not_past, warned(what)) == ("stop", True, True)


@pytest.mark.parametrize(
    "what",
    [
        "roots through a joint of the pipe",
        "roots through drain pipe",
        "crack across the pipe",
        "yellow grease",
        "pipe rusted right through",
        "no pipe across",
        "changes to plastic pipe",
        "soap bubbles",
        "roots protruding",
        "line runs clean to main",
        "brick",
        "plastic bag",
    ],
)
def test_of_a_common_find_nobody_is_warned_of_gas(what):
    assert not warned(what)


@pytest.mark.parametrize("what", ["an object", "something in the roots", "pipe sticking in"])
def test_what_nobody_knows_is_warned_of_and_first_looked_at(what):
    row = advice().finds.for_find(what)
    assert warned(what)
    assert row is not None
    assert row.says.startswith("First see what it is.")


def test_a_find_warns_of_what_a_rule_warns_of():
    ids = {rule.conclusion.caution.id for rule in rules().all_rules if rule.conclusion.caution}
    assert {each for row in advice().finds.finds for each in row.warns} <= ids


@pytest.mark.parametrize(
    ("what", "broken"),
    [("pipe broken through", True), ("a cable, pipe crushed", True), ("scale", False)],
)
def test_a_break_is_one_whatever_else_was_written_of_it(what, broken):
    assert advice().finds.is_broken(what) is broken
