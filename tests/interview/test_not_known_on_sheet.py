"""A sheet tells what was taken to be safe from what somebody said."""

from __future__ import annotations

import pytest

from advisor.interview.answers import Answer
from advisor.interview.clean import clean_sheet
from tests.interview.small_session import HOUSE, session


@pytest.mark.parametrize(("word", "taken"), [("don't know", True), ("yes", False)])
def test_what_nobody_knew_stands_there_as_taken_to_be_safe(word, taken):
    of = session(sheet=HOUSE)
    answers = (Answer("deep", "job", (word,)),)
    drain, text = of.sheets.drain(answers), of.sheets.text(answers)
    assert "deep pits: yes" in text
    made = clean_sheet(text, drain.network, answers, of.known.questions)
    assert ("a person's chest? Taken, to be safe: deep pits: yes\n" in made) is taken
