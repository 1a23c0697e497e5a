"""A line that is seen to stand in a push ends it on every screen: no water, no push on, the rod drawn out.

From a trial: he told that it stood, read once "stop all water now", and then no word of water, but
the next landmark and how to go on through the pool. Common practice, no source: no camera in a line that
stands; what was seen to stand may be let down and seen to drain again.
"""

from __future__ import annotations

import pytest

from advisor.push.held_now import held_now
from advisor.push.log.kinds import FIND, LOOKED, SIGHTING
from advisor.push.log.sighting import POOL
from advisor.terminal.push.hard import no_push
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_drains import FLOOR_PLUG, ROOTS, WALL, walk
from tests.push.test_found_again import read
from tests.push.test_wad_holds_water import WAD
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]  # fixture
STANDS: Told = (LOOKED, 8.0, {"drains": False})
RUNS: Told = (LOOKED, 8.0, {"drains": True})
SAYS = "no water, no push on. Draw it out by hand, gently"


def screen(shown, *told: Told) -> str:
    now = pushed(walk(), FLOOR_PLUG, *told, direction="downstream")
    return " ".join(shown(show_now, now).replace("│", " ").split())


@pytest.mark.parametrize("since", [(), (read(8.0),), ((SIGHTING, 8.0, {"what": POOL}),)])
def test_every_screen_after_it_says_so_and_nothing_that_lies_ahead(shown, since):
    said = screen(shown, read(8.0), (FIND, 8.0, {"what": WAD}), STANDS, *since)
    assert SAYS in said
    assert "Next:" not in said
    assert "only through a short pool" not in said
    assert "tells most" not in said


def test_what_is_seen_to_drain_again_is_gone_on_with(shown):
    said = screen(shown, read(8.0), STANDS, RUNS)
    assert SAYS not in said
    assert "Next:" in said


@pytest.mark.parametrize("stop", [WALL, ROOTS])
def test_a_head_that_is_held_there_is_got_out_and_nothing_is_tried(stop):
    """Two screens, one word: as where the rod is kinked."""
    now = pushed(walk(), FLOOR_PLUG, stop, STANDS, direction="downstream")
    held = held_now(now)
    assert held is not None
    assert held.over
    assert (held.tries, held.first) == ((), ())
    assert SAYS in (no_push(now) or "")
    free = held_now(pushed(walk(), FLOOR_PLUG, stop, STANDS, RUNS, direction="downstream"))
    assert free is not None
    assert not free.over


def test_the_plan_from_there_waits_till_it_is_seen_to_drain(shown):
    now = pushed(walk(), FLOOR_PLUG, read(8.0), STANDS, direction="downstream")
    said = " ".join(shown(show_plan_anew, now, now.push.study, None).split())
    assert SAYS in said
    assert "Once the line is seen to drain: 1." in said
    assert "If it is out: 1." not in said
