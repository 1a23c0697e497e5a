"""What was tried has one word where it is chosen, in the log and in the report.

From a trial: "steady push" in the list of what was tried was "an even push" in log and report.
"""

from __future__ import annotations

import tests.terminal.test_push_session as sitting
from advisor.outcome.attempts import NO_TRY, STEADY, TECHNIQUES, called
from advisor.push.report.words import technique_words
from tests.terminal.test_push_answers import HELD, standing
from tests.terminal.test_push_session import BEGIN

job, push = sitting.job, sitting.push  # fixtures


def test_an_even_push_chosen_from_the_list_is_called_that_in_the_log_too(job, push):
    said = push(BEGIN + HELD + "o1hfn" + "mq")
    last = next(entry for entry in reversed(standing(job)) if entry.kind == "try")
    assert last.data["technique"] == STEADY  # as rules and older logs have it
    assert technique_words(last) == "an even push"
    assert "1 an even push" in " ".join(said.split())


def test_no_two_techniques_are_called_the_same():
    names = [called(each) for each in TECHNIQUES if each not in NO_TRY]
    assert len(set(names)) == len(names)
