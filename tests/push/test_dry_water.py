"""What joins further down than the head cannot pass the lens: that it stays dry tells nothing."""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import SIGHTING, WATER
from advisor.push.log.sighting import Read, Seen, Water
from advisor.push.track.checks import checks, passes
from tests.push.sites import UNKNOWN, WALK, tracker_on
from tests.terminal.test_now_shown import FLOOR_PLUG, pushed

# Past the kitchen line at 3.4 m, well before the bath line at 7.4 m.
AT_5 = [Water(1.6, "laundry tub", 20.0, side="behind"), Seen(3.4, "tie-in", 9.0), Read(5.0)]


@pytest.fixture(scope="module")
def tracker():
    return tracker_on(WALK, "floor plug", intent=UNKNOWN)


@pytest.mark.parametrize(("fixture", "low", "high"), [("kitchen sink", 0.8, 1), ("bath", 0, 0.05)])
def test_only_what_joins_above_the_head_must_pass_it(tracker, fixture, low, high):
    assert low <= passes(tracker, tracker.replay(AT_5), fixture) <= high


def test_with_nothing_left_on_the_map_no_water_must_pass(tracker):
    belief = tracker.replay(AT_5)
    nowhere = type(belief)(0 * belief.mass, belief.gone, belief.rod, 0.0, belief.rod, backed=False)
    assert passes(tracker, nowhere, "kitchen sink") == 0


def test_dry_it_leaves_where_the_head_may_be_as_it_was(tracker):
    """By hand: 0.97 on the map, where only other water could come by, and 0.85 in an unknown pipe."""
    before = tracker.replay(AT_5)
    after = tracker.after(before, Water(5.0, "bath", None))
    off = before.off_map
    assert after.off_map == pytest.approx(off * 0.85 / (off * 0.85 + (1 - off) * 0.97), abs=0.01)


def test_it_is_not_proposed_though_nothing_else_is_left_to_run():
    strange = [(SIGHTING, at, {"what": "bend"}) for at in (0.9, 1.6, 2.4)]
    dry = [(WATER, 2.4, {"fixture": name}) for name in ("kitchen sink", "laundry tub")]
    now = pushed(WALK, FLOOR_PLUG, *strange, *dry)
    assert now.fix.best.chance < 0.8, "it is unsure: a check would be proposed"
    left = checks(now.push.tracker, now.belief, frozenset({"kitchen sink", "laundry tub", FLOOR_PLUG}))
    assert left[0].fixture == "bath"
    assert left[0].bits > 0
    assert now.check is None
