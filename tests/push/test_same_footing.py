"""Sheet and counter are both counted from the rim, and lengths that a reader can add up come out.

A yard with a chamber as a session drew it: 0.6 m from the rim down to the line, the stack joins in the
chamber, a rain pipe 1 to 3 m on. By hand it is met 1.6 to 3.6 m in: read at 2.7 m, counter and sheet agree.
Read there, and stopped at 8 m, 8 - 2.7 = 5.3 m of the stretch behind it were seen.
"""

from __future__ import annotations

import re

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.now import Now
from advisor.push.report.pages import text_of
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.push.test_report import report
from tests.terminal.test_now_shown import pushed

YARD = """
site: invented
region: britain
built: 1932
map: guess
lines:
  - line: rear drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - opening: kitchen gully
        kind: gully
      - pipe: assumed 1 to 4 m
      - opening: yard chamber
        kind: inspection chamber
        depth: assumed 600 mm
      - joined by: soil stack
        fitting: chamber branch
      - pipe: assumed 1 to 3 m
      - joined by: rain pipe
        fitting: chamber branch
      - pipe: assumed 5 to 14 m
      - opening: front chamber
        kind: inspection chamber
        depth: assumed 1 m
      - pipe: 7 m
      - end: public sewer
  - line: soil stack
    kind: stack
    size: 100 mm
    pieces:
      - opening: vent
        kind: roof vent
      - drop: 5 m
      - bend: stack-base bend
      - pipe: 1 m
  - line: rain pipe
    kind: rain
    size: 100 mm
    pieces:
      - opening: rain gully
        kind: gully
      - pipe: 2 m
task:
  look at: rear drain, from rain pipe to front chamber
  complaint: {slow: [kitchen gully], holding: no, chemicals: no}
"""
STACK = (SIGHTING, 0.9, {"what": "tie-in", "clock": 3.0, "size": 0.1})


def rain(at: float) -> tuple[str, float, dict[str, object]]:
    return SIGHTING, at, {"what": "tie-in", "clock": 9.0, "size": 0.1}


def now(*told) -> Now:
    return pushed(YARD, "yard chamber", *told, direction="downstream")


def said(now: Now, capsys: pytest.CaptureFixture[str]) -> str:
    capsys.readouterr()
    show_now(now, Page())
    return " ".join(capsys.readouterr().out.split())


def test_within_what_the_sheet_may_have_nothing_is_off(capsys):
    text = said(now(STACK, rain(2.7)), capsys)
    assert "That is: a tie-in at 9 or 3 o'clock: rain pipe" in text
    assert "off" not in text


def test_far_from_it_both_are_told_from_the_same_rim(capsys):
    """The sewer, told as the end, at 24 m where the sheet has it at 19.1."""
    there = now(STACK, rain(2.7), (SIGHTING, 24.0, {"what": "end"}))
    text = said(there, capsys)
    found = re.search(
        r"In from yard chamber 24 m by the counter, ([\d.]+) m by the sheet, both with the "
        r"0.6 m from its rim to the line: one of them is off",
        text,
    )
    assert found is not None
    # By hand, as likely: 0.6 m to the line, 2 and 9.5 and 7 m of pipe.
    assert float(found[1]) == pytest.approx(19.1, abs=0.5)


def test_one_place_has_one_length_on_the_screen():
    """From the rim in, less the 0.6 m and what lies before the chamber on its line, is how far down it."""
    best = now(STACK, rain(2.7), (SIGHTING, 6.0, {"what": "nothing"})).fix.best
    assert best.at == pytest.approx(best.inside - 0.6 + 2.5, abs=0.01)


def test_what_was_seen_is_counted_from_where_its_beginning_was_read():
    start = ("start", 0.0, {"opening": "yard chamber", "direction": "downstream"})
    made = report(start, STACK, rain(2.7), ("stopped", 8.0, {"feel": "dead"}), text=YARD)
    text = " ".join(text_of(made).split())
    seen = re.search(
        r"Seen: ([\d.]+) m of the ([\d.]+) m of rear drain .* from where rain pipe joins to "
        r"([\d.]+) m down it from yard chamber by the counter",
        text,
    )
    left = re.search(
        r"Not shown to have been seen: ([\d.]+) m to ([\d.]+) m down rear drain from yard chamber", text
    )
    assert seen is not None
    assert left is not None
    assert float(seen[1]) == pytest.approx(8 - 2.7)
    assert seen[3] == left[1]
    assert float(left[2]) - float(left[1]) == pytest.approx(float(seen[2]) - float(seen[1]))
