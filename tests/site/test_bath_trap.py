"""A bath as a way in: its trap hangs out of sight under it, and on a slab in a hole below the floor.

Common practice, no source: no stop valve stands before it and no arm comes out of a wall; it is got at by a
panel or from a cellar, and it bars the head by the overflow as by the plug hole.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.archetype import archetypes, typical
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.used import is_low, takes_water
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables

SITE = """
site: one fixture
region: REGION
map: measured
lines:
  - line: drain
    size: 3 in
    material: abs
    condition: sound
    pieces:
      - fixture: FIXTURE
      - pipe: 4 m
      - end: public sewer
task: {look at: drain, complaint: {holding: no, chemicals: no}}
"""


@cache
def planned(fixture: str, region: str) -> Plan:
    text = SITE.replace("FIXTURE", fixture).replace("REGION", region)
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 50)
    return plan_of(plan(case, tables(), rules()))


@pytest.mark.parametrize("region", ["north america", "britain"])
def test_a_bath_is_opened_as_a_bath_and_not_as_a_sink(region):
    bath, basin = planned("bath", region), planned("basin", region)
    steps = " ".join(bath.routes[0].before)
    assert "stop valves" not in steps
    assert "its arm" not in steps
    assert "panel" in steps
    assert "Not by the overflow or the plug hole." in steps
    assert "stop valves" in " ".join(basin.routes[0].before)
    warned, basins = ({each.id for each in made.routes[0].cautions} for made in (bath, basin))
    assert warned == basins
    assert "trap-water" in warned


def test_it_takes_longer_and_opens_less_often_than_the_trap_of_a_sink():
    bath, sink = (tables().openings[kind] for kind in ("bath trap", "fixture tee"))
    assert bath.open_minutes.likely > sink.open_minutes.likely
    assert bath.close_minutes.likely > sink.close_minutes.likely
    assert bath.opens_share.likely < sink.opens_share.likely
    assert set(bath.hazards) >= set(sink.hazards)


@pytest.mark.parametrize("building", ["slab-one-storey", "crawl-space"])
def test_below_the_floor_it_is_no_way_in_and_its_water_runs_all_the_same(building):
    house = next(each for each in archetypes(rules_dir(), tables()) if each.id == building)
    network = network_of(site_of_text(typical(house, 1973), "site", tables()), tables())
    (bath,) = [piece for piece in network.pieces.values() if piece.name == "bath"]
    assert bath.hole is None
    assert takes_water(bath)
    assert is_low(bath, tables())
