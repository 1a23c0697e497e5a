"""What was tried, or held a push, in one mouth of a chamber is no word on another mouth of it.

From a trial: tries and stops of a push up one branch of the channel counted for the way up the next one, as
both leave the chamber upstream. Both branches are drawn alike, a bend 3 m up each: by hand the bend that was
told 3.3 m in lies up the mouth that the push was led into, and so does what held it 2 m in.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.outcome.assess import RouteOutcome
from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show
from tests.cases.jobs import rules, tables
from tests.push.test_chamber_mouths import CHAMBER
from tests.push.test_report import Told, entries
from tests.terminal.test_now_shown import case_of

BEND = "- pipe: 3 m\n      - bend: knuckle\n      - pipe: 3 m"
ALIKE = CHAMBER.replace("- pipe: 6 m", BEND).replace("- pipe: 2 m", BEND)
GEAR = "small head on small reel"
HELD: tuple[Told, ...] = (
    ("stopped", 2.0, {"sign": "rim ahead"}),
    ("try", 2.0, {"technique": "steady push", "outcome": "failed", "loadout": GEAR}),
    ("sighting", 3.3, {"what": "bend"}),
    ("stopped", 3.4, {"sign": "wall ahead"}),
    ("try", 3.4, {"technique": "quick push", "spot": "knuckle bend", "outcome": "failed", "loadout": GEAR}),
    ("end", 3.4, {"reached": False, "out": True}),
)


@cache
def planned(target: str, *mouths: str | None) -> RouteOutcome:
    """The way in from the chamber to one of the branches, after a push into each of these mouths."""
    text = ALIKE.replace("yard drain, from gutter line to public sewer", target)
    start = {"opening": "pit", "direction": "upstream", "loadout": GEAR}
    told = (each for mouth in mouths for each in (("start", 0.0, {**start, "mouth": mouth}), *HELD))
    case = as_pushes_show(replace(case_of(text), worlds=50), entries(*told), tables(), rules())
    study = plan(case, tables(), rules())
    ways = (each.outcome for each in study.ranked if each.outcome.route.opening.name == "pit")
    return next(way for way in ways if way.loadout.name == GEAR)


def failed(outcome: RouteOutcome) -> set[str]:
    return {name for hard in outcome.spots for name in hard.failed}


@pytest.mark.parametrize("target", ["annexe", "gutter line"])
def test_what_failed_counts_in_its_own_mouth_alone(target):
    way = planned(target, "annexe")
    assert failed(way) == ({"quick push"} if target == "annexe" else set())


@pytest.mark.parametrize("target", ["annexe", "gutter line"])
def test_what_held_a_push_counts_in_its_own_mouth_alone(target):
    way = planned(target, "annexe")
    assert [stop.at for stop in way.way.stops] == ([2.0] if target == "annexe" else [])


def test_where_nobody_knows_the_mouth_it_counts_in_any():
    way = planned("gutter line", None)
    assert failed(way) == {"quick push"}
    assert [stop.at for stop in way.way.stops] == [2.0]


def test_a_place_told_with_and_without_its_mouth_is_one():
    """By the rule of succession: it came past twice of twice, 3 of 4."""
    way = planned("annexe", "annexe", None)
    assert [(stop.at, stop.chance) for stop in way.way.stops] == [(2.0, pytest.approx(3 / 4))]
