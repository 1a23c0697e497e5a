"""Single numbers: kit classes, limits and costs, in the units that the program counts in."""

from __future__ import annotations

import math

import pytest

from advisor.quantity import Estimate, Known
from advisor.strict_yaml import sheet_of_text
from advisor.tables.limits import CostsFile


@pytest.mark.parametrize(
    ("name", "kind", "wire", "coil"),
    # Close coils: B = 2 E I d / (pi D (2 + nu)), textbook spring bent sideways; wire and coil in mm.
    [
        ("small reel", "soft", 2.0, 15),
        ("small reel", "firm", 3.0, 20),
        ("large reel", "firm", 4.0, 25),
    ],
)
def test_spring_stiffness_of_wire(tables, name, kind, wire, coil):
    d, mean = wire / 1000, coil / 1000
    stiffness = 2 * 200e9 * math.pi * d**4 / 64 * d / (math.pi * mean * 2.3)
    span = getattr(tables.kit_classes[name].spring, kind)
    assert span.low <= stiffness <= span.high


def test_limits_in_si(tables):
    limits = tables.limits
    assert limits["run_up"].value == pytest.approx(0.3)
    assert limits["flush_wait"].value == pytest.approx(120)  # two minutes
    assert limits["retrieval_depth"].value == pytest.approx(1.524)  # 29 CFR 1910.146: 5 ft
    assert limits["ladder_above"].value == pytest.approx(0.9144)  # 29 CFR 1926.1053(b)(1): 3 ft
    assert limits["helical_factor"].low == pytest.approx(2 * math.sqrt(2), abs=0.01)


def test_costs_in_minutes(tables):
    """Where the order matters it is common practice: rigging a string costs more than a push."""
    costs = {name: c.value if isinstance(c, Known) else c.likely for name, c in tables.costs.items()}
    text = """costs:
      dig: {value: 90, unit: min, grade: judgement, source: own}
      wait: {value: 1.5, unit: h, grade: judgement, source: own}
      push_minutes_per_metre: {value: 0.25, grade: judgement, source: own}"""
    read = sheet_of_text(text, CostsFile, "costs.yaml").model.costs
    assert [cost.value for cost in read.values()] == pytest.approx([90, 90, 0.25])
    assert costs["try, quick push"] < costs["set up, string"] + costs["try, string"]
    openings = tables.openings
    assert openings["two-way cleanout"].open_minutes.likely == 5
    assert openings["two-way cleanout"].open_minutes.likely < openings["toilet flange"].open_minutes.low
    assert openings["roof vent"].open_minutes.likely > openings["stack-base cleanout"].open_minutes.likely


def test_entry_numbers_are_graded(tables):
    for kind in tables.openings.values():
        assert isinstance(kind.open_minutes, Estimate)
        assert kind.open_minutes.evidence.source in tables.sources
        for step in kind.entry:
            assert step.angle.evidence.source in tables.sources
