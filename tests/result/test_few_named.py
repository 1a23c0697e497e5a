"""From a trial: "Ways in from" ten openings in a row is read by nobody: three, and how many more."""

from __future__ import annotations

import pytest

from advisor.result.told import few


@pytest.mark.parametrize(
    ("count", "told"),
    [
        (1, "sink"),
        (3, "sink, bath, basin"),
        (4, "sink, bath, basin and 1 more"),
        (10, "sink, bath, basin and 7 more"),
    ],
)
def test_three_are_named_and_the_rest_counted(count, told):
    assert few((*["sink", "bath", "basin"], *map(str, range(7)))[:count]) == told
