"""From a trial: "spare plug" among what to bring, for openings that are all chambers with a cover.

The trade: a spare plug replaces one that breaks as it is opened; a cover has none.
"""

from __future__ import annotations

import pytest

from advisor.result.build import plan_of
from tests.cases.jobs import kit_text, studied

HOUSE = """
site: an invented house
region: britain
septic: no
lines:
  - line: drain
    kind: drain
    size: 100 mm
    pieces:
      - opening: first
        kind: KIND
      - pipe: 8 m
      - end: public sewer
task: {look at: drain}
"""


@pytest.mark.parametrize(("kind", "plug"), [("inspection chamber", False), ("floor cleanout", True)])
def test_a_spare_plug_is_brought_where_a_plug_is_opened(kind, plug):
    (way, *_) = plan_of(studied(HOUSE.replace("KIND", kind), kit_text(), 50)).routes
    assert any(step.startswith("Loosen no plug yet") for step in way.before), "nobody looked"
    assert ("spare plug" in way.bring) is plug
