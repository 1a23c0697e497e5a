"""What shuts a good part of the bore may hold water, whether or not a head comes past it: see it drain first.

From a trial: "wad of wipes, pipe 3/4 shut" before the lens, in at a bare closet flange, and the
bath was to be run for two minutes. Rule of the trade: water that is run above a stoppage comes up at the
lowest opening, here the one in use. What leaves the bore open (a coat, a few wipes, hairs of root) holds no
tap back.
"""

from __future__ import annotations

import pytest

import advisor.terminal.push.look_first as look_first_module
from advisor.push.log.kinds import FIND
from advisor.terminal.choose import BACK
from advisor.terminal.page import Page
from advisor.terminal.push.look_first import look_first, to_be_seen
from advisor.terminal.push.water import show_check, warn_before_any
from advisor.terminal.push.words import Words
from tests.cases.jobs import tables
from tests.push.test_drains import FLOOR_PLUG, ran, walk
from tests.push.test_found_again import read
from tests.terminal.test_now_shown import Told, pushed

WAD = "wad of wipes and a toothbrush caught at a joint, pipe 3/4 shut"

# As somebody beside the opening says them. Which of them may hold water is common practice, no source.
MAY_HOLD = (
    WAD,
    "pipe 3/4 shut",
    "wipes, pipe three quarters closed",
    "bore half closed by a brick",
    "wipes, only a third open",
    "grease, pipe 2/3 closed off",
    "75 % closed",
    "clump of rags",
    "soft blockage",
    "hair clog",
    "toy stuck in the bend",
    "offset closes half the bore",
    "grease plug, full bore",
    "root mass",
)
LETS_BY = (
    "a few wipes on a joint",
    "grease on the wall",
    "roots, fine hairs",
    "step at the joint, 5 mm",
    "a quarter of the pipe shut",
    "lower third of the wall rough",
    "crack all round",
    "no blockage",
    "wipes, not stuck",
)


@pytest.mark.parametrize(("what", "holds"), [*((w, True) for w in MAY_HOLD), *((w, False) for w in LETS_BY)])
def test_what_fills_a_good_part_of_the_bore_may_hold_water(what, holds):
    assert tables().finds.may_hold_water(what) is holds


@pytest.mark.parametrize("what", ["roots, pipe 3/4 shut", "roots, only a third open"])
def test_roots_that_shut_that_much_bar_as_a_mass_does(what):
    """Three quarters in figures as in words: no head goes into that."""
    assert tables().finds.that_bar(what)


def told(what: str, *since: Told):
    """8 m down from the floor plug, past kitchen and bath line: all of the house runs there from behind."""
    find: Told = (FIND, 8.0, {"what": what})
    return pushed(walk(), FLOOR_PLUG, read(8.0), find, *since, direction="downstream")


def test_no_fixture_above_a_wad_is_run_before_the_line_is_seen_to_drain(capsys):
    now = told(WAD)
    assert not tables().finds.that_bar(WAD), "a head that sees its way goes past it slowly"
    assert now.not_to_run == {"laundry tub", "kitchen sink", "bath"}
    assert to_be_seen(now)
    warn_before_any(now, Page())
    show_check(now, Page(), Words(now), sure=True)
    said = " ".join(capsys.readouterr().out.replace("┃", " ").split())
    assert "Run nothing until the line is seen to drain: at 8 m was seen: wad of wipes" in said
    assert "No water test until the line is seen to drain" in said
    assert "tells most" not in said


def test_once_it_was_seen_to_drain_past_the_wad_water_tells_again():
    assert told(WAD, ran("bath", drains=True)).not_to_run == frozenset()


@pytest.mark.parametrize(("sure", "told_again"), [(True, False), (False, True)])
def test_further_on_it_is_told_where_water_would_be_asked_for(sure, told_again, capsys):
    """Where the place is sure nobody is told to run any, and key w tells it again."""
    now = told(WAD, read(8.5))
    show_check(now, Page(), Words(now), sure)
    assert ("No water test until the line is seen to drain" in capsys.readouterr().out) is told_again


def test_a_few_wipes_keep_nobody_from_running_water():
    assert told("a few wipes on a joint").not_to_run == frozenset()


def test_the_opening_in_use_is_watched_too(monkeypatch, capsys):
    """Its plug is out: it may be the lowest of all, and then water comes up there first."""
    monkeypatch.setattr(look_first_module, "choose", lambda page, asked, choices, keys: BACK.key)
    look_first(told(WAD), Page())
    said = " ".join(capsys.readouterr().out.split())
    assert f"Somebody watches the lowest fixture and {FLOOR_PLUG}, which stands open, and says stop" in said
