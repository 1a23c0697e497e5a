"""A fitting called as the trade of a region calls it: the message has its name for a sheet, none like it."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.site.test_faults import GOOD

T = tables()
# Where a sheet has each table's names, as docs/names.md lists them, and a word of it that stands there now.
PLACES = {
    "openings": (T.openings, "kind: end cleanout"),
    "bends": (T.bends, "bend: 1/8 bend"),
    "junctions": (T.junctions, "fitting: wye"),
}


@pytest.mark.parametrize("place", PLACES)
def test_every_trade_name_is_taken_or_leads_to_its_own_name(place):
    table, stands = PLACES[place]
    key = stands.split(": ")[0]
    names = {name.lower() for name in table}
    words = {told.lower() for row in table.values() for told in row.words.values()} - names
    assert words
    for word in words:
        own = [name for name, row in table.items() if word in {told.lower() for told in row.words.values()}]
        with pytest.raises(BadInput) as refused:
            site_of_text(GOOD.replace(stands, f'{key}: "{word}"'), "site", T)
        (fault,) = refused.value.faults
        assert fault.message.endswith(f"in a sheet it is {' or '.join(map(repr, own))}"), word


def test_the_british_double_branch_is_no_chamber_branch():
    with pytest.raises(BadInput) as refused:
        site_of_text(GOOD.replace("fitting: wye", "fitting: Double Branch"), "site", T)
    assert "'double sanitary tee'" in refused.value.faults[0].message
