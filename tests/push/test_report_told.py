"""A report says what people told, how the water stood, and what comes next where nothing explains it.

From a trial: a kitchen gully backed up, the chamber stood full and was seen to drain as the push
began, and the report held neither of them and recommended nothing.
"""

from __future__ import annotations

import pytest

from advisor.push.now.backs_up import CLEARED_NOW
from tests.push.test_report import HOUSE, START, TASK, Told, report, section

LOOKED: Told = ("start", 0.0, {**START[2], "drains": True})
DRAINS: Told = ("start", 0.0, {**LOOKED[2], "told": CLEARED_NOW})
WHOLE = (HOUSE + TASK).replace("slow: [washing", "backs up: [washing")
PART = WHOLE.replace("at: house drain", "at: house drain, from yard cleanout to laundry line")
SEEN: tuple[Told, ...] = (
    ("sighting", 10.5, {"what": "tie-in"}),
    ("end", 10.5, {"reached": True, "out": True}),
)
UNEXPLAINED = "Nothing that was logged shows what held the water back."
BEYOND = "Next look past where laundry line joins, on the way to public sewer. No push showed any of that."
UNSEEN = "Next look at what was to be seen and was not."
WATER = "run water a little at a time while somebody watches washing machine. Stop as it rises."


def test_what_was_told_of_the_water_is_in_the_task():
    full = WHOLE.replace("kind: floor cleanout", "kind: floor cleanout\n        water: standing")
    text = full.replace("{backs up", "{holding: no, chemicals: yes, backs up")
    task = section(report(DRAINS, *SEEN, text=text), "Task")
    assert "Backs up: washing machine. Stood full: yard cleanout." in task
    assert "A drain cleaner or another chemical was said to have been poured in." in task
    assert "The line was seen to drain 2026-03-04" in task
    looked = section(report(LOOKED, *SEEN, text=text), "Task")
    assert "The line was looked at and stood low 2026-03-04" in looked
    assert "seen to drain" not in looked, "no water was told to be run"
    assert "said to drain away" not in task, "and it stands full: the one that warns is told"
    assert "The line was said to stand full." in section(
        report(START, text=WHOLE.replace("{backs", "{holding: yes, backs")), "Task"
    )


@pytest.mark.parametrize(
    ("told", "text", "says"),
    [
        ((DRAINS, *SEEN), PART, (UNEXPLAINED, "last seen to drain", BEYOND, WATER)),
        ((LOOKED, *SEEN), PART, (UNEXPLAINED, "last looked at and stood low", BEYOND, WATER)),
        ((START, *SEEN), PART, (UNEXPLAINED, BEYOND, WATER)),
        ((START, *SEEN), WHOLE, (UNEXPLAINED, UNSEEN, WATER)),
        ((START, *SEEN), HOUSE + "task: {look at: house drain}\n", ()),  # nothing troubles anybody
        ((START, ("find", 9.0, {"what": "roots"}), *SEEN), PART, (WATER,)),
        ((START, ("find", 9.0, {"what": "offset joint"}), *SEEN), PART, (UNEXPLAINED, BEYOND, WATER)),
        (
            (START, ("sighting", 14.0, {"what": "nothing"}), ("end", 14.0, {"out": True})),
            PART,
            (UNEXPLAINED, WATER),
        ),
        ((START, SEEN[0], ("end", 10.5, {"reached": True, "out": False})), PART, ()),  # that comes first
        ((), PART, ()),
    ],
)
def test_what_comes_next(told, text, says):
    said = section(report(*told, text=text), "Recommended") if told else str(report(text=text))
    low = "last looked at and stood low"
    for words in (UNEXPLAINED, "last seen to drain", low, BEYOND, UNSEEN, WATER):
        assert (words in said) == (words in says), words


def test_what_holds_every_head_is_not_to_be_passed_next():
    trap = PART.replace("      - pipe: 5 m\n", "      - trap: house trap\n      - pipe: 5 m\n")
    trap = trap.replace("to laundry line", "to house trap")
    told: tuple[Told, ...] = (
        ("sighting", 10.5, {"what": "trap"}),
        ("end", 10.5, {"reached": True, "out": True}),
    )
    said = section(report(START, *told, text=trap), "Recommended")
    assert "Next look past house trap, on the way to public sewer." in said
    assert "No head goes past it. It takes an opening beyond it" in said
