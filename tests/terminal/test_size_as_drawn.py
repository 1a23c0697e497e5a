"""From a trial: on a drain of 110 mm pipe a mouth could be told as 100 mm, and stood so in log and report.

British plastic drains since about 1970 are 110 mm (BS EN 1401); older clay is 100 mm.
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

SITE = """
site: one drain
region: REGION
lines:
  - line: drain
    size: SIZE
    pieces: [{opening: eye, kind: rodding eye}, {pipe: 6 m}, {end: public sewer}]
task: {look at: drain}
"""


@pytest.mark.parametrize(
    ("region", "size", "units", "key", "told", "shown"),
    [
        ("britain", "110 mm", Units.METRIC, "1", 0.110, "110 mm"),
        ("britain", "100 mm", Units.METRIC, "1", 0.100, "100 mm"),
        ("britain", "110 mm", Units.METRIC, "7", 0.075, "75 mm"),
        ("north america", "4 in", Units.INCH, "4", 0.1016, "4 in"),
        ("britain", "100 mm", Units.INCH, "4", 0.1016, "4 in"),  # its first figure is the key
    ],
)
def test_the_size_of_a_mouth_is_offered_as_the_sheet_has_it(region, size, units, key, told, shown, capsys):
    text = SITE.replace("REGION", region).replace("SIZE", size)
    asks = Asks(Page(), units)
    asks.house = House(network_of(site_of_text(text, "site", tables()), tables()), tables().files.pipes)
    data = {}
    with typed(key):
        assert asks.size("How big is its mouth, about?", data)
    assert data["size"] == pytest.approx(told)
    assert f"{key}  {shown}" in capsys.readouterr().out
