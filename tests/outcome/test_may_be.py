"""What may be lead, pitch fibre or asbestos cement bears no jet and no cutter, wherever one is offered.

As our own cautions of these pipes have it (rules/caution/pipe.yaml): a line that holds was told `Use rod,
cable or jet` beside `No jet, no cutter`.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.explain.change import cures
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.may_be import no_tool_in
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import rules, tables


def case(material: str, complaint: str = "holding: no", condition: str = "sound") -> Case:
    pieces = run("kind: end cleanout", "pipe: 3 m", material=material, condition=condition)
    sheet = site_of_text(site(pieces, "run", complaint=complaint), "site", tables())
    return Case(sheet, kit_of(kit_of_text(SMALL, "kit"), tables()), Units.INCH, 50)


@pytest.mark.parametrize("known", ["holding: yes", "holding: yes, chemicals: no"])
@pytest.mark.parametrize(
    ("material", "bears"),
    [("plastic", True), ("clay", True), ("pitch fibre", False), ("lead", False), ("asbestos cement", False)],
)
def test_a_line_that_holds_is_not_jetted_where_the_pipe_bears_none(known, material, bears):
    told = " ".join(plan_of(plan(case(material, known), tables(), rules())).how)
    assert ("cable or jet" in told) is bears
    assert (f"No jet and no cutter in run ({material})." in told) is not bears


def test_what_lies_above_the_full_chamber_is_told_to_lie_there():
    """Cleared from the chamber down, whoever reads `no cutter in basin arm` looks for that in the drain."""
    pieces = run(
        "kind: end cleanout",
        "pipe: 3 m",
        "opening: yard chamber, kind: inspection chamber, water: standing",
        "pipe: 3 m",
        material="lead",
    )
    network = network_of(
        site_of_text(site(pieces, "run", complaint="holding: yes"), "site", tables()), tables()
    )
    chamber = next(each for each in network.openings() if each.name == "yard chamber")
    assert no_tool_in(network, tables()) == "run (lead)"
    assert no_tool_in(network, tables(), chamber) == "run (lead), run (lead, above yard chamber)"


def test_a_broken_pipe_of_it_is_told_as_broken():
    made = case("lead", "holding: yes, chemicals: no}, history: {came back: [soil or pipe]")
    told = " ".join(plan_of(plan(made, tables(), rules())).how)
    assert told.count("No jet and no cutter") == 1
    assert "the pipe may be broken" in told


@pytest.mark.parametrize(("material", "offered"), [("clay", True), ("pitch fibre", False)])
def test_nobody_is_told_to_clean_hard_what_bears_no_tool(material, offered, monkeypatch):
    any_gain = replace(tables().limits["least_gain"], value=-1.0)
    monkeypatch.setitem(tables().limits, "least_gain", any_gain)
    made = case(material, condition="roots")
    found = cures(made, plan(made, tables(), rules()), tables(), rules(), Memory())
    assert ("cut the roots in run first" in [each.what for each in found]) is offered
