"""With the way of the opening known the rod may still leave the line at a fork: the rest is not seen."""

from __future__ import annotations

import pytest

from advisor.plan import work_through
from advisor.push.now.counted import at_farthest
from advisor.push.now.seen import runs_of
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.cases.jobs import rules, tables
from tests.push.test_report import START, Told, case, entries, report, section

# From the plug 5 m up the main a branch joins: 1 m up it is a bend, 6 m on its end. The main runs 12 m on.
FORK = """
site: invented
region: north america
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    pieces:
      - {opening: top plug, kind: end cleanout}
      - pipe: 12 m
      - {joined by: branch, fitting: wye, side: left}
      - pipe: 5 m
      - {opening: plug, kind: end cleanout}
      - pipe: 3 m
      - end: public sewer
  - line: branch
    size: 4 in
    pieces:
      - capped: yes
      - pipe: 6 m
      - bend: 1/4 bend
      - pipe: 1 m
task: {look at: "main, from top plug to plug", complaint: {holding: no}}
"""
AT_PLUG: Told = ("start", 0.0, {**START[2], "opening": "plug"})


@pytest.mark.parametrize(
    ("passed", "seen"),
    [
        # The turn at the fork, a bend a metre behind it and an end at 12 m: that is the branch, so 5 m of the
        # main were seen.
        (
            (*(("sighting", at, {"what": "bend"}) for at in (5.1, 6.1)), ("sighting", 12.1, {"what": "end"})),
            "5 m of the 17 m",
        ),
        # Nothing that tells of a branch: 10.1 m less the opening's end, in the middle case of 0.05 to 0.2 m,
        # likeliest 0.1: 0.2 less the root of 0.5 * 0.15 * 0.1, 0.11 m.
        ((("sighting", 10.1, {"what": "nothing"}),), "9.99 m of the 17 m"),
    ],
)
def test_what_was_passed_behind_a_fork_off_the_line_is_not_seen_of_the_line(passed, seen):
    told = section(report(AT_PLUG, *passed, text=FORK), "In short")
    assert f"Seen: {seen} of main" in told
    assert ("what the lens passed" in told) is (len(passed) > 1)


UPSTREAM: Told = ("start", 0.0, {**START[2], "opening": "plug", "direction": "upstream"})
SHORT = """
site: short
region: north america
map: sketch
lines:
  - line: main
    kind: drain
    size: 4 in
    pieces:
      - fixture: laundry tub
      - pipe: 6 m
      - opening: yard plug
        kind: KIND
      - pipe: 40 m
      - end: public sewer
task: {look at: main, complaint: {holding: no}}
"""
SHORT_IN: Told = ("start", 0.0, {**START[2], "opening": "yard plug", "direction": "unknown"})
UNKNOWN: Told = ("start", 0.0, {**START[2], "opening": "plug", "direction": "unknown"})
BEND: Told = ("sighting", 6.1, {"what": "bend"})  # as a metre up the branch; in the main there is none drawn
ON: Told = ("sighting", 10.1, {"what": "nothing"})


def on_screen(capsys, *told: Told) -> str:
    """What was told beside the opening after these entries."""
    study = work_through(case(FORK), tables(), rules())
    (run,) = runs_of(entries(*told))
    now = at_farthest(run, study)
    assert now is not None
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.split())


def test_unsure_at_a_fork_on_the_screen_it_is_not_counted_past_the_fork_in_the_report(capsys):
    """By hand: in at the plug's end of 0.1 m, 5 m up the main to where the branch joins."""
    told = section(report(UPSTREAM, BEND, text=FORK), "In short")
    assert "Where: not sure. Either" in on_screen(capsys, UPSTREAM, BEND)
    assert "Seen: 5 m of the 17 m of main" in told
    assert "Further on it is not sure which way the rod went." in told


def test_sure_on_the_screen_all_that_the_counter_ran_is_counted(capsys):
    """10.1 m less the 0.11 m of the plug's end, though a branch joins on the way."""
    told = section(report(UPSTREAM, ON, text=FORK), "In short")
    assert "not sure" not in on_screen(capsys, UPSTREAM, ON)
    assert "Seen: 9.99 m of the 17 m of main" in told
    assert "Further on" not in told


def test_the_way_that_nobody_told_stands_in_the_report_as_on_the_screen(capsys):
    """The branch at 5.1 m and the plug at the end at 17.1 m are up the main; the sewer begins 3 m down it."""
    passed: tuple[Told, ...] = (("sighting", 5.1, {"what": "tie-in"}), ("sighting", 17.1, {"what": "end"}))
    shown = on_screen(capsys, UNKNOWN, *passed)
    told = section(report(UNKNOWN, *passed, text=FORK), "Pushes")
    behind = "ownstream is behind the lens: likely (9"
    assert behind in shown
    assert behind in told
    assert "by what was recognized on the way" in told
    assert "direction not known" not in told


@pytest.mark.parametrize(
    ("kind", "rests"),
    [
        ("assumed yard cleanout", "only by how far the rod went"),
        ("yard cleanout", "by the kind of the opening"),
    ],
)
def test_a_direction_that_nothing_on_the_way_tells_says_what_it_rests_on(kind, rests):
    """The other way there is but 6 m of pipe: by 10 m of rod alone it is rather that one."""
    site = SHORT.replace("KIND", kind)
    told = section(report(SHORT_IN, ("sighting", 20.0, {"what": "nothing"}), text=site), "Pushes")
    assert rests in told
    assert "for nothing on the way was recognized" in told


def test_where_the_screen_does_not_know_it_neither_does_the_report(capsys):
    first: Told = ("sighting", 0.5, {"what": "nothing"})
    assert "not known yet" in on_screen(capsys, UNKNOWN, first)
    assert "plug, direction not known" in section(report(UNKNOWN, first, text=FORK), "Pushes")
