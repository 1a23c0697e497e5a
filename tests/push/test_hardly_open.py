"""How much of the bore is shut may be told by what is open still: "1/4 open" is three quarters shut.

As people beside the opening say it. Arithmetic: what is open and what is shut make the whole; a good part is
a third and more (rules/report/finds.yaml). That a wad of a quarter of the bore lets a tap by is common
practice, no source.
"""

from __future__ import annotations

import pytest

from tests.cases.jobs import tables

SHUT = (
    "wad of wipes, 1/4 open",
    "wad of wipes, 1/4 left open",
    "wad of wipes, 1/3 of the bore open",
    "wipes, a quarter open",
    "wad of rags, a quarter of the pipe left",
    "wipes, 20 % open",
    "wad of wipes, 25% free",
    "wipes hanging, hardly any room left",
    "wipes, no room to get by",
    "grease, barely room for the head",
    "rags, only a thin slit open",
    "wipes, pipe barely open",
)
OPEN = (
    "wad of wipes, 1/4 of the bore",
    "small wad, a quarter",
    "wipes, 3/4 open",
    "roots, joint open 1/4 in",
    "a few wipes, plenty of room left",
    "step, hardly any",
    "crack hardly open",
)


@pytest.mark.parametrize(("what", "shut"), [*((w, True) for w in SHUT), *((w, False) for w in OPEN)])
def test_what_is_open_still_tells_how_much_is_shut(what, shut):
    assert tables().finds.may_hold_water(what) is shut


@pytest.mark.parametrize("what", SHUT[:8])
def test_it_is_cleaned_first_and_no_head_goes_into_it_as_any_wad(what):
    """As "wad of wipes, pipe 3/4 shut"."""
    finds = tables().finds
    assert finds.to_be_cleaned(what) is not None
    assert "not into it" in (finds.for_find(what).on_the_way or "")


@pytest.mark.parametrize("what", ["roots, 1/4 open", "roots, hardly any room left"])
def test_roots_that_leave_that_little_bar_as_a_mass_does(what):
    assert tables().finds.that_bar(what)
