"""Where a rod that stayed in may lie, by a drain whose lengths are known; worked out by hand."""

from __future__ import annotations

import pytest

from advisor.result.barred import LeftIn
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables

SITE = """
site: a fork
region: north america
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    pieces:
      - opening: top
        kind: floor cleanout
      - pipe: 10 m
      - joined by: side
        fitting: wye
      - pipe: 5 m
      - opening: yard
        kind: floor cleanout
      - pipe: 20 m
      - end: public sewer
  - line: side
    size: 3 in
    pieces:
      - opening: gully
        kind: floor cleanout
      - pipe: 3 m
task: {look at: drain}
"""


@pytest.mark.parametrize(
    ("opening", "ports", "rod", "expected"),
    [
        ("top", ("down",), 9.0, {10}),  # 9 m of the 10, and a tenth more is 9.9
        ("top", ("down",), 9.5, {10, "wye", 5}),  # 10.45: it may be past the joint
        ("top", ("down",), 14.0, {10, "wye", 5, "yard", 20}),  # with the flow it takes no side line
        ("gully", ("down",), 4.0, {3, "wye", 10, 5}),  # from the side it may have turned either way
        ("yard", ("up",), 6.0, {5, "wye", 10, 3}),  # against it up either
        ("yard", ("down",), 6.0, {20}),
        ("yard", ("up", "down"), 1.0, {5, 20}),
        ("yard", ("down",), None, {20, "end"}),  # nobody knows how far
        ("gone", ("down",), 6.0, set()),
    ],
)
def test_where_it_lies(opening, ports, rod, expected):
    network = network_of(site_of_text(SITE, "site", tables()), tables())
    found = LeftIn(1, opening, ports, "reel", frozenset(), rod).lies_in(network, tables())
    pieces = [network.pieces[each] for each in found]
    told = {"junction": "wye", "opening": "yard", "end": "end"}
    named = {told.get(each.kind, round(each.along)) for each in pieces}
    assert named == expected
