"""What was seen is counted on from what was read last, as a find's place is: one head, one place.

By hand: the laundry line joins 10 m down the drain and was read at 10.9 m; 1.1 m on, at a reading of 12 m,
the head is 11.1 m down it, whatever the riser at the opening is.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.push.now.seen import Taken, coverage_of, runs_of
from advisor.push.now.stretches import inside
from advisor.site.build import network_of
from advisor.site.target import target_of
from tests.cases.jobs import site_of_text, tables
from tests.push.test_report import HOUSE, START, TASK, entries

LAUNDRY = "house drain/junction:laundry line"


def seen(read: dict[str, float], taken: Taken | None = None) -> tuple[tuple[float, float], ...]:
    sheet = site_of_text(HOUSE + TASK, "site", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    assert target is not None
    runs = runs_of(entries(START, ("sighting", 12.0, {"what": "x"})))
    return coverage_of(runs, network, tables(), target, lambda _: taken, lambda _: read).seen


def test_it_is_counted_on_from_what_was_read_last():
    assert seen({LAUNDRY: 10.9}) == ((0, pytest.approx(11.1)),)


def test_what_was_read_past_the_farthest_is_no_beginning():
    assert seen({LAUNDRY: 13.0}) == ((0, pytest.approx(11.5)),), "half a metre of riser"


def test_so_it_is_on_the_way_that_is_known_by_what_was_passed():
    """The riser of 0.5 m, then the drain; the fitting 10.5 m along that way, read at 10.9."""
    legs = [
        SimpleNamespace(piece=SimpleNamespace(id=name), start=at)
        for name, at in (("a", 0.5), (LAUNDRY, 10.5))
    ]
    assert inside(legs, 12.0, {LAUNDRY: 10.9}) == pytest.approx(11.6)
    assert inside(legs, 12.0, {}) == pytest.approx(12.0)
