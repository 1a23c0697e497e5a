"""An opening that a machine was run from is there, whatever a drawing made before gives for it."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables

SITE = """
site: one plug
region: north america
lines:
  - line: drain
    kind: drain
    size: 4 in
    pieces:
      - {opening: way in, kind: end cleanout}
      - pipe: 3 m
      - {opening: yard plug, kind: two-way cleanout, there: 50 %}
      - pipe: 6 m
      - end: public sewer
task:
  look at: "drain"
  complaint: {holding: no, chemicals: no}
  history: {machine runs: [{FROM to: 12 m}]}
"""


@pytest.mark.parametrize(
    ("run_from", "chance"), [("in at: yard plug,", 1), ("in at: way in,", 0.5), ("in at: unknown,", 0.5)]
)
def test_what_a_machine_was_run_from_is_there(run_from, chance):
    sheet = site_of_text(SITE.replace("FROM", run_from), "site", tables())
    plug = next(each for each in network_of(sheet, tables()).openings() if each.name == "yard plug")
    assert plug.hole is not None
    assert plug.hole.there == chance
