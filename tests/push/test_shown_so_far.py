"""Gear that kinked stays out until it is said that it is sound, whatever is begun. Rule of the trade."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case
from advisor.push.before.shown_so_far import shown_by
from advisor.push.log.kinds import SHUT, START, TRY
from advisor.quantity import Units
from advisor.site.sheet import read_site
from tests.cases.jobs import tables
from tests.push.machines import cutter
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
    found = shown_by(entries(KINK, *then), kit, tables()).kinked
    assert found == ({("rod", "small reel"), ("spring", "soft spring")} if out else set())


NOT_OPENED = (SHUT, 0.0, {"opening": "plug"})


@pytest.mark.parametrize(
    ("told", "opened", "shut"),
    [
        ((begun(SMALL, None),), ("plug",), ()),
        ((NOT_OPENED,), (), ("plug",)),
        ((NOT_OPENED, begun(SMALL, None)), ("plug",), ()),
        ((begun(SMALL, None), NOT_OPENED), (), ("plug",)),
        ((NOT_OPENED, cutter(6.0, "plug", "downstream")), ("plug",), ()),
    ],
)
def test_an_opening_that_a_push_began_at_opens_until_it_is_said_not_to(told, opened, shut):
    """The rod lay in it: a plan that gives the odds of a plug that nobody has tried is wrong."""
    found = shown_by(entries(*told), kit_of(read_kit(demo.KIT), tables()), tables())
    case = found.known_to(Case(read_site(demo.MAIN, tables()), default_kit(tables()), Units.INCH))
    assert (case.opened, case.shut) == (opened, shut)
