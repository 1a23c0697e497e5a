"""What is not sure is not told in words that are: places in their order, which way is down, what holds it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.held_now import held_now
from advisor.push.log.kinds import SIGHTING, STOPPED
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.held_where import held_words
from advisor.terminal.push.here import show_now
from tests.push.sites import WALK
from tests.terminal.test_now_shown import FLOOR_PLUG, TEE_PLUG, pushed, tee


def screen(now: Now, capsys) -> str:
    capsys.readouterr()
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.split())


def fixed(off_map: float, *chances: float) -> Now:
    """A push of which it is as sure as this in which pipe it is; by its line the first is likelier."""
    now = pushed(WALK, FLOOR_PLUG, (SIGHTING, 2.0, {"what": "nothing"}), direction="unknown")
    places = tuple(replace(p, chance=c) for p, c in zip(now.fix.places, chances, strict=False))
    now.__dict__["fix"] = replace(now.fix, places=places, off_map=off_map)
    return now


@pytest.mark.parametrize("chances", [(0.24, 0.29), (0.29, 0.24)])
def test_the_likelier_of_two_places_stands_first(chances, capsys):
    said = screen(fixed(0.0, *chances), capsys)
    assert said.index("(29 %)") < said.index("(24 %)")


@pytest.mark.parametrize(("off_map", "told"), [(0.71, True), (0.1, False)])
def test_of_a_pipe_that_nobody_drew_it_is_not_told_which_way_is_down(off_map, told, capsys):
    assert ("If it is in a pipe of the map, " in screen(fixed(off_map, 0.24, 0.2), capsys)) is told


@pytest.mark.parametrize(("what", "told"), [("chamber", True), ("tie-in", False)])
def test_light_from_above_where_no_chamber_is_drawn_may_be_a_vent(what, told, capsys):
    said = screen(pushed(tee(), TEE_PLUG, (SIGHTING, 1.0, {"what": what})), capsys)
    assert "No landmark of the map is sure" in said
    assert ("may be the sky in a vent pipe" in said) is told


@pytest.mark.parametrize(
    ("share", "off_map", "sure"), [(0.9, 0.0, True), (0.6, 0.0, False), (0.9, 0.5, False)]
)
def test_where_it_is_held_is_told_as_sure_as_it_is(share, off_map, sure):
    now = pushed(tee(), TEE_PLUG, (STOPPED, 2.0, {"sign": "wall ahead"}))
    found = held_now(now)
    (met, _), *rest = now.spots_told
    now.__dict__["spots_told"] = ((met, share), *((each, 0.0) for each, _ in rest))
    now.__dict__["fix"] = replace(now.fix, off_map=off_map)
    assert found.spot == met.name
    assert held_words(found, now) == f"Held{'' if sure else ', perhaps'} at the {met.name}"
