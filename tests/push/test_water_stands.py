"""Standing water whose end nobody saw may be a full line: no fixture is run till it is seen to fall.

From a trial: the head was told to be under water, and the water test was offered all the same. Common
practice, no source: water before the lens, with no end seen, may be what a stoppage holds; a sag of known
length in a pipe that runs lets a tap by.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, LOOKED, RESET, SIGHTING, STOPPED
from advisor.push.log.sighting import POOL
from advisor.terminal.push.look_first import look_first, to_be_seen
from advisor.terminal.push.water import show_check, warn_before_any
from advisor.terminal.push.words import Words
from tests.cases.jobs import tables
from tests.push.test_drains import ALL, FLOOR_PLUG, walk
from tests.push.test_water_held_before import DOWN, OUT, after
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]  # fixture
WATER: Told = (SIGHTING, 8.0, {"what": POOL})
ON: Told = (SIGHTING, 9.0, {"what": POOL})
ENDED: Told = (SIGHTING, 8.6, {"what": "nothing", "dry": True})
PAST: Told = (SIGHTING, 9.5, {"what": "nothing"})
DRAINED: Told = (LOOKED, 8.0, {"drains": True})
UNDER: Told = (STOPPED, 8.0, {"sign": "water over the lens"})
RISES: Told = (LOOKED, 8.0, {"drains": False})


@pytest.mark.parametrize(
    "told", [(WATER,), (WATER, ON), (WATER, (BACK, 7.0, {})), (UNDER,), (WATER, ENDED, ON)]
)
def test_no_fixture_above_water_whose_end_was_not_seen_is_run(told):
    now = pushed(walk(), FLOOR_PLUG, *told, direction="downstream")
    assert now.not_to_run == ALL
    assert now.check is None
    assert to_be_seen(now)


@pytest.mark.parametrize("told", [(WATER, ENDED), (WATER, PAST), (WATER, ON, PAST), (WATER, DRAINED)])
def test_a_pool_of_known_length_bars_none_nor_one_that_was_seen_to_drain(told):
    now = pushed(walk(), FLOOR_PLUG, *told, direction="downstream")
    assert not now.not_to_run


def test_a_counter_set_anew_makes_no_end_of_it():
    anew: tuple[Told, ...] = ((RESET, 8.0, {"now": 20.0}), (SIGHTING, 19.0, {"what": "nothing"}))
    now = pushed(walk(), FLOOR_PLUG, WATER, *anew, direction="downstream")
    assert now.not_to_run == ALL


def test_it_is_said_first_to_see_whether_it_falls(shown, monkeypatch):
    now = pushed(walk(), FLOOR_PLUG, WATER, direction="downstream")
    why = "until the line is seen to drain: at 8 m was seen: standing water, its end not seen."
    said = " ".join(shown(warn_before_any, now).replace("┃", "").split())
    assert f"Run nothing {why}" in said
    asked = " ".join(shown(lambda now, page: show_check(now, page, Words(now), sure=True), now).split())
    assert f"No water test {why}" in asked
    monkeypatch.setattr("advisor.terminal.push.look_first.choose", lambda *_: "d")
    steps = shown(look_first, now)
    assert steps.index("does it fall") < steps.index("One cup")


def test_the_next_push_knows_of_it():
    assert after(DOWN, WATER, OUT, DOWN).not_to_run == ALL
    assert not after(DOWN, WATER, ENDED, OUT, DOWN).not_to_run


@pytest.mark.parametrize(
    ("what", "holds"),
    [
        ("line full of water", True),
        ("pipe full", True),
        ("head under water", True),
        ("standing water", True),
        ("water rising", True),
        ("sag, standing water", False),
        ("standing water 2 ft long", False),
        ("a little standing water", False),
        ("pipe half full of water", False),
        ("water not rising", False),
    ],
)
def test_in_words_a_full_line_holds_water_and_a_sag_that_holds_a_little_does_not(what, holds):
    assert tables().finds.may_hold_water(what) is holds
