"""With the way of the opening known the rod may still leave the line at a fork: the rest is not seen."""

from __future__ import annotations

import pytest

from tests.push.test_report import START, Told, report, section

# From the plug 5 m up the main a branch joins: 1 m up it is a bend, 6 m on its end. The main runs 12 m on.
FORK = """
site: invented
region: north america
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    pieces:
      - {opening: top plug, kind: end cleanout}
      - pipe: 12 m
      - {joined by: branch, fitting: wye, side: left}
      - pipe: 5 m
      - {opening: plug, kind: end cleanout}
      - pipe: 3 m
      - end: public sewer
  - line: branch
    size: 4 in
    pieces:
      - capped: yes
      - pipe: 6 m
      - bend: 1/4 bend
      - pipe: 1 m
task: {look at: "main, from top plug to plug", complaint: {holding: no}}
"""
AT_PLUG: Told = ("start", 0.0, {**START[2], "opening": "plug"})


@pytest.mark.parametrize(
    ("passed", "seen"),
    [
        # A bend a metre behind the fork and an end at 12 m: that is the branch, so 5 m of the main were seen.
        ((("sighting", 6.1, {"what": "bend"}), ("sighting", 12.1, {"what": "end"})), "5 m of the 17 m"),
        # Nothing that tells of a branch: 10.1 m less the 0.1 m of the opening's end.
        ((("sighting", 10.1, {"what": "nothing"}),), "10 m of the 17 m"),
    ],
)
def test_what_was_passed_behind_a_fork_off_the_line_is_not_seen_of_the_line(passed, seen):
    told = section(report(AT_PLUG, *passed, text=FORK), "In short")
    assert f"Seen: {seen} of main" in told
    assert ("what the lens passed" in told) is (len(passed) > 1)
