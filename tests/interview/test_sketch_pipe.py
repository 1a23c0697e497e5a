"""What pipe it is stands in the drawing where it begins, however many there are on a line."""

from __future__ import annotations

import pytest

from advisor.interview.sketch import sketch
from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.interview.small_session import HOUSE


@pytest.mark.parametrize(
    ("change", "row"),
    [
        ("{kind: sewer, size: 6 in, material: abs}", "from here 6 in abs"),
        ("{kind: sewer, size: assumed 6 in, material: abs}", "from here 6 in? abs"),
        ("{material: clay}", "from here 4 in? clay"),
    ],
)
def test_what_is_told_of_pipe_further_down_a_line_is_drawn_where_it_begins(change, row):
    """Told were 4 in and abs for the sewer: the drawing said `change of size` there, and neither of them."""
    text = HOUSE.replace("{kind: sewer, size: assumed 4 in}", change)
    rows = sketch(network_of(site_of_text(text, "site", tables()), tables()), Units.INCH, 76)
    house = rows[: rows.index("")]
    (place,) = [number for number, each in enumerate(house) if "from here" in each]
    assert house[place].endswith(row)
    assert "yard pit" in house[place - 1]
    assert not [each for each in rows if "change of size" in each]


def test_where_nothing_changes_no_pipe_is_told_again():
    text = HOUSE.replace("{kind: sewer, size: assumed 4 in}", "{slope: 2 %}")
    rows = sketch(network_of(site_of_text(text, "site", tables()), tables()), Units.INCH, 76)
    assert not [each for each in rows if "from here" in each]
