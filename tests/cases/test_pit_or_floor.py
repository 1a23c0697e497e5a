"""Whether the plugs of a house trap lie in a pit or in the cellar floor is not told by their kind.

Air in a shallow pit kills as that in a deep one does (29 CFR 1910.146 knows no least depth), so what nobody
told stays a danger; but no pit is told as a fact of a house where none is deep and they may lie in the floor.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import rules, tables

PLUG, CHAMBER = "kind: house trap street-side plug", "kind: inspection chamber"
REGIONS = ("north america", "britain")


@cache
def way_in(kind: str, region: str, deep: str):
    top = f"deep pits: {deep}\n" if deep else ""
    sheet = site_of_text(site(run(kind), "run", region, top=top), "site", tables())
    made = plan(Case(sheet, kit_of(kit_of_text(SMALL, "kit"), tables()), Units.INCH, 20), tables(), rules())
    (route,) = plan_of(made).routes
    return route


def air(kind: str, region: str, deep: str) -> list[str]:
    route = way_in(kind, region, deep)
    assert not [note for note in route.ask if "confined" in note.id]
    return [
        f"{each.word}: {each.text}" for each in route.cautions if "will kill without warning" in each.text
    ]


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("kind", [PLUG, CHAMBER])
@pytest.mark.parametrize("deep", ["", "yes", "unknown"])
def test_what_nobody_ruled_out_is_told_whole(kind, region, deep):
    (told,) = air(kind, region, deep)
    assert told.startswith("danger: Air in a ")


@pytest.mark.parametrize("region", REGIONS)
def test_a_chamber_is_a_pit_though_none_is_deep(region):
    (told,) = air(CHAMBER, region, "no")
    assert told.startswith("danger: Air in a ")


@pytest.mark.parametrize("region", REGIONS)
def test_where_none_is_deep_the_pit_of_a_plug_is_no_fact(region):
    (told,) = air(PLUG, region, "no")
    assert told.startswith("danger: If it lies in a ")
    assert "Work from above. Nobody goes in without" in told
    assert ("an air test" if region == "north america" else "Air test and rescue plan first") in told


def test_where_the_plug_is_both_are_told():
    assert way_in(PLUG, "north america", "no").place == "pit or floor"
    assert way_in(CHAMBER, "north america", "no").place == "pit"
