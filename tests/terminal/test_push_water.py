"""At the terminal: which way the opening leads, and no water where it may come up. Rules of the trade."""

from __future__ import annotations

import pytest

from advisor.push.log import Log
from tests.push.sites import WALK
from tests.terminal.test_push_session import job, push

__all__ = ["job", "push"]  # fixtures
UP = WALK.replace("holding: no", "holding: no, chemicals: no, backs up: [bath]")
FREE = WALK.replace("holding: no", "holding: no, chemicals: no")
IN = "11yd\r\r"  # at the floor plug, with what is planned, which way it leads not known
DOUBT = "One does not go with the other: the line is said to drain away, and bath"
UNTIL = "Run nothing until the line is seen to drain: bath backs up."


def entry(job, kind: str) -> dict[str, object]:
    log = Log.read(job.log)
    try:
        return dict(next(each for each in log.standing() if each.kind == kind).data)
    finally:
        log.close()


@pytest.mark.parametrize(("key", "told"), [("s", "downstream"), ("h", "upstream"), ("d", "unknown")])
def test_which_way_the_opening_leads_is_asked_in_plain_words_and_kept(job, push, key, told):
    job.site.write_text(FREE)
    said = push(f"11y{key}\r\r" + "q")
    assert "Which way does this opening lead?" in said
    assert "downstream: to the sewer, away from the house" in said
    assert "upstream: back to the house" in said
    assert entry(job, "start")["direction"] == told


def test_what_does_not_go_together_is_told_at_the_start_and_to_who_goes_on(job, push):
    job.site.write_text(UP)
    assert DOUBT in push(IN + "q")
    assert DOUBT in push("q")
    job.site.write_text(FREE)
    assert "One does not go" not in push("q")


def test_nothing_is_run_and_the_way_home_is_conditional_until_it_is_seen_to_drain(job, push):
    """Asked only where it is in doubt; once seen to drain nothing is held back."""
    job.site.write_text(UP)
    said = push(IN + "r5\rn" + "w1n" + "y" + "ey")
    before, _, after = said.partition("Did you see the water run away")
    assert "No water test until the line is seen to drain: bath backs up." in before
    assert UNTIL in before
    assert "it tells most" not in before
    assert "No water test" not in after
    assert entry(job, "water")["drains"] is True
    assert "Run water. Look for leaks." in after.partition("COMING HOME")[2]


@pytest.mark.parametrize(
    ("keys", "home"), [("", "Seen to drain, nothing poured in? Run water"), ("w1n" + "n", "")]
)
def test_who_has_not_seen_it_drain_runs_none_at_the_end(job, push, keys, home):
    job.site.write_text(UP)
    said = push(IN + "r5\rn" + keys + "ey")
    assert ("Stop all water now." in said) is bool(keys)
    at_home = said.partition("COMING HOME")[2]
    assert "Run water." not in at_home
    assert ("Seen to drain, nothing poured in? Run water" in at_home) is bool(home)


def test_on_a_line_that_drains_nobody_is_asked_whether_it_does(job, push):
    job.site.write_text(FREE)
    said = push(IN + "r5\rn" + "w1n" + "q")
    assert "Did you see the water run away" not in said
    assert "drains" not in entry(job, "water")


def test_after_a_stop_in_roots_nothing_above_it_is_run(job, push):
    """The head stands 26 ft down from the plug, past both lines; blocked is the ninth sign by eye, of
    what kind is not told, soft is the second by hand."""
    job.site.write_text(FREE)
    said = push("11ys\r\r" + "s26\r" + "9d0" + "20" + "m" + "w" + "bb" + "ey")
    assert "Run nothing until the line is seen to drain: it was stopped at 26 ft." in said
    assert "Seen to drain, nothing poured in? Run water" in said.partition("COMING HOME")[2]
