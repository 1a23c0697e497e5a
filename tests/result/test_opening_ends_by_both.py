"""What ends a push at its opening: that it may not be there and that it may not open are one share.

From a trial: an example said "It ends most often (72 of 100) because the opening may not be there" of a
chamber drawn as 35 % likely there: in 65 of 100 it is not, and in the others a cover may not lift.
"""

from __future__ import annotations

import pytest

from advisor.result.ends import OPENING, ends_of
from tests.cases.jobs import kit_text, studied
from tests.result.test_ends import STRAIGHT

BOTH = "the opening may not be there, or may not open"


@pytest.mark.parametrize(
    ("told", "why"),
    [
        ("        there: 35 %", BOTH),
        ("        there: 95 %", "the opening may not open, or may not be there: nobody has tried it"),
    ],
)
def test_both_are_named_where_both_may_be(told, why):
    study = studied(STRAIGHT.format(told=told, long="10 m"), kit_text(), worlds=200)
    (end,) = [e for e in ends_of(study.ranked[0].outcome, study.reader) if e.where == OPENING]
    assert end.why == why


def test_the_share_is_that_of_both():
    """By hand: 65 of 100 are not there, and of the 35 that are some do not open."""
    study = studied(STRAIGHT.format(told="        there: 35 %", long="10 m"), kit_text(), worlds=1000)
    (end,) = [e for e in ends_of(study.ranked[0].outcome, study.reader) if e.where == OPENING]
    assert 0.65 + 0.03 < end.share < 0.65 + 0.35 / 2
