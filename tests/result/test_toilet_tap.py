"""A toilet that is drawn as an opening is told among what may be run, whatever kind of toilet it is."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.result.build import plan_of
from tests.cases.jobs import studied
from tests.terminal.test_push_water import FREE


@pytest.mark.parametrize("kind", ["toilet flange", "P-outlet toilet", "wall-hung toilet carrier"])
def test_any_toilet_is_a_tap(kind):
    drawn = FREE.replace("fixture: bath", f"opening: toilet\n        kind: {kind}")
    (route, *_) = (
        r for r in plan_of(studied(drawn, demo.KIT.read_text(), 50)).routes if r.opening == "floor plug"
    )
    (tap,) = (tap for tap in route.taps if tap.fixture == "toilet")
    assert "paper" in tap.looks
