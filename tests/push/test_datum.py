"""Lengths of a report count from what its reader can put a tape to, first of all the opening really used."""

from __future__ import annotations

import pytest

from advisor.push.now.datum import datum_of
from advisor.push.now.seen import runs_of
from advisor.push.report.pages import text_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.cases.jobs import tables
from tests.push.test_report import Told, entries, report, section
from tests.terminal.test_now_shown import pushed

# By hand: the wall is met 6 m down, the cleanout that is used 0.5 m on, the one that nobody knows of 1 m on.
SHEET = """site: yard
region: north america
map: guess
lines:
  - line: house drain
    size: 4 in
    pieces:
      - {opening: crawl cleanout, kind: end cleanout, there: no}
      - {joined by: laundry, fitting: wye}
      - {pipe: assumed 4 to 8 m, landmark: foundation wall}
      - pipe: 0.5 m
      - {opening: near cleanout, kind: yard cleanout, depth: 0.5 m}
      - pipe: 1 m
      - {opening: far cleanout, kind: two-way cleanout, there: 50 %}
      - pipe: 10 m
      - bend: 1/8 bend
      - pipe: 10 m
      - end: public sewer
  - line: laundry
    size: 2 in
    pieces:
      - fixture: washing machine
      - pipe: 3 m
task: {look at: "house drain, from far cleanout to public sewer", complaint: {holding: no}}
"""
START: Told = ("start", 0.0, {"opening": "near cleanout", "direction": "downstream"})
BEND: Told = ("sighting", 11.5, {"what": "bend"})
ROOTS = {"what": "roots", "line": "house drain", "distance": 15.5, "low": 15.0, "high": 16.0, "sure": 0.95}


def test_they_count_from_the_opening_used_and_it_from_a_wall():
    made = report(START, BEND, ("find", 9.5, ROOTS), text=SHEET)
    text = " ".join(text_of(made).split())
    assert "Lengths along house drain count from near cleanout, where a rod went in." in text
    assert "near cleanout lies 500 mm from foundation wall along house drain, by the sheet." in text
    assert "crawl cleanout" not in text
    where = section(made, "Finds")
    assert "by the sheet 9 m down house drain from near cleanout (8.5 m to 9.5 m)" in where
    # 9.5 m in less the riser are the 9 m above ground: told once, not in two counts.
    assert "above ground 9 m along the line (9.5 m in, less 0.5 m of upright pipe)" in where
    assert "by the counter that is" not in where


def test_an_opening_of_which_nobody_knows_is_told_so_with_its_place():
    told = section(report(START, BEND, text=SHEET), "In short")
    assert "from far cleanout (not known to be there; by the sheet 1 m down it from near cleanout) to" in told
    assert "11 m to 21 m down house drain from near cleanout (to public sewer)" in told
    # A push that passed it knows of it.
    mouths: Told = ("sighting", 1.5, {"what": "two mouths"})
    find: Told = ("find", 9.5, ROOTS)
    for passed, doubted in (((mouths,), False), ((), True)):
        made = report(START, *passed, BEND, find, text=SHEET)
        assert ("not known to be there" in section(made, "In short")) == doubted
        sketch = next(each.sketch for each in made.sections if each.sketch)
        assert ("far cleanout, if it is there" in sketch.svg) == doubted


@pytest.mark.parametrize(
    ("text", "opening", "told"),
    [
        # Nobody went in on the line: its upper end, where that is there, else what surely is.
        (SHEET.replace("there: no", "depth: 0.5 m"), "washing machine", "its upper end, crawl cleanout."),
        (SHEET, "washing machine", "from foundation wall."),
        (SHEET, "near cleanout", "from near cleanout, where a rod went in."),
    ],
)
def test_what_was_never_used_counts_only_where_it_is_there(text, opening, told):
    network = network_of(site_of_text(text, "site", tables()), tables())
    runs = runs_of(entries(("start", 0.0, {"opening": opening})))
    assert told in datum_of("house drain", runs, network).told()


def test_up_and_down_of_it_are_told_apart():
    network = network_of(site_of_text(SHEET, "site", tables()), tables())
    datum = datum_of("house drain", runs_of(entries(START)), network)
    assert datum.point(2.5, str) == "4.0 up house drain from near cleanout"
    assert datum.span(2.5, 8.5, str) == (
        "4.0 upstream of near cleanout to 2.0 downstream of it, along house drain"
    )
    assert datum.between(2.5, 8.5, str) == "4.0 upstream to 2.0 downstream"
    assert datum.span(2.5, 6.5, str) == "0.0 to 4.0 up house drain from near cleanout"


def test_the_screens_of_a_push_count_from_it_too(capsys):
    """Every screen counted from the line's upper end, an opening that was told as not there."""
    bend = ("sighting", 9.0, {"what": "nothing"})
    now = pushed(SHEET, "near cleanout", bend, direction="downstream")
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert "8.5 m past near cleanout by the counter; by the sheet 8." in said
    assert "m down it from near cleanout" in said
    assert "from its top" not in said
