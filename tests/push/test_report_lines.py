"""No line of a report ends between a number and its unit: 4.7 at the end of one is read as what it is not."""

from __future__ import annotations

import json
import re

from advisor.push.report.pages import WIDE, data_of, text_of
from advisor.push.report.parts import Report, Section
from tests.push.test_report import START, Told, report, section

WORDS = "by the sheet 12.9 m down rear drain from 4.7 m to 6.4 m in, 95 % sure of it, 769 mm deep. "


def test_a_number_and_its_unit_stay_on_one_line_on_screen_and_on_paper():
    lines = tuple("x" * pad + " " + WORDS for pad in range(WIDE))
    made = Report("a", "b", (Section("c", lines, ("where",), tuple((line,) for line in lines)),))
    text = text_of(made)
    assert not re.search(r"[0-9]\n *(mm|m|%)\b|[0-9]\n *%", text)
    assert "95 % sure" in text, "plain blanks, to be searched and copied"
    assert max(map(len, text.splitlines())) <= WIDE + 2
    section = json.loads(data_of(made, "a4")["report"])["sections"][0]
    for each in (section["lines"][0], section["rows"][0][0]):
        assert "4.7\u00a0m to 6.4\u00a0m in, 95\u00a0% sure of it, 769\u00a0mm" in each


def test_an_expected_depth_is_told_no_finer_than_a_tape_lies_on_the_ground():
    """The plug lies 0.5 m deep; 8.35 m on at 2 % are 0.167 m more, of ground that nobody levelled."""
    crack: Told = ("find", 8.85, {"what": "crack", "line": "house drain", "distance": 8.35})
    assert "0.67 m expected for level ground" in section(report(START, crack), "Finds")
