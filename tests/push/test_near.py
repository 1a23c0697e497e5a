"""What counts as near a place, measured by hand on an invented drain."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.push.log.sighting import Read
from advisor.push.track.fix import fix_of
from advisor.push.track.near import Stretches
from advisor.push.track.ways import Intent
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.push.sites import WALK, tracker_on

# On the house drain: laundry at 3 m, the plug at 7, kitchen at 10, bath at 14, the sewer from 29.5.
LAUNDRY, KITCHEN, BATH = ("laundry line", 1.0), ("kitchen line", 1.0), ("bath line", 1.0)
UPPER, ABOVE, BELOW = ("house drain", 1.0), ("house drain", 5.0), ("house drain", 8.0)
BETWEEN, LOWER, SEWER = ("house drain", 12.0), ("house drain", 20.0), ("public sewer", 3.0)
ALL = (LAUNDRY, KITCHEN, BATH, UPPER, ABOVE, BELOW, BETWEEN, LOWER, SEWER)


@pytest.fixture(scope="module")
def stretches() -> Stretches:
    network = network_of(site_of_text(WALK, "site", tables()), tables())
    return Stretches(network, next(p for p in network.openings() if p.name == "floor plug"))


def number(stretches: Stretches, place: tuple[str, float]) -> int:
    return int(stretches.index(place[0], np.array([place[1]]))[0])


@pytest.mark.parametrize(
    ("place", "reach", "near"),
    [
        (("house drain", 5.0), 0.5, [ABOVE]),
        (("house drain", 3.4), 0.5, [ABOVE, UPPER, LAUNDRY]),
        (("house drain", 3.6), 0.5, [ABOVE]),
        (("house drain", 2.6), 0.5, [ABOVE, UPPER, LAUNDRY]),
        (("house drain", 6.8), 0.5, [ABOVE, BELOW]),
        (("laundry line", 3.7), 0.5, [ABOVE, UPPER, LAUNDRY]),
        (("laundry line", 0.2), 0.5, [LAUNDRY]),
        (("kitchen line", 4.8), 0.5, [KITCHEN, BELOW, BETWEEN]),
        # 0.8 m from the kitchen's fork, and from there 4 m to the bath's.
        (("kitchen line", 4.2), 4.7, [KITCHEN, BELOW, BETWEEN, ABOVE]),
        (("kitchen line", 4.2), 4.9, [KITCHEN, BELOW, BETWEEN, ABOVE, BATH, LOWER]),
        (("house drain", 29.3), 0.5, [LOWER, SEWER]),
        (("public sewer", 0.3), 0.5, [LOWER, SEWER]),
        (("public sewer", 3.0), 0.5, [SEWER]),
        (("house drain", 10.0), 1000.0, ALL),
    ],
)
def test_what_lies_near_a_place(stretches, place, reach, near):
    assert stretches.near(*place, reach) == {number(stretches, each) for each in near}


def test_every_pipe_between_forks_has_a_number_of_its_own(stretches):
    assert len({number(stretches, place) for place in ALL}) == len(ALL)


def test_just_past_a_fork_one_place_is_told_and_its_chance_holds_both_pipes():
    tracker = tracker_on(WALK, "floor plug", intent=Intent(ports=("up",)))
    # 0.4 m of entry and 4 m up to the laundry's wye: 0.2 m on, the head is in the drain or in the branch.
    belief = tracker.replay([Read(4.6)])
    best = fix_of(tracker, belief).best
    assert best.line == "house drain"
    assert best.share + 0.005 < best.chance
    # Counted out over the cells: all that is on the house drain above the plug, or in the laundry line.
    chart, mass = tracker.chart, belief.mass.sum(axis=0)
    lines = np.array([line for line, _ in chart.runs])[chart.run]
    near = ((lines == "house drain") & (chart.place < 7)) | (lines == "laundry line")
    assert best.chance == pytest.approx(mass[near].sum(), abs=1e-9)


def test_far_past_it_the_chance_is_that_of_one_pipe():
    tracker = tracker_on(WALK, "floor plug", intent=Intent(ports=("up",)))
    best = fix_of(tracker, tracker.replay([Read(6.4)])).best
    assert best.line == "house drain"
    assert best.chance == pytest.approx(best.share, abs=0.02)
