"""Open pipe that one push saw ends no standing water that another told: each has its own way and counter."""

from __future__ import annotations

from advisor.push.log.kinds import END, SIGHTING, START
from advisor.push.log.pools import open_pools
from tests.push.test_earlier_stop import numbered

BEGUN = (START, 0.0, {"opening": "floor plug", "direction": "downstream"})
POOL = (SIGHTING, 3.0, {"what": "standing water"})
DRY = (SIGHTING, 5.0, {"what": "nothing"})
OUT = (END, 3.0, {"reached": False, "out": True})


def test_the_end_is_seen_in_the_same_push_or_not_at_all():
    assert open_pools(numbered(BEGUN, POOL, DRY, OUT)) == ()
    assert open_pools(numbered(BEGUN, POOL, OUT, BEGUN, DRY)) == (1,)
