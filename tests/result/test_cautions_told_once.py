"""ANSI Z535.4: danger before warning, warning before caution; of one hazard the gravest word is told."""

from __future__ import annotations

import pytest

from advisor.interview.hazards import no_more_fine
from advisor.result.model import CautionNote, OpenNote
from advisor.result.told import each_once, opening_steps


def note(word: str) -> CautionNote:
    return CautionNote(id="gas", word=word, text=f"{word}: gas", short="")


@pytest.mark.parametrize("words", [("danger", "caution"), ("caution", "danger")])
def test_the_gravest_word_of_a_hazard_stands_whichever_came_first(words):
    assert each_once(map(note, words)) == (note("danger"),)


def opened(name: str, *steps: str) -> OpenNote:
    return OpenNote(opening=name, kind="end cleanout", place="yard", steps=steps, cautions=(), ask=())


def test_an_opening_that_needs_no_step_is_not_told_how_to_open():
    told = opening_steps([opened("end"), opened("trap", "Lift it."), opened("pit", "Lift it.")])
    assert told == [("trap or pit", ("Lift it.",))]


def test_before_a_drain_is_drawn_nothing_was_said_to_run_well():
    assert no_more_fine(None, None) == ""
