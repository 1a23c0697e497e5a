"""From a trial: where the pipe changed size, a drain of 110 mm offered 110 mm and no longer 100 mm.

Plastic of 110 mm (BS EN 1401) laid on to old clay of 100 mm is the change met most (common practice, no
source).
"""

from __future__ import annotations

import pytest

from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.sizes import House
from tests.cases.jobs import tables
from tests.terminal.test_choose import typed
from tests.terminal.test_size_as_drawn import SITE


def told(key, size, units, capsys):
    asks, data = Asks(Page(), units), {}
    text = SITE.replace("REGION", "britain").replace("SIZE", size)
    asks.house = House(network_of(site_of_text(text, "site", tables()), tables()), tables().files.pipes)
    with typed(key):
        assert asks.new_size(data)
    return data["size"], capsys.readouterr().out


@pytest.mark.parametrize(
    ("drawn", "key", "size", "shown"),
    [
        ("110 mm", "a", 0.100, "a  100 mm"),
        ("110 mm", "1", 0.110, "1  110 mm"),
        ("110 mm", "7", 0.075, "7  75 mm"),
        ("100 mm", "a", 0.110, "a  110 mm"),
        ("100 mm", "1", 0.100, "1  100 mm"),
    ],
)
def test_the_sizes_beside_that_of_the_sheet_are_offered_too(drawn, key, size, shown, capsys):
    chosen, screen = told(key, drawn, Units.METRIC, capsys)
    assert chosen == pytest.approx(size)
    assert shown in screen


def test_each_size_is_offered_once(capsys):
    _, screen = told("4", "4 in", Units.INCH, capsys)
    assert screen.count("4  4 in") == 1
