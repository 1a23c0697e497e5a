"""What held a push elsewhere and stands in the chance of this way is not told as known to no chance.

From a trial: "No chance here knows of what held a push ... at 38.5 ft", and under it "To see it all then:
even (47 %)", which is the chance that knows it: whoever reads both takes still more off.
"""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest

from advisor.push.before.elsewhere import Elsewhere
from tests.cases.jobs import tables
from tests.push.test_stop_elsewhere import from_top, held_at, met_on
from tests.push.test_stop_in_chance import AT

WAY = from_top()
LIES = Elsewhere("what held a push", "", True, 8.0, 9.0, 7.5, (), False, ("yard plug", AT))


def made(counts: bool) -> SimpleNamespace:
    way = replace(WAY.way, stops=met_on(held_at()) if counts else ())
    return SimpleNamespace(ranked=(SimpleNamespace(outcome=replace(WAY, way=way)),))


def push(opening: str) -> SimpleNamespace:
    return SimpleNamespace(
        opening=SimpleNamespace(name=opening), loadout=WAY.loadout, study=SimpleNamespace(tables=tables())
    )


@pytest.mark.parametrize("counts", [True, False])
def test_it_is_known_where_the_way_counts_it(counts):
    assert LIES.counted_in(made(counts), push("top plug")) is counts


@pytest.mark.parametrize(
    "other",
    [
        replace(LIES, held=None),  # seen, and held nothing
        replace(LIES, held=("yard plug", AT + 1)),
        replace(LIES, held=("sink", AT)),
    ],
)
def test_another_thing_is_known_to_none(other):
    assert not other.counted_in(made(True), push("top plug"))


def test_nor_is_it_known_to_the_chance_of_another_way():
    assert not LIES.counted_in(made(True), push("sink"))
