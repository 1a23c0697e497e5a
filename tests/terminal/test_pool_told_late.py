"""Standing water that is told late is asked for its end; till that is told it bars as any other.

From a trial: told late, before open pipe that was told already, it barred nothing, and the bath was to be
run. As in tests/push/test_water_stands.py: with no end seen it may be what a stoppage holds.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import LOOKED, SIGHTING
from advisor.push.log.sighting import POOL
from tests.push.test_drains import ALL, FLOOR_PLUG, walk
from tests.terminal.test_now_shown import Told, pushed
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN, FOOT, job, push

__all__ = ["job", "push"]  # fixtures
LATE: Told = (SIGHTING, 8.0, {"what": POOL, "dry": False})
OPEN: Told = (SIGHTING, 9.5, {"what": "nothing"})
OUT: Told = (SIGHTING, 9.5, {"what": "nothing", "dry": True})
AWAY: Told = (LOOKED, 9.5, {"drains": True})


@pytest.mark.parametrize(
    ("told", "barred"),
    [
        ((LATE, OPEN), True),
        ((LATE, OPEN, OUT), False),
        ((LATE, OPEN, AWAY), False),
        (((SIGHTING, 8.0, {"what": POOL}), OPEN), False),  # told in its time it was asked as that was told
    ],
)
def test_open_pipe_told_before_it_is_no_end_of_it(told, barred):
    now = pushed(walk(), FLOOR_PLUG, *told, direction="downstream")
    assert now.not_to_run == (ALL if barred else frozenset())


def seen(job) -> list[tuple[str, float, bool | None]]:
    told = [each for each in standing(job) if each.kind == SIGHTING]
    return [(each.data["what"], round(each.counter / FOOT, 2), each.data.get("dry")) for each in told]


LATER = BEGIN + "r5\rn" + "r9\rn" + "l2" + "7\rw"  # at 7 ft, before the reading of 9 ft


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ("y8\r", [(POOL, 7, None), ("nothing", 8, True)]),
        ("y20\r8\r", [(POOL, 7, None), ("nothing", 8, True)]),
        ("y\r", [(POOL, 7, None), ("nothing", 9, True)]),
        ("n", [(POOL, 7, False)]),
        ("d", [(POOL, 7, False)]),
    ],
)
def test_its_end_is_asked_and_kept(job, push, keys, told):
    said = push(LATER + keys + "q")
    assert "Was its end seen, the lens out of it again?" in said
    assert seen(job) == [("nothing", 5, None), *told, ("nothing", 9, None)]


def test_where_it_was_not_seen_it_is_asked_with_the_next_open_reading(job, push):
    said = push(LATER + "n" + "r10\rn" + "y" + "r11\rn" + "q")
    assert said.count("The standing water told at 7 ft: is the lens out of it?") == 1
    assert seen(job)[-2:] == [("nothing", 10, True), ("nothing", 11, None)]
