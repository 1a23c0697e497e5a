"""Held where the plan has no hard place: what it knows of the pipe there is told, with its chance."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace

import pytest

import tests.terminal.test_now_shown as beside
from advisor.push.held.stuck import stuck
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED
from advisor.push.log.log import Entry
from advisor.push.now.here import Here, likely_here, pieces_here
from advisor.push.now.now import Now
from advisor.push.onward import onward
from advisor.terminal.push import stuck as stuck_screen
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from advisor.terminal.push.stuck import show_stuck
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import pushed

shown = beside.shown  # fixture
SEWER = """
site: invented
region: north america
built: 1950
map: measured
lines:
  - line: sewer
    size: 6 in
    material: clay
    pieces:
      - opening: yard cleanout
        kind: end cleanout
        depth: 0.9 m
      - pipe: 18 m
      - end: public sewer
task: {look at: sewer, complaint: {holding: no, chemicals: no}}
"""
SAGGING = SEWER.replace("pipe: 18 m", "pipe: 10 m\n      - belly: 4 m\n      - pipe: 4 m")


def held(text: str = SEWER, at: float = 12.0, opening: str = "yard cleanout") -> Now:
    return pushed(text, opening, (SIGHTING, at - 2, {"what": "nothing"}), (STOPPED, at, {"feel": "dead"}))


def said(shown, now: Now) -> str:
    found = stuck(now.push.course, now.held_at[0], now.signs, now.tries, now.belief.rod, pieces_here(now))
    assert not found.spot
    return shown(show_stuck, found, now)


def test_roots_at_the_joints_of_old_clay_are_told_with_the_share_of_the_table(shown):
    """The table of usual conditions gives roots in so many of the clay pipes laid before 1960."""
    rows = tables().files.conditions.likely.shares["clay"].rows
    share = next(dict(shares)["roots"] for until, shares in rows if until == 1960)
    told = said(shown, held())
    assert "HELD WHERE THE PLAN HAS ROOTS IN SEWER" in told, "its card names that run a hard place"
    assert f"- roots at the joints ({share:.0%})" in told
    assert "Nothing that the plan knows" not in told


def test_what_the_sheet_says_of_the_pipe_is_no_chance(shown):
    rooty = SEWER.replace("material: clay", "material: clay\n    condition: roots")
    assert "- roots at the joints (as the sheet has it)" in said(shown, held(rooty))


def test_a_sound_pipe_makes_nothing_likely_and_that_is_told(shown):
    sound = SEWER.replace("material: clay", "material: pvc\n    condition: sound")
    told = said(shown, held(sound))
    assert "HELD WHERE THE PLAN HAS NO HARD PLACE" in told
    assert "Nothing that the plan knows of this pipe makes a stop here likely." in told
    assert "- roots" not in told


def test_a_stop_where_the_complaint_points_is_no_surprise(shown):
    """From a trial: roots held the head where the plan put the stoppage with 81 %, and it read
    that nothing made a stop there likely."""
    text = SEWER.replace("material: clay", "material: pvc\n    condition: sound")
    text = text.replace(
        "- pipe: 18 m", "- pipe: 1 m\n      - joined by: side\n        fitting: wye\n      - pipe: 17 m"
    )
    side = "  - line: side\n    size: 2 in\n    pieces:\n      - fixture: basin\n      - pipe: 3 m\n"
    now = held(text.replace("task:", f"{side}task:").replace("holding: no", "holding: no, backs up: [basin]"))
    (there,) = (each for each in now.push.study.suspects if each.upper == "side" and each.line == "sewer")
    told = said(shown, now)
    assert f"By the complaint the trouble lies in this section: {there.share:.0%}, no proof." in told
    assert "Nothing that the plan knows" not in told
    now.__dict__["fix"] = replace(now.fix, off_map=0.82)
    assert "If it is in a pipe of the map, by the complaint the trouble lies in this" in said(shown, now)


@pytest.mark.parametrize(("off_map", "lead"), [(0.82, "If it is in a pipe of the map"), (0.0, "")])
def test_what_the_plan_holds_is_told_of_a_pipe_of_the_map(off_map, lead, shown):
    """Of one that nobody drew it holds nothing."""
    now = held()
    now.__dict__["fix"] = replace(now.fix, off_map=off_map)
    told = said(shown, now)
    assert (f"{lead}: what the plan holds of it," in told) is bool(lead)
    assert ("What the plan holds of this pipe," in told) is not bool(lead)


@pytest.mark.parametrize(("at", "low", "high"), [(12.9, 0.9, 1.0), (4.0, 0.0, 0.0)])
def test_a_sag_that_is_drawn_is_told_as_far_as_the_head_may_be_in_it(at, low, high):
    """In by 0.9 m of shaft it lies from 10.9 m to 14.9 m: its middle, and far before it."""
    assert low <= likely_here(held(SAGGING, at)).sag <= high


def test_at_the_edge_of_a_sag_water_that_nobody_told_speaks_against_it():
    # By Bayes: even odds by the counter; in the sag its water is told with p, so not with 1 - p.
    seen = tables().where.seen["standing water"].p.likely
    assert likely_here(held(SAGGING, 10.9)).sag == pytest.approx((1 - seen) / (2 - seen), abs=0.05)


def test_a_pipe_that_leaves_no_room_for_the_head_is_told():
    """The head of the kit is 25 mm wide: 3/4 in pipe leaves no room for it, six inches leave any."""
    narrow = SEWER.replace("6 in", "3/4 in").replace("material: clay", "material: pvc\n    condition: sound")
    assert likely_here(held(narrow)).narrow == pytest.approx(1)
    assert likely_here(held(narrow.replace("3/4 in", "6 in"))).narrow == 0


def test_hard_places_near_by_are_told_as_places_where_it_may_be_all_the_same(shown):
    """Half a metre before the tee, and 6 m behind it."""
    near, far = (held(beside.tee(), at, beside.TEE_PLUG) for at in (1.4, 8.0))
    assert [name for name, _ in likely_here(near).spots] == ["sanitary tee into house drain"]
    assert not likely_here(far).spots
    assert "It may be held at the sanitary tee" not in said(shown, far)


def test_two_runs_of_one_name_are_told_once_with_what_both_come_to():
    """By hand: 12 and 9 of a hundred are 21."""
    now = held()
    roots = SimpleNamespace(name="roots in yard drain")
    now.__dict__["spots_told"] = ((roots, 0.12), (SimpleNamespace(name="bend"), 0.15), (roots, 0.09))
    assert likely_here(now).spots == (("roots in yard drain", pytest.approx(0.21)), ("bend", 0.15))


def test_sag_room_and_hard_places_are_told_with_their_chances(shown, monkeypatch):
    here = Here((), 0.2, 0.1, (("wye into main", 0.3),))
    monkeypatch.setattr(stuck_screen, "likely_here", lambda now: here)
    told = shown(stuck_screen._here, held(SEWER))
    assert "- a sag, where water may stand over the lens (20%)" in told
    assert "- less room left than the head needs (10%)" in told
    assert "It may be held at the wye into main (30%)." in told


def by_roots(signs: str = "blocked, roots", text: str = SEWER) -> Now:
    told = (STOPPED, 12.0, {"sign": signs, "feel": "soft"})
    sound = text.replace("material: clay", "material: pvc\n    condition: sound")
    return pushed(sound, "yard cleanout", (SIGHTING, 10.0, {"what": "nothing"}), told)


def test_every_screen_tells_of_what_holds_it_and_nothing_of_what_lies_behind(shown):
    """From a trial: told "not a bit further" at roots, then, on the main list, what comes next and
    a chance to see it all."""
    said = shown(show_now, by_roots())
    box = said.partition("HELD HERE")[2]
    assert "At 12 m (roots; it feels soft)." in box
    assert "Roots at a joint hold the head: likely" in box
    assert "Not a bit further." in box
    assert "Roots that do not part are cut" in box
    assert "Next:" not in said
    plan = shown(show_plan_anew, by_roots(), by_roots().push.study, onward(by_roots().push.study, by_roots()))
    assert "Not past 12 m, where it was stopped. Draw back" in plan
    assert "only once the roots there are cut" in plan
    assert "see it all" not in plan


def test_where_it_is_not_clear_what_holds_it_the_box_names_no_cause(shown):
    box = shown(show_now, held(at=6.0)).partition("HELD HERE")[2]
    assert "At 6 m (it feels dead and hard)." in box
    assert "Draw back a hand's breadth" in box
    assert "likely (" not in box.partition("Roots may stand")[0]


def test_free_again_it_is_held_here_no_longer(shown):
    now = by_roots()
    back = Entry(9, now.entries[-1].told_at, now.entries[-1].told_at, BACK, 11.0, {})
    said = shown(show_now, Now(now.push, (*now.entries, back)))
    assert "HELD HERE" not in said
    assert "Do not go past 12 m." in said
