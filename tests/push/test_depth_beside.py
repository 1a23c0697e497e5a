"""A depth that was measured stands wherever it holds: a find under the mark is not said to have none."""

from __future__ import annotations

import pytest

from tests.push.test_marks import HOUSE
from tests.push.test_report import START, TASK, Told, report

UNKNOWN = HOUSE.replace("        depth: 0.5 m\n", "") + TASK  # nobody measured how deep the opening is


def find(counter: float, distance: float | None = None, what: str = "roots") -> Told:
    return ("find", counter, {"what": what, **on(distance)})


def mark(counter: float, distance: float | None = None, **data: object) -> Told:
    return ("mark", counter, {"name": "flag", **on(distance), **data})


def on(distance: float | None) -> dict[str, object]:
    return {} if distance is None else {"line": "house drain", "distance": distance}


def depths(*told: Told) -> dict[str, str]:
    """The depth that the report gives for each number."""
    made = report(START, *told, text=UNKNOWN)
    found = {}
    for section in made.sections:
        if "depth" in section.header:
            found.update({row[0]: row[section.header.index("depth")] for row in section.rows})
    return found


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (find(7.0, 7.0), mark(7.0, 7.0, depth=1.4)),
        (find(7.0), mark(7.0, depth=1.4)),  # on no line of the sheet: by the counter of one push
        (find(7.0), mark(7.3, 7.0, depth=1.4)),
    ],
)
def test_a_depth_measured_at_one_place_holds_for_what_else_is_there(first, second):
    assert depths(first, second) == {
        "1": "not measured here; at no. 2: 1.4 m (read off)",
        "2": "1.4 m (read off)",
    }


AT_TUB: Told = ("start", 0.0, {"opening": "washing machine", "direction": "known"})


@pytest.mark.parametrize(
    ("first", "between", "second"),
    [
        (find(7.0, 7.0), (), mark(9.0, 9.0, depth=1.4)),  # two metres further on
        (find(7.0), (), mark(9.0, depth=1.4)),
        (find(7.0), (AT_TUB,), mark(7.0, depth=1.4)),  # another push: another counter
        (find(7.0), (("counter reset", 7.0, {"now": 0.0}),), mark(7.0, depth=1.4)),
        (find(7.0, 7.0), (), mark(7.0, depth=None)),
        (mark(7.0, 7.0), (), mark(7.0, 7.0, depth=1.4)),  # a mark is where it was read, or was not
        (find(7.0, 7.0), (), mark(7.0, 7.0, depth=18.3)),  # 60 ft: no drain lies there
    ],
)
def test_and_for_nothing_that_is_elsewhere(first, between, second):
    assert depths(first, *between, second)["1"] == "not measured"


def test_a_spot_with_a_depth_of_its_own_needs_no_other():
    told = depths(mark(7.0, 7.0, depth=1.2, how="dug"), mark(7.0, 7.0, depth=1.4))
    assert told == {"1": "1.2 m (dug)", "2": "1.4 m (read off)"}


def test_readings_that_give_no_depth_are_not_passed_over():
    """Raised, the signal must be weaker: here it is stronger, so something was read wrong."""
    assert depths(mark(7.0, near=10.0, far=20.0, raised=1.0)) == {"1": "what was read gives no depth"}


def test_depths_that_disagree_are_lent_to_nobody():
    """docs/log-and-report.md: two ways of measuring that disagree are told as no depth. Two nulls 1 m apart
    tell 1/sqrt(2) m, by the field of a dipole."""
    told = depths(find(7.0, 7.0), mark(7.0, 7.0, depth=1.4, spacing=1.0))
    assert "1.4 m" in told["2"], "what was read stays with its mark"
    assert "at no. 2" not in told["1"]
    agreed = depths(find(7.0, 7.0), mark(7.0, 7.0, depth=0.7, spacing=1.0))
    assert "at no. 2" in agreed["1"]


def test_a_depth_is_not_lent_across_a_pull_back():
    """Drawn back and pushed in again the rod may lie in another pipe: the same reading is another place."""
    back: Told = ("pulled back", 1.0, {})
    told = depths(find(7.0), back, mark(7.2, depth=1.4))
    assert "at no. 2" not in told["1"]
    little: Told = ("pulled back", 6.8, {})  # backed off a hand's breadth to look
    assert "at no. 2" in depths(find(7.0), little, mark(7.2, depth=1.4))["1"]


def doubted(depth: float, text: str = UNKNOWN) -> str:
    """What whoever digs is told of a depth that was read at a mark."""
    made = report(START, mark(7.0, 7.0, depth=depth), text=text)
    return " ".join(line for each in made.sections for line in each.lines if "deep was measured" in line)


def test_a_depth_that_no_drain_has_is_not_to_be_dug_by_where_the_sheet_tells_none():
    """60 inches taken for feet: 18.29 m. Drains of buildings lie within reach of a small digger."""
    assert "Do not trust it before digging" in doubted(18.29)
    assert doubted(1.52) == ""


def test_where_the_sheet_tells_one_neither_is_to_be_trusted():
    """HOUSE: 0.5 m at the opening and 2 % over 7 m, so 0.64 m."""
    known = HOUSE + TASK
    assert "trust neither before digging" in doubted(18.29, known)
    assert "trust neither before digging" in doubted(1.9, known)
    assert doubted(0.7, known) == ""


@pytest.mark.parametrize(
    ("read", "own", "doubted"),
    [
        (1.4, {}, True),
        (0.7, {}, False),
        (1.4, {"depth": 0.6}, False),
    ],  # 0.65 m by hand, and 0.6 m at the find
)
def test_what_one_depth_belies_is_trusted_nowhere(read, own, doubted):
    """From a trial: at the find `0.67 m expected`, and 4 m on 1.1 m was read where 0.72 m
    was expected. HOUSE: 0.5 m at the opening and 2 % over 7.5 m, so 0.65 m."""
    made = report(START, mark(3.0, 3.0, **own), find(4.0, 4.0), mark(7.5, 7.5, depth=read), text=HOUSE + TASK)
    rows = [row for each in made.sections if "depth" in each.header for row in each.rows if row[0] in "12"]
    says = f"do not trust that: at no. 3 {read} m was measured, 0.65 m expected"
    told = [row for row in rows if says in row[-2]]
    assert len(told) == (2 if doubted else 1 if own else 0)
