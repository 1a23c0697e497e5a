"""A share of the bore is read the right way round, whichever words tell it, and in doubt as the stricter.

From a trial: "wad, not 1/4 open" counted as nothing in the way, and "80 % open" as shut. Arithmetic: what is
open and what is shut make the whole, "not 1/4 open" is less than that; a good part is a third, as in
rules/report/finds.yaml. That what fills less lets a tap by is common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.cases.jobs import tables

SHUT = (
    "wad, not 1/4 open",
    "wad, less than a quarter open",
    "wipes, hardly open",
    "wipes, not open",
    "wipes, isn't a quarter open",
    "wipes, under 10 % open",
    "wipes, 12 % open",
    "wipes, 20-40 % open",
    "wipes, open less than 1/4",
    "wipes, not 80 % open",
    "wipes, up to 80 % open",
    "wipes, no longer 80 % open",
    "wipes, don't think it is 80 % open",
    "wipes, ¼ open",
    "wipes, half open",
    "wipes, leaves 20 %",
    "wipes, 15 % left",
    "wipes, 35 % shut",
    "wipes, 3/8 blocked",
    "wipes, half full",
    "wipes, more than a quarter shut",
    "wipes, 20-40 % full",
    "wipes, three-quarters closed",
    "wipes, shut to a quarter",
    "wipes, 3/4 not open",
)
OPEN = (
    "80 % open",
    "wipes, 80% of the bore is free",
    "wipes, at least 3/4 open",
    "wipes, not less than 80 % open",
    "wipes, over 80 % open",
    "wipes, four fifths open",
    "wipes, ¾ open",
    "wipes, open 85 %",
    "wad of wipes, 80 % open",
    "wipes, 12 % shut",
    "wipes, no more than 20 % blocked",
    "wipes, less than a quarter shut",
    "wipes, 1/4 not open",
    "wipes, not blocked",
    "joint not open",
    "wipes, 80 % not blocked",
    "joint 1/4 in open",
)


@pytest.mark.parametrize(("what", "shut"), [*((w, True) for w in SHUT), *((w, False) for w in OPEN)])
def test_a_share_tells_whether_a_good_part_is_shut(what, shut):
    assert tables().finds.may_hold_water(what) is shut


@pytest.mark.parametrize("what", ["roots, not 1/4 open", "roots, under a quarter open", "roots, hardly open"])
def test_no_head_goes_into_roots_that_leave_that_little(what):
    assert tables().finds.that_bar(what)


@pytest.mark.parametrize("what", ["wad of wipes, not 1/4 open", "wipes, hardly open", "paper, 10 % left"])
def test_it_is_cleaned_first_and_nothing_is_pushed_into_it(what):
    finds = tables().finds
    assert finds.to_be_cleaned(what) is not None
    assert "not into it" in (finds.for_find(what).on_the_way or "")


@pytest.mark.parametrize(
    ("what", "shut"), [("92 % shut", 0.92), ("8 % open", 0.92), ("95 % open", 0.05), ("2/3 free", 1 / 3)]
)
def test_how_much_is_shut_as_it_reads(what, shut):
    assert tables().finds.shares.told_in(what).shut == pytest.approx(shut)
