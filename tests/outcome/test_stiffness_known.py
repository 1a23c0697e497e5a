"""What is said of a spring far softer than its rod says too whether anybody told how stiff the two are."""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest

from advisor.outcome.spot_facts import _soft_spring
from tests.cases.jobs import planned
from tests.cases.test_trade_facts import branch_into_main

KIT = """\
kit: one thick rod
heads:
  - {head: head, like: small reel}
springs:
  - {spring: spring, like: small reel, SPRING}
rods:
  - {rod: rod, like: large reel, ROD}
"""


@pytest.mark.parametrize(
    ("spring", "rod", "known"),
    [
        ("feel: soft", "length: 60 m", "both assumed"),
        ("stiffness: assumed 0.005 N m2", "length: 60 m", "both assumed"),
        ("stiffness: 0.005 N m2", "length: 60 m", "the rod's is assumed"),
        ("feel: soft", "core: 7.5 mm", "the spring's is assumed"),
        ("feel: soft", "stiffness: 4 N m2", "the spring's is assumed"),
        ("stiffness: 0.01 N m2", "stiffness: 4 N m2", "both told"),
    ],
)
def test_an_assumed_stiffness_is_said_to_be_assumed(spring, rod, known):
    plan = planned(
        branch_into_main(
            fitting="combination", branch="2 in", opening="end cleanout", pieces="      - pipe: 3 ft"
        ),
        KIT.replace("SPRING", spring).replace("ROD", rod),
        worlds=400,
    )
    told = " ".join(words for route in plan.routes for each in route.passages for words in each.difficulty)
    assert f"of the rod's stiffness ({known})." in told


@pytest.mark.parametrize(
    ("told", "share", "soft"),
    [(False, 0.5, True), (True, 0.001, False), (None, 0.029, True), (None, 0.031, False)],
)
def test_a_spring_is_as_soft_as_its_sheet_says_else_by_its_share_of_the_rod(told, share, soft):
    # Firm from .03 of the rod's stiffness on, as the table has it (limit firm_spring, grade computed).
    loadout = SimpleNamespace(spring=SimpleNamespace(firm=told))
    limits = SimpleNamespace(likely={"firm_spring": 0.03}.__getitem__)
    spot = SimpleNamespace(kit=SimpleNamespace(spring_over_rod=np.full(3, share)), drawn=limits)
    assert _soft_spring(loadout, spot) is soft
