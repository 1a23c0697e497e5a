"""What cannot hold the head is not told: a spot that lies behind it, a cause that the way has nothing for.

Readings and sheet are those of a push that told the square turn at its own opening, passed at 0.4 ft, for a
stop at 12.5 ft, and a head too long for the turn in a line without one.
"""

from __future__ import annotations

import pytest

from advisor.push.held_now import held_now
from advisor.push.log.kinds import BACK, PASSED, SIGHTING, STOPPED
from advisor.push.now.causes import causes_of
from advisor.push.now.evidence import weights_of
from advisor.push.now.now import Now
from advisor.push.now.turn_near import near_here
from tests.cases.jobs import tables
from tests.push.sites import WALK
from tests.terminal.test_held_here import SEWER, held
from tests.terminal.test_now_shown import TEE_PLUG, pushed, tee, tried

JAM = {"far wall", "rod end sticks", "wrong way", "crossed over", "head jams"}  # by their own words at a turn
SINK = """
site: invented
region: north america
built: 1986
map: measured
lines:
  - line: kitchen line
    size: 2 in
    material: ABS
    pieces:
      - fixture: kitchen sink
      - pipe: 3 m
      - bend: 1/4 bend
      - pipe: 8 m
      - end: public sewer
task: {look at: kitchen line, complaint: {holding: no, chemicals: no}}
"""


def spots(now: Now) -> set[str]:
    return {met.name for met, _ in now.spots_here}


def test_a_spot_that_a_try_passed_is_not_what_holds_it_further_in():
    stop = (STOPPED, 2.0, {"sign": "wall ahead"})
    tee_name = "sanitary tee into house drain"
    at_it = pushed(tee(), TEE_PLUG, stop)
    again = pushed(tee(), TEE_PLUG, stop, tried(PASSED), (STOPPED, 2.0, {"feel": "dead"}))
    past = pushed(tee(), TEE_PLUG, stop, tried(PASSED), (STOPPED, 2.6, {"feel": "dead"}))
    before = pushed(tee(), TEE_PLUG, stop, tried(PASSED), (BACK, 1.0, {}), (STOPPED, 1.9, {"feel": "dead"}))
    assert [tee_name in spots(now) for now in (at_it, again, past, before)] == [True, True, False, True]


def test_the_turn_at_the_opening_does_not_hold_a_head_metres_further_in():
    near, far = (
        pushed(
            SINK, "kitchen sink", (SIGHTING, at - 0.1, {"what": "nothing"}), (STOPPED, at, {"feel": "dead"})
        )
        for at in (0.2, 6.0)
    )
    entry = {met.name for met in near.push.course.spots if met.hard.passage.step is not None}
    assert entry
    assert entry & spots(near)
    assert not entry & spots(far)


@pytest.mark.parametrize("signs", [{"rim ahead", "dead", "will not come back"}, {"dead"}, {"wall ahead"}])
def test_in_a_line_without_a_turn_nothing_is_held_by_one(signs):
    now = held()  # straight sewer from its end cleanout
    assert not now.push.course.turns
    found = held_now(Now(now.push, now.entries))
    assert found is not None
    assert not JAM & {cause.name for cause in found.named}
    told = causes_of(now.push.course, None, frozenset(signs), weights_of(now.push.course, ()))
    bent = pushed(SINK, "kitchen sink", (STOPPED, 6.0, {"feel": "dead"})).push.course
    assert bent.turns
    other = causes_of(bent, None, frozenset(signs), weights_of(bent, ()))
    for name in JAM:
        straight, turning = (next(c for c in each if c.name == name) for each in (told, other))
        assert not straight.drawn
        assert turning.drawn
        assert 0 < straight.chance < turning.chance


def test_where_only_a_turn_explains_it_the_sheet_is_told_to_be_wrong():
    now = held()
    signs = frozenset({"both ways dark", "wall ahead", "springs back"})
    first = causes_of(now.push.course, None, signs, weights_of(now.push.course, ()))[0]
    assert first.name == "far wall"
    assert first.why.endswith(tables().stuck.not_drawn.format(needs="way out of a branch"))


def test_out_of_a_branch_is_told_only_where_the_way_has_one():
    """A bend turns the head, and throws it across no main."""
    bent = SEWER.replace("pipe: 18 m\n", "pipe: 15 m\n      - bend: 1/8 bend\n      - pipe: 3 m\n")
    for text, turns, branches in ((SEWER, False, False), (bent, True, False)):
        of = held(text).push.course
        assert (of.turns, of.branches) == (turns, branches)
        drawn = {cause.name: cause.drawn for cause in causes_of(of, None, frozenset(), weights_of(of, ()))}
        assert (drawn["head jams"], drawn["far wall"], drawn["wrong way"]) == (turns, branches, branches)
    assert pushed(SINK, "kitchen sink", (STOPPED, 6.0, {"feel": "dead"})).push.course.branches


@pytest.mark.parametrize(("at", "first"), [(3.2, True), (8.0, False)])
def test_what_takes_a_turn_is_told_near_one_and_not_metres_past_it(at, first):
    """The bend lies 3 m in. A head held 8 m in was told to be too long for "the turn", before all else."""
    now = pushed(
        SINK, "kitchen sink", (SIGHTING, at - 0.2, {"what": "nothing"}), (STOPPED, at, {"feel": "dead"})
    )
    chances = dict(near_here(now))
    assert (chances["turn"] > 0.5) is first
    assert chances["way out of a branch"] < 0.1
    told = held_now(now)
    assert told is not None
    names = {cause.name for cause in told.named}
    assert ("head jams" in names or bool(told.spot)) is first
    assert "far wall" not in names


@pytest.mark.parametrize(
    ("opening", "at", "way", "out"), [("yard cleanout", 4.4, "upstream", False), ("bath", 4.1, "known", True)]
)
def test_past_a_mouth_or_into_one_a_head_runs_at_no_far_wall(opening, at, way, out):
    """Up the main the mouth of the bath line comes 4.4 m in; out of the bath line the main does after 4 m."""
    now = pushed(WALK, opening, (STOPPED, at, {"sign": "both ways dark"}), direction=way)
    chance = dict(near_here(now))["way out of a branch"]
    assert chance > 0.5 if out else chance < 0.1
    found = held_now(now)
    assert found is not None
    assert all(cause.drawn == out for cause in found.causes if cause.name == "far wall")
