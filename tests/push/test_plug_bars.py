"""A plug of grease, wipes or dirt over the whole bore bars every push until it is told as cleared.

From a trial: "grease plug, full bore" before the lens, and push, plan and card told to go slowly
past it. Common practice, no source: nobody drives a camera head into a plug. A lens in grease sees nothing
and push packs it tighter; it is drawn back, cleared, seen to drain and looked at again. A coat of grease or a
few wipes, past which the head sees its way, is passed slowly as before.
"""

from __future__ import annotations

import pytest

from advisor.card.text import card_text
from advisor.push.barring import barring
from advisor.push.before.limit import limit_of
from advisor.push.held_now import held_now
from advisor.push.log.kinds import FIND, PASSED, STOPPED, TRY
from advisor.push.met_before import met_before
from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.push.plan_anew import show_plan_anew
from advisor.terminal.push.water import warn_before_any
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_drains import FLOOR_PLUG, ran, walk
from tests.push.test_earlier_stop import numbered, said
from tests.push.test_found_again import BEGUN, OUT, again, read
from tests.push.test_found_plan import card_of_first
from tests.terminal.test_now_shown import TEE_PLUG, Told, pushed, study_of, tee

PLUG: Told = (FIND, 5.0, {"what": "grease plug, full bore"})
NOT_PAST = "Not past it before it is cleared"
CLEARED = cutter(5.6, TEE_PLUG, "downstream")

# As somebody beside the opening says them. Which of them leaves a head a way is common practice, no source.
WHOLE = (
    "grease plug, full bore",
    "Grease plug",
    "plug of grease",
    "plug of wipes over the whole bore",
    "wipes and paper, pipe blocked",
    "pipe choked with grease",
    "grease fills the pipe",
    "full of grease",
    "solid with fat",
    "wipes over the full bore",
    "paper packed solid",
    "grease, can't get past",
    "sludge, no way through",
    "total blockage",
    "silt, completely blocked",
    "grease, nearly closed",
    "grease 95 %",
    "grease 100%",
    "lint closes the pipe",
    "line plugged with rags",
    "grease plug not cleared yet",
    "grease plug must be cleared",
    "grease plug cleared, another plug behind it",
)
NOT_WHOLE = (
    "grease on the wall",
    "a coat of grease all round the pipe",
    "grease all along the pipe",
    "grease over the whole length of the pipe",
    "grease, half the bore",
    "pipe half full of grease",
    "a quarter of the pipe blocked by silt",
    "silt fills the bottom of the pipe",
    "bore a third blocked by silt",
    "pipe partly blocked by wipes",
    "grease 40 %",
    "pipe 40 % blocked with grease",
    "blocked to 40% with grease",
    "1/3 blocked with grease",
    "partial blockage",
    "small grease plug",
    "a few wipes on a joint",
    "wipes, not blocked",
    "no grease plug",
    "grease by the floor plug",
    "grease plug cleared",
    "plug was flushed, grease left",
    "paper, can't get past the step",
    "grease, can get past",
    "full bore",
)


@pytest.mark.parametrize(
    ("what", "bars"), [*((each, True) for each in WHOLE), *((each, False) for each in NOT_WHOLE)]
)
def test_what_fills_all_of_the_bore_bars_and_what_leaves_a_way_does_not(what, bars):
    finds = tables().finds
    assert [row.find for row in finds.that_bar(what)] == ["plug of grease or dirt"] * bars
    if bars:
        assert [row.advice for row in finds.advised(what, scales=True)] == ["clean"]


def test_a_root_mass_in_the_grease_is_told_as_the_root_mass():
    """The roots are cut, which takes more than clearing: that is what comes first."""
    first, *_ = tables().finds.that_bar("root mass and grease, full bore")
    assert first.find == "root mass"


@pytest.fixture(scope="module")
def study():
    return study_of(tee())


def test_before_the_plug_only_the_way_back_is_left(capsys):
    now = again(BEGUN, read(4.0), PLUG)
    told = said(now, capsys)
    assert NOT_PAST in told
    assert limit_of(now).before
    show_plan_anew(now, now.push.study, None, Page())
    anew = " ".join(capsys.readouterr().out.split())
    assert "Not past 5 m: grease plug, full bore" in anew
    assert "Have it cleared there first, see the line drain" in anew
    assert "Go on here" not in anew
    assert "cut" not in anew, "nobody cuts grease"


def test_a_head_that_is_told_as_held_there_is_not_pushed_and_nothing_is_tried():
    told = (STOPPED, 5.0, {"sign": "blocked, scale or grease", "feel": "soft"})
    found = held_now(again(BEGUN, read(4.0), PLUG, told))
    assert found is not None
    assert found.stop is not None
    assert found.tries == ()


def test_grease_that_leaves_a_way_is_passed_slowly(capsys):
    some: Told = (FIND, 5.0, {"what": "grease on the wall"})
    assert not limit_of(again(BEGUN, read(4.0), some)).before
    assert "Slowly, no blow. Look before it." in said(again(BEGUN, read(6.0), some, OUT, BEGUN), capsys)


@pytest.mark.parametrize("since", [(), (CLEARED,)])
def test_the_next_push_is_barred_until_it_is_told_as_cleared(since, study, capsys):
    told = said(again(BEGUN, read(5.0), PLUG, *since, OUT, BEGUN, read(4.8)), capsys)
    assert (NOT_PAST in told) is not bool(since)
    before = numbered(BEGUN, read(5.0), PLUG, *since, OUT)
    assert [entry.counter for entry, _ in barring(study, before)] == ([] if since else [5.0])


def test_plan_card_and_the_next_begin_say_it_in_the_same_words(study):
    after = plan_of(study, met_before(study, numbered(BEGUN, read(5.0), PLUG, OUT)))
    assert "no further than 4.7 m (grease plug, full bore)" in after.first_step
    assert "have cleared: grease plug, full bore, 5 m in" in after.first_step
    card = " ".join(card_text(card_of_first(after)).split())
    assert "4.7 m no further: grease plug, full bore" in card
    assert NOT_PAST in card
    (left,) = (note.left for note in after.found)
    assert NOT_PAST in left
    assert "Cleared since, the machine well past it" in left
    assert "Key u in a push takes it back." in left


def test_no_water_is_run_on_it_before_the_line_was_seen_to_drain(capsys):
    """All of house and laundry runs past the floor plug and on to 8 m: what is run comes up indoors."""
    plug: Told = (FIND, 8.0, PLUG[2])
    held = pushed(walk(), FLOOR_PLUG, read(8.0), plug, direction="downstream")
    assert held.not_to_run == {"laundry tub", "kitchen sink", "bath"}
    warn_before_any(held, Page())
    said_now = " ".join(capsys.readouterr().out.replace("┃", " ").split())
    assert "until the line is seen to drain: at 8 m was seen: grease plug, full bore." in said_now
    drained = pushed(walk(), FLOOR_PLUG, read(8.0), plug, ran("bath", drains=True), direction="downstream")
    assert drained.not_to_run == frozenset()
    coat: Told = (FIND, 8.0, {"what": "grease on the wall"})
    assert pushed(walk(), FLOOR_PLUG, read(8.0), coat, direction="downstream").not_to_run == frozenset()


def test_a_gentle_push_that_passed_where_it_was_seen_does_not_give_the_water_free():
    """The head went into it: what it pushed through closes behind it."""
    plug: Told = (FIND, 8.0, PLUG[2])
    by: Told = (TRY, 8.0, {"technique": "steady push", "outcome": PASSED})
    assert pushed(walk(), FLOOR_PLUG, read(8.0), plug, by, direction="downstream").doubtful


def test_on_the_way_home_from_it_nobody_is_told_to_run_water(capsys):
    now = pushed(walk(), FLOOR_PLUG, read(8.0), (FIND, 8.0, PLUG[2]), direction="downstream")
    show_coming_home(now, Page())
    assert " Run water." not in capsys.readouterr().out
