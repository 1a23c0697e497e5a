"""Where a rod that stayed in may lie, by a drain whose lengths are known; worked out by hand."""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.barred import LeftIn, barred
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

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


@pytest.mark.parametrize(
    ("opening", "ports", "leads"),
    [
        ("top", ("down",), True),  # the rod lies in the 10 m below it
        ("yard", ("up",), False),  # before it lie 5 m of free pipe
        ("yard", ("down",), False),
        ("gully", ("down",), False),
    ],
)
def test_which_opening_leads_right_to_it(opening, ports, leads):
    network = network_of(site_of_text(SITE, "site", tables()), tables())
    left = LeftIn(1, "top", ("down",), "reel", frozenset(), 9.0)
    made = barred(network, tables(), frozenset(), (left,))
    assert made.leads_in(network, opening, ports) is leads


def test_a_mark_in_the_pipe_parts_no_rod_from_it():
    """With 8 m of rod in from the top: the end of the pipe beyond a mark at 4 m is that pipe all the same."""
    text = SITE.replace("look at: drain", 'look at: "drain, 4 m below top"')
    text = text.replace("yard\n        kind: floor cleanout", "yard\n        kind: two-way cleanout")
    kit = default_kit(tables())
    gear = kit.loadouts[0]
    left = LeftIn(1, "top", ("down",), gear.name, gear.parts, 8.0)
    case = Case(site_of_text(text, "site", tables()), kit, Units.METRIC, 50, left_in=(left,))
    made = plan(case, tables(), rules())
    from_below = [each for each in made.outcomes if each.route.opening.name == "yard"]
    assert [each for each in from_below if not made.barred.lies_there(each.loadout)]
    assert not [each for each in from_below if each in made.usable]
