"""What is forbidden in a cellar in which it comes up says until when, and can be done in the order told.

From a trial: step 1 forbade water and every plug down there, step 7 ran water, and the plug of the
plan was down there. Common practice, no source: nothing is opened under standing water; what stands is let
down from outside, or pumped out where nothing outside lets it down; only then comes a plug.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.outcome.at_door import NOTHING_TOLD, AtDoor
from advisor.plan import plan
from advisor.result.before import steps_of
from tests.cases.jobs import rules, tables
from tests.cases.test_every_rule import case

RUN, OPEN = ("run no water", "Run no water"), ("loosen no", "Loosen no")


def steps(name: str, told: AtDoor = NOTHING_TOLD) -> tuple[str, ...]:
    made = replace(case(name), told=told, worlds=20)
    return steps_of(plan(made, tables(), rules()).site_firings, ()).before


@pytest.mark.parametrize("told", [NOTHING_TOLD, AtDoor(none_poured=True, drains=True)], ids=["plan", "door"])
def test_water_and_plugs_are_forbidden_until_it_is_seen_to_drain(told):
    found = steps("cellar, it comes up", told)
    until = "Before the line is seen to drain: run no water, loosen no plug and lift no cover down there."
    at = next(place for place, step in enumerate(found) if until in step)
    runs = next((place for place, step in enumerate(found) if "into one fixture above" in step), None)
    assert (runs is not None and at < runs) is told.drains
    assert all("efore" in step or "ntil" in step for step in found if any(each in step for each in RUN))


def test_where_it_holds_it_sinks_before_a_plug_down_there_is_touched():
    found = steps("cellar, it comes up and holds")
    below = next(step for step in found if any(each in step for each in OPEN))
    assert "Until it has sunk below a plug" in below
    told = [found.index(below)]
    for words in ("Open the lowest opening outside first", "Have it pumped out", "Clear it from"):
        told.append(next(place for place, step in enumerate(found) if words in step))
    assert told == sorted(told)


def test_a_house_may_have_no_chamber_outside():
    for name in ("cellar, it comes up", "cellar, it comes up and holds"):
        (chamber,) = (step for step in steps(name) if "floods back from beyond" in step)
        assert chamber.startswith("A chamber outside (never a tank)? Look into the last one, from the side.")
