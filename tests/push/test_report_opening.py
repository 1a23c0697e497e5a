"""A push from the middle of a line, nobody told which way, with a counter that showed 0.6 m at the opening.

The line of the sheet: basin, 4 m, a bend, 6 m, the stack foot plug, 5 m to where the laundry joins, 5 m to a
bend, 10 m to the public sewer. Down it the plug stands at 10 m, the laundry at 15 m, the bend at 20 m and the
end at 30 m; depth 0.6 m at the plug, slope 2 %.
"""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import pytest

from advisor.push.log.went_in import readings_of
from advisor.push.report.advice import read_advice
from advisor.push.report.build import report_of
from advisor.push.report.export import csv_of, json_of
from advisor.push.report.geojson import geojson_of
from advisor.push.report.log_datum import counted_from
from advisor.push.report.marks import spots
from advisor.push.report.pages import text_of
from advisor.quantity import Units, show_counter
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from advisor.terminal.log_screen import line_of
from tests.cases.jobs import rules, tables
from tests.push.test_report import HOUSE, TASK, Told, case, entries, report, section

FOOT = 0.3048
SHEET = """site: yard
region: north america
map: measured
lines:
  - line: house drain
    size: 4 in
    slope: 2 %
    pieces:
      - fixture: basin
      - pipe: 4 m
      - bend: 1/8 bend
      - pipe: 6 m
      - {opening: stack foot plug, kind: floor cleanout, depth: 0.6 m}
      - pipe: 5 m
      - {joined by: laundry, fitting: wye}
      - pipe: 5 m
      - bend: 1/8 bend
      - pipe: 10 m
      - end: public sewer
  - line: laundry
    size: 2 in
    pieces:
      - fixture: washing machine
      - pipe: 3 m
task: {look at: house drain, complaint: {slow: [washing machine]}}
"""
AT = 0.6  # m on the counter with the head at the opening
RISER = 0.6  # m from the rim to the line, which is no part of it
START: Told = ("start", AT, {"opening": "stack foot plug", "direction": "unknown"})
TIE: Told = ("sighting", RISER + 5 + AT, {"what": "tie-in"})
BEND: Told = ("sighting", RISER + 10 + AT, {"what": "bend"})
END: Told = ("sighting", RISER + 20 + AT, {"what": "end"})
DONE: Told = ("end", RISER + 20 + AT, {"reached": True})


def tied(kind: str, counter: float, distance: float, **more: object) -> Told:
    named = {"what" if kind == "find" else "name": "roots"}
    return (kind, counter, {**named, "line": "house drain", "distance": distance, **more})


def made(*told: Told, text: str = SHEET):
    return report(START, *told, text=text)


def said(*told: Told) -> str:
    return " ".join(text_of(made(*told)).split())


# -- what was seen ----------------------------------------------------------------------------


def test_what_was_passed_tells_the_way_where_nobody_did():
    """Down from the riser laundry, bend and sewer lie at 5, 10 and 20 m; up, bend and basin at 6 and 10 m."""
    told = said(TIE, BEND, END, tied("find", 8 + AT, 18.0), DONE)
    assert (
        "Seen: 20 m of the 30 m of house drain that were to be seen, from stack foot plug to public sewer."
        in told
    )
    assert "the counter, and which way it went by what the lens passed" in told
    assert (
        "Not shown to have been seen: 0 m to 10 m up house drain from stack foot plug (from stack foot plug"
        " to basin)." in told
    )
    assert "Lengths along house drain count from stack foot plug, where a rod went in." in told


def test_what_lies_beyond_the_counter_was_not_seen_though_the_way_is_known():
    told = said(TIE, BEND)
    assert "Seen: 10 m of the 30 m" in told
    assert "10 m to 20 m down house drain from stack foot plug" in told


@pytest.mark.parametrize(
    "told",
    [
        (("sighting", 8 + AT, {"what": "nothing"}),),  # no landmark
        (("sighting", 8 + AT, {"what": "two mouths"}),),  # one that the sheet has nowhere
    ],
)
def test_without_a_landmark_that_is_known_nothing_counts_by_the_counter(told):
    assert "By the log nothing of house drain" in said(*told)


def test_that_the_sheet_draws_but_one_way_shows_nothing():
    """From the cleanout at the top of a line the sheet leads down only; nothing was passed that shows it."""
    unknown: Told = ("start", 0.0, {"opening": "yard cleanout", "direction": "unknown"})
    told = report(unknown, ("sighting", 9.0, {"what": "nothing"}), text=HOUSE + TASK)
    assert "By the log nothing of house drain" in section(told, "In short")


# -- the counter at the opening ---------------------------------------------------------------


def test_what_the_counter_showed_at_the_opening_is_taken_off_wherever_a_place_is_told():
    told = made(
        TIE, BEND, tied("find", 8 + AT, 18.0), tied("mark", 8 + AT, 18.0), ("stopped", RISER + 10 + AT, {})
    )
    place = "8 m in (counter 8.6 m, 0.6 m at the opening) from stack foot plug"
    assert place in section(told, "Finds")
    assert place in section(told, "Marks")
    assert "10.6 m in (counter 11.2 m" in section(told, "Pushes")
    assert "5.6 m in (counter 6.2 m)" in section(told, "Seen in this order")
    assert "Stopped at 10.6 m in (counter 11.2 m" in section(told, "Recommended")


def test_a_counter_set_anew_is_followed():
    """8 m in it was set to nothing, and 3 m further on the find is 11 m in."""
    logged = entries(START, TIE, ("counter reset", 8 + AT, {"now": 0.0}), tied("find", 3.0, 21.0))
    assert [each.inside for each in readings_of(logged).values()] == pytest.approx([0, 5.6, 8, 11])
    told = made(TIE, ("counter reset", 8 + AT, {"now": 0.0}), tied("find", 3.0, 21.0))
    assert "11 m in (counter 3 m, set anew on the way) from stack foot plug" in section(told, "Finds")


def test_a_counter_at_nothing_is_told_as_it_is():
    start: Told = ("start", 0.0, START[2])
    told = report(start, tied("find", 8.0, 18.0), text=SHEET)
    assert "counter 8 m from stack foot plug" in section(told, "Finds")


def test_exports_and_log_tell_how_far_in_beside_the_counter():
    logged = entries(START, TIE, tied("find", 8 + AT, 18.0))
    rows = list(csv.DictReader(io.StringIO(csv_of(logged))))
    assert [float(row["in from opening m"]) for row in rows] == pytest.approx([0, 5.6, 8])
    assert float(rows[2]["counter m"]) == pytest.approx(8.6)
    assert [row["in_from_opening"] for row in json.loads(json_of(logged))] == pytest.approx([0, 5.6, 8])
    sheet = site_of_text(SHEET, "site", tables())
    network = network_of(sheet, tables())
    found = spots(logged, network, sheet.model, read_advice(rules_dir(), tables()), tables())
    told = geojson_of(found, sheet.model, counted_from(logged, network))
    point = json.loads(told)["features"][0]["properties"]
    assert (point["counter_m"], point["in_from_opening_m"]) == pytest.approx((8.6, 8.0))
    # The rod went in at the stack foot plug: a length that a tape can be put to, not that of the log.
    assert point["lengths_along_the_line_count_from"] == "stack foot plug"
    assert point["down_the_line_m"] == pytest.approx(18.0 - 10.0, abs=0.2)  # less 4 m, a bend and 6 m
    line = line_of(logged[2], Units.METRIC, tables().stuck, readings_of(logged)[3])
    assert "start at 0.6 m: in at" in line_of(logged[0], Units.METRIC, tables().stuck, readings_of(logged)[1])
    assert "find at 8 m in (counter 8.6 m, 0.6 m at the opening): roots" in line


@pytest.mark.parametrize(
    ("feet", "shown"), [(11.5, "11.5 ft"), (17.5, "17.5 ft"), (2, "2 ft"), (26.04, "26 ft")]
)
def test_a_counter_is_shown_as_it_was_told(feet, shown):
    assert show_counter(feet * FOOT, Units.INCH) == shown
    (logged,) = entries(("find", feet * FOOT, {"what": "roots"}))
    assert f"find at {shown}: roots" in line_of(logged, Units.INCH, tables().stuck)


def test_what_was_taped_above_ground_is_shown_as_a_tape_reads():
    """5 ft 3 in was typed for a depth, and 5.25 ft and 5.2 ft told of it: nobody holds a tape to that."""
    taped = {"tape_a": "corner", "from_a": 17.5 * FOOT, "depth": 5.25 * FOOT}
    (logged,) = entries(("mark", 1.0, {"name": "a", **taped}))
    line = line_of(logged, Units.INCH, tables().stuck)
    assert "17 ft 6 in long" in line
    assert "depth 5 ft 3 in" in line
    metric = line_of(logged, Units.METRIC, tables().stuck)
    assert "depth 1.6 m" in metric  # 5.25 x 0.3048 = 1.6002
    inch = replace(case(SHEET), units=Units.INCH)
    standing = entries(START, TIE, ("mark", 8.0, {"name": "a", **taped}))
    told = section(report_of("a job", standing, inch, tables(), rules(), rules_dir()), "Marks")
    assert "5 ft 3 in (read off)" in told
    assert "17 ft 6 in from corner" in told
    assert "5.2" not in told


# -- depths -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("read", "apart"),
    # Expected 8 m down from the plug: 0.6 + 8 x 0.02 = 0.76 m, nothing of it assumed. A reading is good to
    # 15 %, the ground to 0.3 m: 1.10 m is off by 0.34 of sqrt(0.165^2 + 0.3^2) = 0.342, 1.12 m by 0.36 of
    # 0.344.
    [(0.76, False), (1.10, False), (1.12, True), (1.4, True), (0.40, True), (0.50, False)],
)
def test_a_depth_unlike_the_expected_one_is_told_to_whoever_digs(read, apart):
    told = made(
        TIE, BEND, tied("find", 8 + AT, 18.0, advice="dig here"), tied("mark", 8 + AT, 18.0, depth=read)
    )
    for part in ("Marks", "Recommended"):
        assert ("trust neither before digging" in section(told, part)) is apart
    if read == 1.4:
        assert "No. 2: 1.4 m deep was measured, 0.76 m is expected. They do not agree" in section(
            told, "Marks"
        )
        assert "No. 1: 1.4 m deep was measured" in section(told, "Recommended")


def test_a_fall_that_is_only_assumed_makes_the_expected_depth_less_sure():
    """Where nobody measured the lengths, the same reading is no wonder."""
    loose = SHEET.replace("map: measured", "map: sketch")
    mark = tied("mark", 18 + AT, 28.0, depth=1.36)
    # Expected 0.6 + 18 x 0.02 = 0.96 m, off by 0.40: sqrt(0.204^2 + 0.3^2) = 0.363, with 0.36 m assumed 0.51.
    assert "trust neither" in section(made(TIE, BEND, mark), "Marks")
    assert "trust neither" not in section(made(TIE, BEND, mark, text=loose), "Marks")
