"""In a wet cellar nothing is plugged in: no caution says otherwise, and what the danger wants is brought.

Common practice, no source: the cellar's power is cut from a dry place, so light and reel run on batteries
there; elsewhere on the site what is plugged in goes into a GFCI (North America), or an RCD or 110 V
transformer (Britain).
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.plan import plan
from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.jobs import rules, tables
from tests.cases.test_every_rule import case

PROTECTED = {"north america": "GFCI", "britain": "RCD"}
NOTHING = "Plug in nothing in the wet cellar. Elsewhere"
WET = {
    "north america": ["cellar, it comes up", "cellar wet, nobody knows when"],
    "britain": ["a British cellar, it comes up"],
}
DRY = {"north america": "roots came back", "britain": "plain britain"}


@cache
def told(name: str) -> Plan:
    return plan_of(plan(replace(case(name), worlds=20), tables(), rules()))


@pytest.mark.parametrize(
    ("region", "name"), [(region, name) for region, all_ in WET.items() for name in all_]
)
def test_the_cellar_is_off_and_the_rest_is_protected(region, name):
    (note,) = [each for each in told(name).cautions if "Mains power" in each.text]
    for text in (note.text, note.short):
        before, after = text.split(NOTHING)
        assert PROTECTED[region] in after
        assert PROTECTED[region] not in before
    assert {"battery light", "battery reel"} <= set(told(name).bring)


@pytest.mark.parametrize("region", DRY)
def test_where_no_cellar_is_wet_everything_goes_into_it(region):
    (note,) = [each for each in told(DRY[region]).cautions if "Mains power" in each.text]
    assert PROTECTED[region] in note.text
    assert "cellar" not in note.text
    assert not {"battery light", "battery reel"} & set(told(DRY[region]).bring)
