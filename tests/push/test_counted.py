"""What was measured against what the sheet says: the report rests on the counter, and tells where they part.

The house drain of the sheet: 26 m from the yard cleanout, the laundry line joins at 10 m, a bend at 15 m. The
cleanout lies 0.5 m above it: by the counter all of that comes half a metre later.
Beside the opening counter and sheet are told apart from a tenth of the rod, and half a metre, on.
"""

from __future__ import annotations

import re

import pytest

from tests.push.test_report import HOUSE, START, TASK, Told, report, section


def ended(counter: float, reached: bool) -> Told:
    return ("end", counter, {"reached": reached})


def seen(counter: float, what: str = "nothing") -> Told:
    return ("sighting", counter, {"what": what})


def said(*told: Told, text: str = HOUSE + TASK) -> str:
    return section(report(*told, text=text), "In short")


def unseen(*told: Told) -> str:
    return section(report(*told), "What was not seen")


def test_how_much_was_seen_is_what_the_counter_ran_though_a_find_is_tied_further_on():
    """The head was taken to be at 15 m for the bend it passed; the counter had run 12.9 m, half a metre of
    them down to the line."""
    told = said(START, seen(8.6, "tie-in"), seen(12.9, "bend"), find(12.9, 15.0))
    assert "Seen: 12.4 m of the 26 m of house drain" in told
    assert "How far is known by the counter. " in told
    assert "26 m is its length by the sheet" in told


def find(counter: float, distance: float) -> Told:
    return ("find", counter, {"what": "roots", "line": "house drain", "distance": distance})


def test_what_the_counter_showed_at_the_opening_is_no_length_of_pipe():
    """By hand: 15.5 less the 5 at the opening less the 0.5 m down to the line."""
    assert "Seen: 10 m of the 26 m" in said(("start", 5.0, START[2]), seen(15.5))


ANEW: Told = ("counter reset", 8.6, {"now": 0.0})


def test_behind_a_counter_set_anew_it_counts_on():
    """By hand: 8.6 m, and 4.3 m of a counter that began anew there, less the half metre down to the line."""
    told = said(START, seen(8.6, "tie-in"), ANEW, seen(4.3, "bend"))
    assert told == said(START, seen(8.6, "tie-in"), seen(12.9, "bend"))
    assert "Seen: 12.4 m of the 26 m of house drain" in told


def test_a_stop_behind_a_counter_set_anew_is_a_stop():
    """12.9 m in it was held, and came no further."""
    held: Told = ("stopped", 4.3, {"sign": "object"})
    told = unseen(START, seen(8.6, "tie-in"), ANEW, held, ended(4.3, False))
    anew = "The counter was set anew on the way: what was seen behind that is counted on from there. "
    plain = unseen(START, seen(8.6, "tie-in"), ("stopped", 12.9, held[2]), ended(12.9, False))
    assert anew in told
    assert told.replace(anew, "") == plain


def test_where_the_way_was_not_known_it_is_by_the_sheet_and_says_so():
    unknown: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"})
    told = said(unknown, find(9.0, 9.0))
    assert "Seen: 9 m of the 26 m" in told
    assert "known by the places on the sheet to which entries were tied, for nothing else tells" in told
    assert "the counter" not in told


def test_two_pushes_of_which_one_is_by_the_counter_say_both():
    unknown: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"})
    told = said(START, seen(4.0), ended(4.0, False), unknown, find(9.0, 9.0))
    assert "Seen: 9 m of the 26 m" in told
    assert "known by the counter; in part by the places on the sheet" in told


@pytest.mark.parametrize(
    ("counter", "apart"),
    # Of 26.5 m by the sheet: 24 m is short by 2.5 m, a little over its tenth; 24.1 m by 2.4 m, a little less;
    # 29.4 m is 2.9 m over, less than its tenth, 29.5 m by 3 m more.
    [(21.0, True), (24.0, True), (24.1, False), (26.5, False), (29.4, False), (29.5, True)],
)
def test_all_seen_but_the_counter_ran_otherwise_is_told_with_both_numbers(counter, apart):
    told = said(START, seen(counter), ended(counter, True))
    words = f"what was to be seen was told to end at {counter:g} m by the counter, by the sheet 26.5 m"
    assert (words in told) is apart
    assert ("do not agree" in told) is apart


def test_what_the_counter_leaves_over_stays_unseen_beside_the_word_of_the_operator():
    told = unseen(START, seen(21.0), ended(21.0, True))
    assert "20.5 m to 26 m down house drain (to public sewer). The operator says that all" in told
    assert "The operator says" not in unseen(START, seen(21.0), ended(21.0, False))


def test_landmarks_that_came_too_soon_are_told_with_both_numbers():
    """Tie-in at 8.6 m and bend at 12.9 m where the sheet has 10 m and 15 m."""
    told = said(START, seen(8.6, "tie-in"), seen(12.9, "bend"))
    found = re.search(r"the lens came 12.9 m in by the counter, ([\d.]+) m by the sheet", told)
    assert found is not None
    assert float(found[1]) == pytest.approx(15, abs=0.5), "it stands at the bend"
    as_drawn = said(START, seen(10.0, "tie-in"), seen(15.0, "bend"))
    assert "do not agree" not in as_drawn


def test_a_counter_that_ran_on_with_nothing_passed_tells_nothing_of_the_sheet():
    assert "do not agree" not in said(START, seen(18.0))
    unknown: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"})
    assert "do not agree" not in said(unknown, find(9.0, 9.0))


def test_more_rod_than_the_sheet_has_pipe_is_told():
    told = said(START, seen(40.0))
    assert "the lens came 40 m in by the counter; the sheet draws no more than 26.5 m of pipe" in told
    # What is to be seen ends at the joint of the laundry: beyond it there is pipe.
    part = HOUSE + TASK.replace("house drain", "house drain, from yard cleanout to laundry line")
    assert "do not agree" not in said(START, seen(20.0), text=part)
    # The 3 m of the laundry line end in the house drain.
    tub: Told = ("start", 0.0, {"opening": "washing machine", "direction": "known"})
    branch = HOUSE + TASK.replace("look at: house drain", "look at: laundry line")
    assert "do not agree" not in said(tub, seen(9.0), text=branch)


def test_who_went_on_past_what_was_to_be_seen_is_told_of_no_disagreement():
    """The laundry line joins at 10 m of 26; seen to there, the rod went on to 20 m: nothing is off."""
    task = TASK.replace("look at: house drain", "look at: house drain, from yard cleanout to laundry line")
    assert task != TASK
    told = said(START, seen(20.0), ended(20.0, True), text=HOUSE + task)
    assert "One of them is off" not in told
    short = said(START, seen(7.0), ended(7.0, True), text=HOUSE + task)
    assert "One of them is off" in short, "all of 10 m seen with 7 m of rod"
