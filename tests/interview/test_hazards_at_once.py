"""What a safety answer changes at once: the hazards that the whole plan tells of the site as well."""

from __future__ import annotations

import pytest

from advisor.interview.hazards import hazards
from advisor.quantity import Units
from advisor.result.build import plan_of, verdict_words
from tests.cases.test_every_rule import studied
from tests.interview.small_session import HOUSE, known, session

WET = HOUSE.replace("kind: inspection chamber\n", "kind: inspection chamber\n        water: WATER\n")
GAS = HOUSE + "  complaint: {gas smell: yes, holding: yes}\n"


@pytest.mark.parametrize(
    ("sheet", "verdict"),
    [
        (WET.replace("WATER", "standing"), "No camera yet"),  # seen at an opening, told by nobody
        (GAS, "Leave the building"),  # the gravest of two
        (HOUSE + "  complaint: {holding: no, gas smell: no}\n", None),
    ],
)
def test_verdict_first_then_each_caution_that_holds_with_its_word(sheet, verdict):
    of = session(sheet=sheet)
    drain = of.sheets.drain(())
    assert drain is not None
    told = hazards(drain, known(), Units.INCH)
    plan_ = plan_of(of.study(()))
    cautions = {f"{note.word.upper()}: {note.text}" for note in plan_.cautions}
    assert set(told) - cautions == ({plan_.first_step} if verdict else set())
    assert cautions <= set(told)
    assert len(set(told)) == len(told)
    if verdict:
        assert told[0].startswith(verdict)


@pytest.mark.parametrize("job", ["gas", "chemicals", "holding", "plain"])
def test_the_line_that_moves_in_an_interview_tells_the_verdict_that_the_plan_opens_with(job):
    study = studied(job)
    told = verdict_words(study)
    made = plan_of(study)
    assert (told is None) == made.camera_now
    assert told is None or made.first_step == told
