"""A sheet that was changed after a push: its places are by another drawing, and whoever digs is told so."""

from __future__ import annotations

import pytest

from advisor.push.log.redrawn import redrawn, version_of
from advisor.site.build import network_of
from advisor.site.network import Network
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.push.test_marks import HOUSE
from tests.push.test_report import START, TASK, Told, entries, report, section
from tests.push.test_which_spot import CLAY
from tests.terminal.test_now_shown import study_of

SHEET = HOUSE + TASK


def drawn(text: str = SHEET) -> Network:
    return network_of(site_of_text(text, "site", tables()), tables())


def begun(text: str = SHEET) -> Told:
    return START[0], START[1], {**START[2], "sheet": version_of(drawn(text))}


FIND: Told = ("find", 9.0, {"what": "break", "line": "house drain", "distance": 9.0, "sure": 0.95})
NEAR: Told = ("find", 9.0, {**FIND[2], "low": 8.9, "high": 9.1})
LONGER = SHEET.replace("pipe: 10 m", "pipe: 14 m")


def test_what_moves_no_place_is_no_other_version():
    assert version_of(drawn()) == version_of(
        drawn(SHEET.replace("slope: 2 %", "slope: 2 %\n    material: clay"))
    )
    for text in (SHEET, CLAY):
        assert version_of(drawn(text)) == version_of(study_of(text).network), (
            "nor what is to be seen, a chamber"
        )


@pytest.mark.parametrize(
    ("what", "changed"),
    [
        ("pipe: 10 m", "pipe: 14 m"),
        ("depth: 0.5 m", "depth: 1.5 m"),
        ("drop: 1 m", "drop: 1 m\n      - opening: yard pit\n        kind: floor cleanout"),
    ],
)
def test_a_length_or_an_opening_makes_another(what, changed):
    assert version_of(drawn(SHEET.replace(what, changed))) != version_of(drawn())


def test_the_report_says_it_first_and_sends_nobody_to_dig_there():
    told = (begun(), NEAR, ("end", 9.0, {"reached": False}))
    same, other = report(*told, text=SHEET), report(*told, text=LONGER)
    assert "The sheet was changed" not in section(same, "In short")
    for heading in ("In short", "What was not seen"):
        assert "The sheet was changed since these pushes began: in from yard cleanout 2026" in section(
            other, heading
        )
    assert "the sheet was changed after the push that told it" in section(other, "Sketch")
    assert "LOCATE IT ABOVE GROUND BEFORE DIGGING" not in section(same, "Finds")
    assert "LOCATE IT ABOVE GROUND BEFORE DIGGING" in section(other, "Finds")


def test_of_an_older_log_nobody_knows():
    (start,) = entries(START)
    assert not redrawn(start, drawn())
