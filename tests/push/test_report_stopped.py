"""A push that was held for good is told as that, whatever came after: drawn back, a mark, another push."""

from __future__ import annotations

import pytest

from tests.push.test_report import START, Told, report, section
from tests.push.test_report_never_passed import BOTH, DOWN

RIM: Told = ("stopped", 18.0, {"sign": "rim ahead", "feel": "dead and hard"})
TRIED: Told = ("try", 18.0, {"technique": "quick push", "outcome": "stopped"})
BACK: Told = ("pulled back", 10.0, {})
OUT: Told = ("end", 0.0, {"reached": False, "out": True})
SAYS = "Stopped at 18 m: a rim or step before the lens; dead and hard. It came no further."


@pytest.mark.parametrize(
    ("after", "held"),
    [
        ((TRIED,), True),
        ((TRIED, BACK), True),
        ((BACK, ("sighting", 12.0, {"what": "nothing"})), True),
        ((("water", None, {"fixture": "washing machine"}),), True),
        ((BACK, ("sighting", 19.0, {"what": "nothing"})), False),
        ((("try", 18.0, {"technique": "quick push", "outcome": "passed"}), BACK), False),
        ((BACK, OUT, START, ("sighting", 20.0, {"what": "nothing"})), False),
        ((BACK, OUT, START, ("sighting", 12.0, {"what": "nothing"})), True),
    ],
)
def test_it_is_told_first_and_what_is_advised_for_it(after, held):
    made = report(START, ("sighting", 4.0, {"what": "nothing"}), RIM, *after, OUT)
    assert (SAYS in section(made, "In short")) == held
    assert ("new opening here" in section(made, "Recommended")) == held


def test_what_stopped_it_under_water_nobody_saw_and_nothing_new_is_dug_there():
    under: Told = ("stopped", 18.0, {"sign": "water over the lens", "feel": "dead and hard"})
    advised = section(report(START, under, OUT), "Recommended")
    assert "look again. The head was stopped under water, so nobody saw what holds it." in advised
    assert "new cleanout" not in advised
    passed: Told = ("try", 18.0, {"technique": "quick push", "outcome": "passed"})
    assert "stopped under water" not in section(report(START, under, passed, OUT), "Recommended")


def test_what_was_found_is_named_where_the_owner_reads_first():
    crack: Told = ("find", 9.0, {"what": "crack all round"})
    short = section(report(START, crack, ("find", 12.0, {"what": "roots"}), OUT), "In short")
    assert "2 finds logged: no. 1, crack all round: dig here; no. 2, roots: clean." in short


def test_a_mark_at_the_reading_of_a_find_that_is_to_be_located_is_named_beside_it():
    roots: Told = ("find", 9.0, {"what": "roots", "line": "house drain", "distance": 8.5, "sure": 0.6})
    mark: Told = ("mark", 9.1, {"name": "M1"})
    advised = section(report(START, mark, roots, OUT), "Recommended")
    assert "Mark no. 1 was made at the same reading: check it so." in advised
    # Another push, or drawn back between: the same reading may be another place.
    apart = section(report(START, mark, OUT, START, roots, OUT), "Recommended")
    assert "was made at the same reading" not in apart


def test_a_line_of_which_nothing_counts_says_how_far_the_lens_came():
    unknown: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"})
    told = section(report(unknown, ("sighting", 9.0, {"what": "nothing"}), OUT), "In short")
    assert "It came 9 m in from yard cleanout: that this was house drain is not shown." in told


def test_a_later_push_that_saw_all_from_the_other_side_leaves_no_stop_to_dig_at():
    up: Told = ("start", 0.0, {"opening": "street chamber", "direction": "upstream"})
    end: Told = ("end", 26.0, {"reached": True})
    made = report(DOWN, RIM, BACK, OUT, up, ("sighting", 26.0, {"what": "end"}), end, text=BOTH)
    assert "It came no further." not in section(made, "In short")
    assert "new cleanout" not in section(made, "Recommended")


PASSED: Told = ("try", 18.0, {"technique": "turn the rod", "outcome": "passed"})
STEPPED: Told = ("find", 18.0, {"what": "clay joint stepped down 15 mm, rim at the bottom"})


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ((RIM, PASSED), "watch. A rim or a step held the head here."),
        (
            (RIM, PASSED, STEPPED),
            "with no cutter, no chain and no jet on it.",
        ),
        (
            (STEPPED,),
            "with no cutter, no chain and no jet on it.",
        ),
    ],
)
def test_a_rim_or_a_stepped_joint_gets_advice_and_no_machine(told, says):
    """From a trial, common practice: at a displaced clay joint a cutter bites the standing edge.
    The report recommended nothing, beside a stop told in the program's own words."""
    said = section(report(START, *told, OUT), "Recommended")
    assert says in said
    assert said.count("watch.") == 1
    assert "Nothing is recommended" not in said
    assert "new opening here" not in said


@pytest.mark.parametrize("told", [(), (STEPPED,)])
def test_what_stays_as_it_is_opens_no_way_on(told):
    """A joint to be watched lets the head pass no better the next time."""
    said = section(report(START, RIM, *told, OUT), "Recommended")
    assert "watch." in said
    assert "new opening here" in said


SEEN: Told = ("sighting", 19.0, {"what": "nothing"})
NEAR: Told = ("stopped", 18.1, {"sign": "rim ahead", "feel": "dead and hard"})
MORE: Told = ("stopped", 18.0, {"sign": "rim ahead, water over the lens", "feel": "dead and hard"})
PLAIN: Told = ("stopped", 18.0, {"feel": "dead and hard"})
FAR: Told = ("stopped", 18.3, {"sign": "rim ahead", "feel": "dead and hard"})


# docs/pushing.md: the same stop told twice is one piece of evidence; one place is 20 cm (where.yaml, cell).
@pytest.mark.parametrize(
    ("told", "times"),
    [
        ((RIM, RIM, PASSED, SEEN), 1),
        ((RIM, TRIED, NEAR, PASSED, SEEN), 1),
        ((RIM, PASSED, SEEN, BACK, OUT, START, RIM, PASSED, SEEN), 1),  # the same rim, met by the next push
        ((RIM, FAR, PASSED, SEEN), 2),
    ],
)
def test_a_stop_told_again_is_reported_once(told, times):
    made = report(START, ("sighting", 4.0, {"what": "nothing"}), *told, OUT)
    assert section(made, "In short").count("Nobody logged it as a find.") == times
    assert section(made, "Finds").count("The head was stopped at 18") == times
    assert section(made, "Recommended").count("watch.") == times


# Told twice where the head stands is one event; come to again from elsewhere, or once passed, is another.
@pytest.mark.parametrize(
    ("told", "times"),
    [
        ((RIM, RIM, PASSED, SEEN), 1),
        ((RIM, TRIED, RIM, PASSED, SEEN), 1),
        ((RIM, PLAIN, RIM, PASSED, SEEN), 1),
        ((RIM, ("sighting", 12.0, {"what": "nothing"}), RIM, PASSED, SEEN), 2),
        ((RIM, PASSED, RIM, PASSED, SEEN), 2),
        ((RIM, PASSED, SEEN, BACK, OUT, START, RIM, PASSED, SEEN), 2),
    ],
)
def test_of_a_stop_told_again_there_is_one_row_of_the_order(told, times):
    rows = section(report(START, *told, OUT), "Seen in this order")
    assert rows.count("rim") == times


def test_what_the_second_telling_adds_stands_with_it():
    short = section(report(START, PLAIN, RIM, MORE, PASSED, SEEN, OUT), "In short")
    assert short.count("The head was stopped at 18 m") == 1
    assert "rim" in short
    assert "water" in short
