"""A report says how sure each place is and what held the head, and calls no line clean by rod alone."""

from __future__ import annotations

import pytest

from tests.push.test_report import HOUSE, START, TASK, Told, report, section

AT = {"line": "house drain", "distance": 4.0}


def find(**more) -> Told:
    return ("find", 10.0, {"what": "roots", **AT, **more})


def where(*told: Told) -> str:
    return section(report(*told), "Finds")


def test_a_find_carries_its_range_its_chance_and_what_it_was_counted_from():
    told = where(START, find(sure=0.64, low=1.2, high=5.3, past="where bath line joins", run=1.4, off=0.2))
    assert "by the sheet 4 m down house drain (1.2 m to 5.3 m), 64 % sure of the pipe" in told
    assert "by the counter 1.2 m to 1.6 m past where bath line joins" in told


@pytest.mark.parametrize(
    ("past", "run", "told"),
    [
        # By hand, 0.2 m either way. The head stands before what ends its way, however the counter ran.
        ("public sewer", 0.0, "0 m to 0.2 m short of public sewer"),
        ("public sewer", 0.1, "0 m to 0.1 m short of public sewer"),
        ("public sewer", -1.4, "1.2 m to 1.6 m short of public sewer"),
        (
            "public sewer",
            1.4,
            "1.2 m to 1.6 m more than where public sewer was seen, and no head stands past",
        ),
        # Beside what it can pass, to which side is not known.
        ("where bath line joins", 0.1, "0.1 m short of where bath line joins to 0.3 m past it"),
        ("where bath line joins", -1.4, "1.2 m to 1.6 m short of where bath line joins"),
    ],
)
def test_no_place_lies_past_what_ends_the_way(past, run, told):
    """From a trial: of a mark with the head before a trap `0 m to 0.25 m past disconnecting trap`;
    who digs there for the trap looks behind him, and it is ahead."""
    assert f"by the counter {told}" in where(
        START, find(sure=0.9, low=3.9, high=4.2, past=past, run=run, off=0.2)
    )


@pytest.mark.parametrize(
    ("more", "locate"),
    [
        ({"sure": 0.64, "low": 0.9, "high": 5.3}, True),
        ({"sure": 0.95, "low": 3.0, "high": 4.5}, True),  # a metre and a half
        ({"sure": 0.89, "low": 3.7, "high": 4.3}, True),  # nine in ten are not reached
        ({"sure": 0.64}, True),  # an older log, without a range
        ({"sure": 0.95, "low": 3.7, "high": 4.3}, False),
        ({}, False),  # the operator himself said where
    ],
)
def test_where_it_is_broad_it_is_to_be_located_before_digging(more, locate):
    made = report(START, find(**more))
    assert ("LOCATE IT ABOVE GROUND BEFORE DIGGING" in section(made, "Finds")) == locate
    assert ("Locate it above ground first" in section(made, "Recommended")) == locate


@pytest.mark.parametrize(("own", "said"), [({}, ""), ({"advice": "dig here"}, "; the operator: dig here")])
def test_nobody_is_told_to_dig_where_the_place_is_not_sure(own, said):
    """The owner reads the one word of advice, and has a hole dug."""
    made = report(START, find(what="crack all round", sure=0.64, low=0.9, high=5.3, **own))
    assert section(made, "Finds").endswith(f"locate it first{said}")
    recommended = section(made, "Recommended")
    assert ("dig here" in recommended) == bool(own)
    assert recommended.startswith("No. 1: where it is is not sure enough to dig")
    assert "locate it first. Have it repaired." in recommended


def test_nor_where_counter_and_sheet_disagree():
    """Of 26.5 m by the sheet 21 m: one of them is off by 5 m, and which is not known."""
    cut_short: tuple[Told, ...] = (("sighting", 21.0, {"what": "nothing"}), ("end", 21.0, {"reached": True}))
    made = report(START, find(what="crack all round"), *cut_short)
    assert "do not agree" in section(made, "In short")
    assert "dig here" not in section(made, "Finds") + section(made, "Recommended")
    assert "dig here" in section(report(START, find(what="crack all round")), "Finds")


STUCK: Told = ("stopped", 3.0, {"sign": "blocked", "feel": "will not come back"})
ALL_IN: Told = ("sighting", 30.0, {"what": "nothing"})
DONE: Told = ("end", 30.0, {"reached": True})


def test_a_stop_that_was_told_is_a_find_of_the_push():
    made = report(START, STUCK, ALL_IN, DONE)
    for heading in ("In short", "Finds", "Recommended"):
        told = section(made, heading)
        assert "The head was stopped at 3 m: roots, scale, grease, waste or an object before it" in told
        assert "it does not come back either" in told
    assert "No find was logged" not in section(made, "In short")
    assert "Nothing is recommended" not in section(made, "Recommended")
    assert "Have it cleaned and looked at again" in section(made, "Recommended")


def test_a_find_at_the_same_reading_says_it_already():
    made = report(START, STUCK, ("find", 3.2, {"what": "roots"}), ALL_IN, DONE)
    assert "The head was stopped" not in section(made, "In short")


def test_rod_alone_shows_no_whole_line():
    """26 m of drain by the sheet, 30 m of rod in, and nothing of the drawing was recognized."""
    told = section(report(START, ALL_IN, DONE), "In short")
    assert "Seen: 26 m of the 26 m" not in told
    assert "By the counter only" in told
    assert "The end was not seen" in told
    assert "Nothing on the way was recognized: the line may be another, or longer" in told


def test_a_line_whose_landmarks_were_recognized_is_seen_and_its_end_is_asked_for():
    marks: tuple[Told, ...] = (
        ("sighting", 10.5, {"what": "tie-in"}),
        ("sighting", 15.5, {"what": "bend"}),
    )
    open_end = section(report(START, *marks, ALL_IN, DONE), "In short")
    assert "Seen: 26 m of the 26 m" in open_end
    assert "The end was not seen" in open_end
    ended: Told = ("sighting", 26.5, {"what": "end"})
    told = section(report(START, *marks, ended, DONE), "In short")
    assert "Seen: 26 m of the 26 m" in told
    assert "was not seen" not in told
    assert "Nothing on the way" not in section(report(START, *marks, DONE, text=HOUSE + TASK), "In short")


def test_an_end_that_was_seen_and_told_as_reached_leaves_nothing_before_it_unseen():
    """24.4 m by the counter of 26 m by the sheet: less is wanting than the tenth from which both are told."""
    marks: tuple[Told, ...] = (
        ("sighting", 10.5, {"what": "tie-in"}),
        ("sighting", 15.5, {"what": "bend"}),
    )
    ended: Told = ("sighting", 24.9, {"what": "end"})
    done: Told = ("end", 24.9, {"reached": True})
    told = section(report(START, *marks, ended, done), "In short")
    assert "Not shown to have been seen" not in told
    assert (
        "Seen: 26 m of the 26 m of house drain that were to be seen, from yard cleanout to public sewer"
        in told
    )
    assert "The end was seen: by the counter that was 24.4 m of it." in told
    # Neither the word alone nor the picture alone is enough, nor an end far short of the sheet's.
    for short in ((done,), (ended,), (("sighting", 20.0, {"what": "end"}), ("end", 20.0, {"reached": True}))):
        assert "Not shown to have been seen" in section(report(START, *marks, *short), "In short")


def test_how_long_it_was_by_the_counter_is_from_the_one_reading_to_the_other():
    """From a trial: read at 2.5 and 10.4 m, and the report said 7.8 m. Here 25.3 less 10.2."""
    text = (HOUSE + TASK).replace(
        "look at: house drain", "look at: house drain, from laundry line to public sewer"
    )
    told = (
        ("sighting", 10.2, {"what": "tie-in"}),
        ("sighting", 25.3, {"what": "end"}),
        ("end", 25.3, {"reached": True}),
    )
    said = section(report(START, *told, text=text), "In short")
    assert "from where laundry line joins to public sewer" in said
    assert "The end was seen: by the counter that was 15.1 m of it." in said


def test_a_trap_where_it_ends_is_called_by_its_name():
    """`To 10 m down it by the counter`, which had come to 9.8 m along the line: the 10 m were the sheet's."""
    text = (HOUSE + TASK).replace(
        "      - end: public sewer", "      - trap: house trap\n      - pipe: 2 m\n      - end: public sewer"
    )
    text = text.replace("look at: house drain", "look at: house drain, from laundry line to house trap")
    told = (
        ("sighting", 10.5, {"what": "tie-in"}),
        ("sighting", 26.3, {"what": "trap"}),
        ("end", 26.3, {"reached": True}),
    )
    assert "from where laundry line joins to house trap" in section(
        report(START, *told, text=text), "In short"
    )
