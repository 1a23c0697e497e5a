"""The head is in another mouth of an open channel than the one planned, both leading up to the house.

Common practice, no source: nothing turns a head from one mouth of a channel into the next. It is drawn back,
lifted out by the rod and led into the mouth that is wanted.
"""

from __future__ import annotations

import pytest

from advisor.push.disagree import disagree
from advisor.push.held.throat import wanted_throat
from advisor.push.log.kinds import DOWN, UNKNOWN, UP, WATER
from advisor.push.now.now import Now
from advisor.site.mouths import Mouth
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.push.test_chamber_mouths import CAME, CHAMBER, HOUSE, NOTHING
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]  # a fixture
SINK = (WATER, 3.0, {"fixture": "kitchen sink", "seconds": 4.0, "side": "ahead"})


def into_the_annexe(*told, direction: str = UP, text: str = CHAMBER) -> Now:
    """A push from the pit, to look at the annexe that joins in it."""
    text = text.replace("yard drain, from gutter line to public sewer", "annexe")
    text = text.replace("kind: inspection chamber", "kind: inspection chamber\n        depth: 600 mm")
    return pushed(text, "pit", *told, direction=direction)


@pytest.mark.parametrize("told", [(NOTHING, SINK), (SINK,)])
def test_the_water_of_the_drain_s_own_pipe_from_ahead_is_not_as_planned(told, shown):
    """The kitchen sink drains through the drain's own mouth alone."""
    now = into_the_annexe(*told)
    assert now.fix.best.line == "yard drain"
    assert any("another mouth of pit" in each for each in disagree(now))
    found = wanted_throat(now)
    assert found is not None
    assert found.mouth == "of annexe"
    said = shown(show_plan_anew, now, now.push.study, None)
    assert said.startswith("NOT AS PLANNED")
    assert said.index("lift it out by the rod") < said.index("the mouth of annexe") < said.index("If that")
    assert "Draw back to the way planned" not in said


@pytest.mark.parametrize("direction", [UP, UNKNOWN])
@pytest.mark.parametrize("told", [(), (NOTHING,), (NOTHING, CAME)])
def test_what_tells_no_other_mouth_is_as_planned(told, direction):
    assert into_the_annexe(*told, direction=direction).wrong_port is None


def test_told_as_downstream_it_is_in_the_outlet():
    assert disagree(into_the_annexe(NOTHING, direction=DOWN))
    assert into_the_annexe(NOTHING, direction=DOWN).wrong_port.port == "up"


@pytest.mark.parametrize("fitting", ["unknown", "45 degree branch"])
def test_no_mouth_is_named_that_may_be_a_branch_of_a_closed_pipe(fitting):
    now = into_the_annexe(NOTHING, SINK, text=HOUSE.replace("FITTING", fitting))
    assert now.wrong_port in (None, Mouth("down"))
    assert (wanted_throat(now) is None) is (now.wrong_port is None)
