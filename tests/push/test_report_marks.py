"""Marks in the report: depths that disagree, tapes, one place marked twice, and what was not seen."""

from __future__ import annotations

import pytest

from advisor.push.now.seen import Coverage
from advisor.push.report.sketch import _round
from advisor.push.report.words import said
from advisor.push.track.depth import expected_depth, path_length
from advisor.push.track.place import Place, place_of
from advisor.quantity import Units
from tests.cases.jobs import tables
from tests.push.test_marks import HOUSE, entry, house
from tests.push.test_report import START, Told, report, section, seen

AT_TUB: Told = ("start", 0.0, {"opening": "washing machine", "direction": "known"})
# Beside it an old drain with a sewer of its own: no pipe leads from the one to the other.
OLD = """  - line: old drain
    size: 4 in
    pieces:
      - {opening: old plug, kind: end cleanout, depth: 0.3 m}
      - pipe: 30 m
      - end: old sewer
"""
APART = HOUSE + OLD


def mark(counter: float, **data: object) -> Told:
    return ("mark", counter, {"name": "flag", **data})


def told(*entries: Told) -> str:
    return section(report(*entries), "Marks and sketch")


def test_depths_that_disagree_are_told_with_how_each_was_measured():
    # Nulls 1.414 m apart lie 1 m deep (depth = spacing / sqrt 2): beside 1.4 m read off that is no agreement.
    said_ = told(START, mark(7.0, depth=1.4, spacing=2**0.5))
    assert "No. 1: the depths disagree (1.4 m (read off), 1 m (two nulls)). Take none of them" in said_
    assert "disagree" not in told(START, mark(7.0, depth=1.0, spacing=2**0.5))
    assert "disagree" not in told(START, mark(7.0, depth=1.4)), "one measure has nothing to disagree with"


def test_two_tapes_are_told_as_a_place_off_the_line_between_their_ends():
    # 3 m and 4 m from points 5 m apart: 3^2 / 5 = 1.8 m along, 3 x 4 / 5 = 2.4 m off.
    tapes = {"tape_a": "corner", "from_a": 3.0, "tape_b": "gate", "from_b": 4.0, "between": 5.0}
    said_ = told(START, mark(7.0, **tapes))
    assert "No. 1: 1.8 m from corner toward gate, 2.4 m off that line." in said_
    assert "3 m from corner; 4 m from gate" in said_


def test_tapes_that_do_not_meet_are_told():
    tapes = {"tape_a": "corner", "from_a": 1.0, "tape_b": "gate", "from_b": 2.0, "between": 5.0}
    said_ = told(START, mark(7.0, **tapes))
    assert "No. 1: the two tapes do not meet" in said_
    assert "off that line" not in said_


def on(distance: float | None, line: str = "house drain") -> dict[str, object]:
    return {"line": line, "distance": distance} if distance is not None else {"line": line}


END: Told = ("end", 9.0, {"reached": False})


@pytest.mark.parametrize(
    ("second", "says"),
    [
        ((AT_TUB, mark(9.0, **on(7.5))), True),
        ((AT_TUB, mark(9.0, **on(None))), False),  # not measured: nothing to compare
        ((AT_TUB, mark(9.0, **on(2.0, "laundry line"))), False),  # another line
        ((START, mark(9.0, **on(7.5))), False),  # the same opening: the same counter
        ((AT_TUB, ("mark", 9.0, {"name": "peg", **on(7.5)})), False),  # another place
    ],
)
def test_one_place_marked_from_two_openings_tells_how_far_the_counters_part(second, says):
    # 7.5 m from the one side and 7 m from the other: half a metre.
    said_ = told(START, mark(7.0, **on(7.0)), END, *second)
    words = "flag was marked from yard cleanout and from washing machine: 500 mm apart along house drain."
    assert (words in said_) == says
    assert ("apart along" in said_) == says


def test_a_mark_on_another_line_stands_on_a_strip_of_its_own():
    text = HOUSE.replace("map: measured", "map: sketch") + "task: {look at: house drain}\n"
    made = report(START, mark(7.0, **on(7.0)), mark(8.0, **on(2.0, "laundry line")), text=text)
    sketch = next(each.sketch for each in made.sections if each.heading == "Marks and sketch")
    assert sketch is not None
    first, second = (sketch.svg.index(f"{name}, ") for name in ("house drain", "laundry line"))
    strips = sketch.svg[first:second], sketch.svg[second:]
    assert [(">1<" in strip, ">2<" in strip) for strip in strips] == [(True, False), (False, True)]


# -- depths, places and lengths -------------------------------------------------------------------


def test_a_line_that_is_not_on_the_sheet_has_no_place_and_no_depth():
    network, site = house()
    assert place_of(network, site, "no such line", 1.0) == "no line is called 'no such line'"
    assert expected_depth(network, "yard cleanout", "no such line", 1.0) is None


def test_a_place_on_a_branch_is_reckoned_from_where_it_joins():
    network, site = house()
    at = place_of(network, site, "laundry line", 2.5)
    assert isinstance(at, Place)
    # It runs south to where it joins, 10 m east: half a metre above that is half a metre north.
    assert (at.east, at.north) == pytest.approx((10, 0.5))


def test_what_was_passed_over_between_two_stretches_was_not_seen():
    coverage = Coverage("main", 0.0, 10.0, ((1.0, 3.0), (5.0, 6.0)))
    # By hand: 0 to 1, 3 to 5 and 6 to 10.
    assert coverage.unseen == ((0.0, 1.0), (3.0, 5.0), (6.0, 10.0))
    assert coverage.seen_length == pytest.approx(3.0)
    assert Coverage("main", 0.0, 10.0, ((0.0, 10.0),)).unseen == ()


def test_a_find_beyond_the_stretch_adds_nothing_to_what_was_seen():
    unknown: Told = ("start", 0.0, {"opening": "washing machine", "direction": "unknown"})
    at = [("find", 9.0, {"what": "roots", "line": "house drain", "distance": d}) for d in (26.0, 26.0)]
    assert seen(unknown, *at) == ()


@pytest.mark.parametrize(
    ("value", "round_"),
    [(0.3, 1), (1, 1), (1.9, 1), (2, 2), (4.99, 2), (5, 5), (9.9, 5), (10, 10), (70, 50), (250, 200)],
)
def test_the_scale_of_a_sketch_is_one_two_or_five(value, round_):
    assert _round(value) == round_


def test_yes_and_no_are_words_in_a_report():
    told_ = entry("mark", name="x", upright=True)
    assert said(told_, "upright", Units.METRIC) == "yes"
    assert said(entry("mark", name="x", upright=False), "upright", Units.METRIC) == "no"


def test_no_length_is_told_to_where_no_pipe_leads():
    network, _ = house(APART)
    start = next(piece for piece in network.openings() if piece.name == "yard cleanout")
    assert path_length(network, tables(), start, "old drain", 4.0) is None
    assert expected_depth(network, "yard cleanout", "old drain", 4.0) is None
    assert path_length(network, tables(), start, "house drain", 12.0) == pytest.approx(12.5)  # 0.5 down to it


def test_a_push_in_another_drain_shows_nothing_of_this_one():
    made = report(
        ("start", 0.0, {"opening": "old plug", "direction": "known"}),
        ("sighting", 25.0, {"what": "bend"}),
        text=APART + "task: {look at: house drain}\n",
    )
    assert "nothing of house drain" in " ".join(made.sections[0].lines)
