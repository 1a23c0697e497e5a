"""A section is to be asked for by the words by which the plan tells it: "look at: drain, from ..."."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.suspects import suspects
from advisor.site.target import target_in
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import case_of

SITE = """
site: invented
region: north america
built: 1962
map: measured
lines:
  - line: drain
    kind: drain
    size: 4 in
    pieces:
      - pipe: 3 m
      - joined by: sink line
        fitting: wye
      - pipe: 6 m
      - end: public sewer
  - line: sink line
    size: 2 in
    pieces:
      - fixture: kitchen sink
      - pipe: 4 m
task:
  look at: suspect section
  complaint:
    slow: [kitchen sink]
"""


def test_every_section_can_be_looked_at_by_its_name():
    """One that begins or ends at nothing that has a name begins at the upper end, or ends at the lower."""
    case = case_of(SITE)
    network = network_of(case.sheet, tables())
    task = case.sheet.model.task
    sections = suspects(network, task.complaint, tables(), task.history, ())
    named = {each.words for each in sections}
    assert named == {
        "drain, from the upper end to sink line",
        "drain, from sink line to public sewer",
        "sink line, from kitchen sink to the lower end",
    }
    for each in sections:
        assert target_in(each.words, network)[1].span == each.span


@pytest.mark.parametrize(("words", "at"), [("the upper end", 0), ("upper end", 0), ("the top", 0)])
def test_an_end_goes_by_each_of_its_names(words, at):
    network = network_of(case_of(SITE).sheet, tables())
    span = target_in(f"drain, from {words} to sink line", network)[1].span
    assert span[0] == network.lines["drain"][at]
