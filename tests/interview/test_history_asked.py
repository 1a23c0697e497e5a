"""What was asked and answered of earlier jobs is not asked again before the head goes in."""

from __future__ import annotations

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.question import DONT_KNOW
from advisor.result.build import plan_of
from tests.interview.small_session import session
from tests.interview.test_branch import SAFE, SLAB

CLEARED, LOST, HOW_FAR = (
    "Ask when it was last cleared, how far, what came back.",
    "lost in there",
    "and how far.",
)
NO_MACHINE = "none was, as far as people remember"
BEGIN = tuple(Answer(question, "job", (word,)) for question, word in {**SLAB, **SAFE}.items())


@pytest.mark.parametrize(
    ("history", "machine", "asked"),
    [
        (DONT_KNOW, None, (CLEARED, LOST)),
        ("it is worse on laundry days", NO_MACHINE, ()),
        (NONE, DONT_KNOW, (HOW_FAR,)),
    ],
)
def test_what_was_answered_is_not_asked_again_and_what_nobody_knew_is(history, machine, asked):
    """Told: worse on laundry days, no machine; the plan began with `Ask when it was last cleared`."""
    words = {"history": history, "machine-run": machine}
    said = (*BEGIN, *(Answer(question, "job", (word,)) for question, word in words.items() if word))
    made = plan_of(session(worlds=50).study(said, whole=True))
    steps = [step for route in made.routes[:1] for step in route.before if "Ask " in step]
    assert [any(words in step for step in steps) for words in (CLEARED, LOST, HOW_FAR)] == [
        each in asked for each in (CLEARED, LOST, HOW_FAR)
    ]
    assert any("rebuil" in step for step in steps), "nobody has asked for that"
