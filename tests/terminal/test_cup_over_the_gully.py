"""No cup goes into a sink whose own pipe ends over the gully that backs up: it comes up there at once.

From a trial: the kitchen gully backed up, the kitchen sink's pipe ended over it, and the first cup was to go
"into the basin, kitchen sink, bath". Common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.push.test_drains import FLOOR_PLUG, UNSURE, walk
from tests.terminal.test_now_shown import pushed

GULLY = """  - line: scullery line
    kind: drain
    size: 4 in
    pieces:
      - fixture: basin
        label: scullery sink
      - pipe: 1 m
      - {0}
      - pipe: 3 m
      - end: soakaway
task:"""


def not_into(told: str, opening: str = "{opening: kitchen gully, kind: gully}") -> frozenset[str]:
    site = walk(f"holding: no, chemicals: no, {told}").replace("task:", GULLY.replace("{0}", opening))
    return pushed(site, FLOOR_PLUG, UNSURE, direction="downstream").line.not_into


def test_what_ends_over_a_gully_that_backs_up_takes_no_cup():
    assert "scullery sink" in not_into("backs up: [kitchen gully]")
    assert "scullery sink" in not_into("backs up: [bath], slow: [kitchen gully]")


@pytest.mark.parametrize(
    ("told", "opening"),
    [
        ("backs up: [bath]", "{opening: kitchen gully, kind: gully}"),
        # All of a house runs through a chamber: that tells one fixture from another by nothing.
        ("backs up: [yard chamber]", "{opening: yard chamber, kind: inspection chamber}"),
    ],
)
def test_else_it_may(told, opening):
    assert "scullery sink" not in not_into(told, opening)


def test_nor_what_joins_below_it():
    assert not_into("backs up: [kitchen gully]") == {"scullery sink"}
