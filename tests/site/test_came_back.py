"""What came back on the head or on a tool was somewhere on its way. Rule of the trade; shares by hand.

Young plastic is coated with grease in 12 of 100 (rules/tables/conditions.yaml). Of those, 80 smear the head;
of the other 88 the grease of another stretch smears 4 in 100: 0.096 against 0.0352, so 73 of 100.
"""

from __future__ import annotations

import pytest

from advisor.site.believed import Believed
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.push.sites import WALK


def believed(material: str, year: int | None, sign: str) -> dict[str, float]:
    text = WALK.replace(
        "complaint: {holding: no}", f"complaint: {{holding: no}}, history: {{came back: [{sign}]}}"
    )
    believed = Believed(site_of_text(text, "site", tables()).model, tables())
    return dict(believed._remembered(tables().likely_condition(material, year)).options)


@pytest.mark.parametrize("year", [None, 1960, 1985, 2010])
@pytest.mark.parametrize(
    ("material", "sign", "found"),
    [("pvc", "grease", ["greasy"]), ("cast iron", "scale", ["moderate scale", "heavy scale"])],
)
def test_what_came_back_is_likelier_there_than_a_sound_pipe(material, year, sign, found):
    told = believed(material, year, sign)
    assert sum(told[name] for name in found) > 2 * told["sound"]


def test_grease_on_the_head_from_young_plastic():
    told = believed("pvc", 2010, "grease")
    assert told["greasy"] == pytest.approx(0.73, abs=0.01)
