"""As a push begins it is asked whether what an earlier one saw was cleaned out since, and a run is logged.

From a trial: the plan said "first have cleaned out", and no question took the answer before
the head was in again. Common practice, no source: only a machine that is known to have come past it, all of
the rod out, takes a bar away.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import MACHINE
from tests.terminal.test_push_session import job, push, told
from tests.terminal.test_push_water import FREE, entry

__all__ = ["job", "push"]  # fixtures
SAW = "11ys\r\r" + "r5\rn" + "ffwad of wipes, pipe 3/4 shut\r\r3d" + "en\ry"
ASKED = "A push saw wad of wipes, pipe 3/4 shut"
FIRST = "First have cleaned out: "


@pytest.fixture
def saw(job, push):
    job.site.write_text(FREE)
    assert ASKED not in push(SAW), "nothing was seen before the first"
    return job


def test_a_run_past_it_is_logged_as_key_f_does_and_not_asked_again(saw, push):
    said = push("y" + "jy1s40\rn" + "b")
    assert said.index(ASKED) < said.index("Noted: a water jet was run")
    run = entry(saw, MACHINE)
    assert (run["what"], run["outside"], run["direction"]) == ("a water jet", True, "downstream")
    after = said.partition("Noted: a water jet was run")[2]
    assert FIRST.lower() not in after.lower()
    assert ASKED not in push("b")


@pytest.mark.parametrize("key", ["n", "d"])
def test_no_and_not_known_keep_every_bar_and_ask_the_next_time(saw, push, key):
    said = push(key + "b")
    assert FIRST.lower() in said.partition(ASKED)[2].lower()
    assert MACHINE not in dict(told(saw))
    assert ASKED in push("b")


def test_a_run_of_which_not_all_is_known_settles_nothing(saw, push):
    said = push("y" + "jy1s\rn" + "b")
    assert FIRST.lower() in said.partition("Noted: a water jet was run")[2].lower()
