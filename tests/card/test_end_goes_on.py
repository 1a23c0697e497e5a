"""From a trial: the row of an end where the pipe goes on said "the end ... Feel: springy".

The trade, no source: springy is a head that is stopped and a rod that bows. In the open channel of a chamber
with rod left to give the head comes free, past a pipe that joins nothing is felt, and only a closed end stops
it.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.card.content import Sight
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.card.cards import DATE
from tests.cases.jobs import kit_text, studied, tables

HOUSE = """
site: an invented house
region: britain
map: guess
septic: no
pumps: no
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: pvc
    condition: sound
    pieces:
      - capped: yes
      - pipe: 4 m
      - opening: back chamber
        kind: inspection chamber
        depth: 600 mm
      - pipe: 6 m
      - joined by: sink line
        drawn: no
      - pipe: 3 m
      - opening: front chamber
        kind: inspection chamber
        depth: 900 mm
      - pipe: 20 m
      - end: public sewer
task:
  look at: drain, from FROM to END
  complaint: {holding: no, chemicals: no, gas smell: no}
deep pits: no
"""


@cache
def made(begins: str, ends: str) -> Plan:
    text = HOUSE.replace("FROM", begins).replace("END", ends)
    return plan_of(studied(text, kit_text(), 50))


def end(begins: str, ends: str) -> Sight:
    plan = made(begins, ends)
    way = next(each for each in plan.routes if each.opening == "back chamber")
    card = card_of(plan, way, tables().card, Units.METRIC, DATE, True)
    return next(sight for sight in card.sights if sight.see.startswith("the end"))


@pytest.mark.parametrize(
    ("begins", "ends", "see", "feel"),
    [
        ("back chamber", "front chamber", "front chamber; the drain goes on", "free, it runs on"),
        ("back chamber", "sink line", "where sink line joins; the line goes on", "no change"),
        ("capped end", "back chamber", "", "springy"),
    ],
)
def test_what_is_felt_at_the_end_of_a_way(begins, ends, see, feel):
    row = end(begins, ends)
    assert f"Feel: {feel}." in row.do
    assert row.see == f"the end: {see}" if see else "goes on" not in row.see
