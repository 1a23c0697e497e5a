"""A head that only goes in is told no figure of the sheet that runs back, or jumps where the rod did not.

From a trial: in at the lower chamber, 5.9, 7.1, 7.7 and 8.2 m of rod, nothing drawn back, and "by the sheet"
4.9, 7.5, 6.9 and 6.7 m up the drain: held at 7.1 m it was likeliest at the next chamber, and once it went on
and no chamber came, before it. By such a figure somebody marks the ground.
"""

from __future__ import annotations

import re

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.push.now.ran_otherwise import ran_otherwise
from advisor.terminal.push.here import show_now
from tests.push.test_spent_no_first import DRAIN, RIM
from tests.terminal.test_now_shown import Told, pushed, shown

__all__ = ["shown"]  # fixture
# Two stacks come into the upper chamber, where a head is held far more often than in the pipe before it.
JOINED = "\n      - joined by: {0}\n        fitting: assumed chamber branch"
STACK = """
  - line: {0}
    kind: stack
    size: 110 mm
    material: plastic
    pieces:
      - opening: vent of the {0}
        kind: roof vent
      - drop: 3 m
      - bend: assumed stack-base bend
      - pipe: 1 to 4 m"""
SHEET = DRAIN.replace(
    "- opening: yard chamber",
    "- opening: rodding eye\n        kind: rodding eye\n      - pipe: 6 m\n      - opening: yard chamber",
)
SHEET = SHEET.replace(
    "\n      - pipe: 8 m",
    "".join(JOINED.format(each) for each in ("one stack", "other stack")) + "\n      - pipe: 8 m",
)
SHEET = SHEET.replace(
    "\ntask:", "".join(STACK.format(each) for each in ("one stack", "other stack")) + "\ntask:"
)
CHAMBER: Told = (SIGHTING, 8.9, {"what": "chamber"})
FIGURE = re.compile(r"by the sheet ([\d.]+) m up it from front chamber")
SPAN = re.compile(r"by the sheet somewhere ([\d.]+) m to ([\d.]+) m up it from front chamber")


def read(counter: float) -> Told:
    return SIGHTING, counter, {"what": "nothing"}


WAY: tuple[Told, ...] = (read(3.9), read(5.9), RIM, read(7.7), read(8.2), CHAMBER)


def told(shown, *entries: Told) -> str:
    return shown(show_now, pushed(SHEET, "front chamber", *entries, direction="upstream"))


def test_no_figure_runs_back_as_the_head_goes_in(shown):
    screens = [told(shown, *WAY[: count + 1]) for count in range(len(WAY))]
    assert all(FIGURE.search(each) or SPAN.search(each) for each in screens)
    figures = [float(found[1]) for each in screens if (found := FIGURE.search(each))]
    assert len(figures) >= 3, "where it runs as the rod does it is told as before"
    assert figures == sorted(figures)
    (at_stop,) = SPAN.findall(screens[2])
    # By hand: 7.1 m of rod less the 0.9 m down to the pipe is 6.2 m, and the span holds that.
    assert float(at_stop[0]) < 6.2 < float(at_stop[1])


def test_at_what_was_seen_the_sheet_has_its_own_number(shown):
    """By hand: the chamber lies 8 m up the drain."""
    assert "at yard chamber, as it was seen; by the sheet 8 m up it" in told(shown, *WAY)


@pytest.mark.parametrize(
    ("entries", "otherwise"),
    [
        (WAY[:2], False),
        (WAY[:3], True),  # held, it is likeliest at the chamber: the rod did not run so far
        ((*WAY[:2], read(7.1), RIM), True),  # also where it was read there before
        (WAY[:4], True),
        (WAY[:5], True),
    ],
)
def test_it_ran_otherwise_only_where_what_was_told_moved_it(entries, otherwise):
    assert ran_otherwise(pushed(SHEET, "front chamber", *entries, direction="upstream")) == otherwise
