"""In whose words hardly anything gets past it, it may hold water that is run above it.

Common practice, no source: as somebody beside the opening says it.
"""

from __future__ import annotations

import pytest

from tests.cases.jobs import tables


@pytest.mark.parametrize(
    "what",
    [
        "wipes, almost nothing gets through",
        "wipes, hardly anything gets through",
    ],
)
def test_it_may_hold_water(what):
    assert tables().finds.may_hold_water(what)


@pytest.mark.parametrize("what", ["a few wipes", "wipes along most of the way", "hair roots at a joint"])
def test_what_lets_water_by_does_not(what):
    assert not tables().finds.may_hold_water(what)
