"""Where pipe hangs in the house an unknown fitting is no chamber's, and nobody has cut a saddle in."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables

# An invented flat: its bath joins the toilet's branch upstairs, a shop's toilet the drain in the yard.
FLAT = """
site: flat over a shop
region: britain
lines:
  - line: soil stack
    kind: stack
    pieces:
      - opening: vent above the roof
        kind: roof vent
      - drop: 4 m
      - joined by: toilet branch
        fitting: unknown
      - drop: 3 m
      - pipe: 1 m
      - joined by: shop branch
        fitting: unknown
      - pipe: 1 m
  - line: toilet branch
    size: 100 mm
    pieces:
      - {opening: toilet, kind: P-outlet toilet}
      - pipe: 1 m
      - fixture: bath
        fitting: unknown
      - pipe: 1 m
  - line: shop branch
    size: 100 mm
    pieces:
      - {opening: shop toilet, kind: P-outlet toilet}
      - pipe: 1 m
      - fixture: basin
        fitting: unknown
      - pipe: 1 m
  - line: yard drain
    kind: drain
    size: 100 mm
    pieces:
      - {opening: gully, kind: gully}
      - pipe: 3 m
      - joined by: soil stack
        fitting: unknown
      - pipe: 10 m
      - end: public sewer
"""
BURIED = {"chamber branch", "saddle", "backdrop"}


@pytest.mark.parametrize(
    ("joins", "buried"),
    [("bath", False), ("toilet branch", False), ("shop branch", True), ("basin", True), ("soil stack", True)],
)
def test_no_chamber_is_built_in_pipe_that_falls_down_a_stack_yet(joins, buried):
    network = network_of(site_of_text(FLAT, "site", tables()), tables())
    (met,) = (p for p in network.pieces.values() if p.kind == "junction" and joins in (p.branch, p.name))
    assert bool(BURIED & {name for name, _ in met.fitting.options}) == buried
