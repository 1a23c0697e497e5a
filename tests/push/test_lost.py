"""Gear that kinked stays out until it is said that it is sound, whatever is begun. Rule of the trade."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.push.kinds import START, TRY
from advisor.push.lost import lost_of
from tests.cases.jobs import tables
from tests.push.test_report import entries

SMALL, LARGE = "small head on small reel", "large head on large reel"
KINK = (TRY, 3.0, {"technique": "string", "outcome": "kinked", "loadout": SMALL})


def begun(gear: str, renewed: bool | None):
    return (
        START,
        0.0,
        {"opening": "plug", "loadout": gear} | ({} if renewed is None else {"renewed": renewed}),
    )


@pytest.mark.parametrize(
    ("then", "out"),
    [
        ((), True),
        ((begun(SMALL, None),), True),  # of a log from before it was asked
        ((begun(SMALL, False),), True),
        ((begun(LARGE, True),), True),
        ((begun(f"{SMALL} + ring guide", True),), False),  # the same rod and spring
        ((begun(SMALL, True), KINK), True),
    ],
)
def test_what_kinked_is_out_until_it_is_said_to_be_sound(then, out):
    kit = kit_of(read_kit(demo.KIT), tables())
    found = lost_of(entries(KINK, *then), kit, tables()).kinked
    assert found == ({("rod", "small reel"), ("spring", "soft spring")} if out else set())
