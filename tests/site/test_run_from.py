"""An opening that a machine was run from is there, whatever a drawing made before gives for it, and was
opened then: it may have seized since, but somebody has tried it."""

from __future__ import annotations

import pytest

from advisor.outcome.opens import opens_share
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


# Trade (common practice, no source): a cable goes through a floor drain's trap with nothing taken off, so
# that says nothing of the plug in its side; a cleanout it goes in by is opened for it.
@pytest.mark.parametrize(
    ("kind", "run_from", "opened"),
    [
        ("two-way cleanout", "in at: yard plug,", True),
        ("two-way cleanout", "in at: way in,", False),
        ("two-way cleanout", "", False),
        ("floor drain", "in at: yard plug,", False),
    ],
)
def test_what_a_machine_was_run_from_was_opened_before(kind, run_from, opened):
    text = SITE.replace("FROM", run_from).replace("kind: two-way cleanout", f"kind: {kind}")
    network = network_of(site_of_text(text, "site", tables()), tables())
    hole = next(each.hole for each in network.openings() if each.name == "yard plug")
    assert hole is not None
    assert hole.opened is opened
    share, usual = opens_share(hole, tables()), tables().openings[kind].opens_share
    if not opened:
        assert share == usual
        return
    # By hand: of the cleanouts that would not open, 1 in 4 still does not, 1 in 2 at the worst.
    assert share.likely == pytest.approx(1 - (1 - usual.likely) / 4)
    assert share.low == pytest.approx(1 - (1 - usual.low) / 2)
    assert usual.high < share.high < 1
