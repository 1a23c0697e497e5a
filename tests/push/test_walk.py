"""A walk with invented numbers, as an operator would tell it, through the log and back."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from advisor.push.log.kinds import MARK, SIGHTING, START, WATER
from advisor.push.log.log import Log
from advisor.push.log.sighting import Seen, sighting_of
from advisor.push.report.advice import read_advice
from advisor.push.report.marks import spots
from advisor.push.track.checks import checks
from advisor.push.track.depth import expected_depth
from advisor.push.track.fix import fix_of, named
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import tables
from tests.push.sites import UNKNOWN, WALK, tracker_on

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)


@pytest.fixture
def log(tmp_path):
    log = Log.open(tmp_path / "log.db")
    yield log
    log.close()


def test_from_an_opening_of_unknown_direction_to_a_buried_cleanout(log):
    tracker = tracker_on(WALK, "floor plug", intent=UNKNOWN)
    clock = iter(NOON + timedelta(minutes=m) for m in range(60))

    def tell(kind, counter, **data):
        log.append(kind, counter, data, next(clock))
        told = [sighting_of(entry) for entry in log.standing()]
        belief = tracker.replay(s for s in told if s is not None)
        return belief, fix_of(tracker, belief)

    belief, fix = tell(START, 0.0, opening="floor plug", direction="unknown")
    assert fix.downstream == pytest.approx(0.5, abs=0.01)
    belief, fix = tell(SIGHTING, 1.6, what="nothing")
    assert fix.best.chance < 0.6
    # The laundry is upstream of the opening, so its water settles which way this is.
    assert checks(tracker, belief)[0].fixture == "laundry tub"
    belief, fix = tell(WATER, 1.6, fixture="laundry tub", seconds=19.0, side="behind")
    assert fix.downstream > 0.9
    # The first tie-in: the kitchen sink runs behind it now, and did not before.
    belief, fix = tell(SIGHTING, 3.5, what="tie-in", clock=9.0)
    assert named(tracker, belief, Seen(3.5, "tie-in", 9.0))[0].landmark.piece.name == "kitchen line"
    belief, fix = tell(WATER, 3.9, fixture="kitchen sink", seconds=14.0, side="behind")
    belief, fix = tell(SIGHTING, 7.5, what="tie-in", clock=3.0)
    assert named(tracker, belief, Seen(7.5, "tie-in", 3.0))[0].landmark.piece.name == "bath line"
    belief, fix = tell(WATER, 8.0, fixture="bath", seconds=11.0, side="behind")
    belief, fix = tell(SIGHTING, 11.1, what="two mouths")
    third = named(tracker, belief, Seen(11.1, "two mouths"))[0]
    assert third.landmark.piece.name == "yard cleanout"
    assert third.chance > 0.9
    # By hand: the cleanout lies 3 + 4 + 3 + 4 + 2 + 1.5 = 17.5 m down the line.
    assert (fix.best.line, fix.best.with_flow) == ("house drain", True)
    assert fix.best.at == pytest.approx(17.5, abs=0.4)
    assert fix.best.chance > 0.9
    # It gets a mark, read above ground at 620 mm, and the depth that its slope lets expect.
    spot = {"line": fix.best.line, "distance": fix.best.at}
    log.append(MARK, 11.1, {"name": "yard cleanout", **spot, "depth": 0.62, "how": "read off"}, next(clock))
    sheet = site_of_text(WALK, "site", tables())
    marked = spots(
        log.standing(), tracker.chart.network, sheet.model, read_advice(rules_dir(), tables()), tables()
    )[-1]
    assert marked.line == "house drain"
    assert marked.distance == pytest.approx(17.5, abs=0.4)
    # By hand: 0.4 m at the floor plug and 10.5 m at a quarter inch in the foot, 0.4 + 10.5 / 48.
    expected = expected_depth(tracker.chart.network, "floor plug", "house drain", 17.5)
    assert expected is not None
    assert expected.value == pytest.approx(0.4 + 10.5 / 48, abs=1e-3)
