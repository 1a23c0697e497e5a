"""A reading alone tells no place, and a reason of one push none of another: each with its opening."""

from __future__ import annotations

from advisor.push.report.pages import text_of
from tests.push.test_report import START, Told, report, section

OTHER: Told = (
    "start",
    0.0,
    {"opening": "washing machine", "direction": "downstream", "loadout": "large reel"},
)
HELD: Told = ("stopped", 6.0, {"sign": "blocked, roots"})
POOL: Told = ("sighting", 3.0, {"what": "standing water"})
CROSSED: Told = ("end", 6.0, {"reached": False, "out": True, "why": "it crossed"})
LATE: Told = ("end", 3.0, {"reached": False, "out": False, "why": "no time"})


def test_of_two_openings_each_place_says_from_which():
    made = report(START, HELD, CROSSED, OTHER, POOL, LATE)
    short, advised = section(made, "In short"), section(made, "Recommended")
    for words in (short, advised):
        assert "stopped at 6 m from yard cleanout" in words
        assert "Standing water was seen at 3 m from washing machine" in words
    assert "in from washing machine, at 3 m, by what was told last" in short
    rows = next(each.rows for each in made.sections if each.heading == "Seen in this order")
    assert [row[2].partition(", in from ")[2] for row in rows if not row[0]] == [
        "yard cleanout:",
        "washing machine:",
    ]


def test_of_one_opening_a_reading_is_told_as_it_is():
    text = " ".join(text_of(report(START, HELD, CROSSED)).split())
    assert "The head was stopped at 6 m: " in text
    assert "Why: it crossed." in text
    assert "push of 2026" not in text


def test_why_it_was_not_seen_names_the_push_whose_reason_it_is():
    missed = section(report(START, HELD, CROSSED, OTHER, POOL, LATE), "What was not seen")
    assert (
        "Why: the push in from yard cleanout: it crossed; the push in from washing machine: no time."
        in missed
    )


def test_counter_and_sheet_part_as_well_where_the_head_went_another_way():
    parted = section(
        report(START, ("sighting", 21.0, {"what": "nothing"}), ("end", 21.0, {"reached": True})), "In short"
    )
    assert "do not agree" in parted
    assert "or the head went another way than was taken" in parted


def test_what_ended_one_push_is_no_reason_once_another_came_past_it_the_same_way():
    again: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "known"})
    why = section(
        report(START, HELD, CROSSED, again, ("sighting", 20.0, {"what": "nothing"})), "What was not"
    )
    assert "it crossed" not in why
    # One that came less far leaves the first reason as it is, and its own is none.
    late: Told = ("end", 3.0, {"reached": False, "why": "no time"})
    why = section(
        report(START, HELD, CROSSED, again, ("sighting", 3.0, {"what": "nothing"}), late), "What was not"
    )
    assert "Why: the push in from yard cleanout: it crossed." in why
