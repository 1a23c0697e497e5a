"""A hard place that was read on the way stands at its reading: no second place for it, ahead of the head.

From a trial: "7 ft past where bathroom stack joins" at 65 ft, and in the box below that the joint
lay at "63.5 ft to 66.6 ft".
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, SIGHTING
from advisor.push.now.hard_ahead import hard_ahead
from tests.terminal.test_now_shown import TEE_PLUG, Told, pushed, tee

READ: Told = (SIGHTING, 2.5, {"what": "bend"})  # the tee out of the branch, which the sheet has at 2 m
SHORT = tee().replace("map: measured", "map: guess")


def ahead(*told: Told):
    now = pushed(SHORT, TEE_PLUG, *told)
    return hard_ahead(now, now.push.course.hard)


@pytest.mark.parametrize("counter", [3.1, 3.5])
def test_past_its_reading_it_is_not_ahead(counter):
    assert ahead(READ, (SIGHTING, counter, {"what": "nothing"})) is None


@pytest.mark.parametrize("told", [(), ((SIGHTING, 2.7, {"what": "nothing"}),)])
def test_where_the_stiff_end_may_still_be_in_it_it_is(told):
    """A head with its spring is half a metre and less."""
    assert ahead(READ, *told) is not None


def test_drawn_back_it_comes_again_at_its_reading():
    found = ahead(READ, (BACK, 1.0, {}))
    assert found is not None
    assert found.likely == pytest.approx(2.5)
    assert found.low < 2.5 < found.high
    assert found.slow_from < found.low


def test_where_it_was_not_read_it_is_where_the_sheet_has_it():
    found = ahead((SIGHTING, 1.0, {"what": "nothing"}))
    assert found is not None
    assert found.low < 2.1 < found.high
