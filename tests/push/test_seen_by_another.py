"""A push that went for something else and came through all of what the plan goes for now has seen it.

Nobody is asked at its end whether that was seen: "not reached" was told of what it went for. In at the floor
plug the sink joins 3 m in and the trap is 9 m in, so a counter of 9 m at the trap came through all of it.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.seen_whole import seen_whole
from advisor.result.target_model import SeenNote
from tests.cases.jobs import rules, tables
from tests.push.test_report import entries
from tests.push.test_seen_whole import MET, SITE, START, end
from tests.terminal.test_now_shown import case_of

BRANCH = "sink line, from kitchen sink to the lower end"
NOW = "drain, from sink line to house trap"
ROUND_IT = "drain, from floor plug to public sewer"


def note(target: str | None, *told):
    kind, at, data = START
    start = (kind, at, {**data, "target": target} if target else data)
    standing, case = entries(start, *MET, *told), replace(case_of(SITE), worlds=50)
    study = plan(as_pushes_show(case, standing, tables(), rules()), tables(), rules())
    assert study.wanted.words == NOW
    return seen_whole(study, standing)


def test_a_push_for_something_else_that_came_through_it_all_has_seen_it():
    seen = note(BRANCH, *end(9.0, "trap", reached=False))
    assert seen.told[0].startswith("Seen whole by the push of ")
    assert f"from floor plug: {NOW}." in seen.told[0]
    assert (seen.opening, seen.gear) == ("floor plug", None)


@pytest.mark.parametrize(
    ("target", "at", "what"),
    [
        (NOW, 9.0, "trap"),  # asked of this very stretch, and told as not reached
        (ROUND_IT, 9.0, "trap"),  # of one that holds it: the word may be meant of this too
        (None, 9.0, "trap"),  # an old log does not say what it went for
        ("a line that is drawn no more", 9.0, "trap"),
        (BRANCH, 7.5, "nothing"),  # 1.5 m are wanting, by the counter
    ],
)
def test_what_may_not_all_have_been_seen_is_not_told_as_seen(target, at, what):
    assert note(target, *end(at, what, reached=False)) == SeenNote()


def test_a_push_that_has_not_ended_may_yet_tell_more():
    assert note(BRANCH, ("sighting", 9.0, {"what": "trap"})) == SeenNote()
