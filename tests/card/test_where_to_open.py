"""The card tells where in the yard the opening is, as far as that was told.

From a trial: a cleanout 1.5 ft from the foundation wall was told, the card said "yard", and the
helper walked the yard for a cap.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.quantity import Units
from advisor.result.build import plan_of
from tests.cases.jobs import tables
from tests.terminal.test_now_shown import study_of

SITE = """
site: an invented house
region: britain
map: measured
septic: no
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: abs
    condition: sound
    pieces:
      - opening: sink plug
        kind: wall cleanout
      - pipe: 5 m
        landmark: foundation wall
      BEFORE
      - opening: yard plug
        kind: KIND
      - pipe: AFTER
        landmark: gate post
      - pipe: 9 m
      - end: public sewer
task:
  look at: drain, from yard plug to public sewer
  complaint: {holding: no, chemicals: no, gas smell: no}
"""


@pytest.mark.parametrize(
    ("before", "kind", "after", "told"),
    [
        ("- pipe: 1.5 m", "yard cleanout", "3 m", ", yard, 1.5 m from foundation wall"),
        ("- pipe: 1.5 m\n      - pipe: 2 m", "yard cleanout", "3 m", ", yard, 3 m from gate post"),
        ("- pipe: 4 m", "yard cleanout", "assumed 3 m", ", yard, 4 m from foundation wall"),
        # What is only assumed is no place to dig for it, no tape follows a bend, and indoors it is in view.
        ("- pipe: assumed 1 to 2 m", "yard cleanout", "assumed 3 m", ", yard"),
        ("- bend: 45 degree bend", "yard cleanout", "assumed 3 m", ", yard"),
        ("- pipe: 1.5 m", "wall cleanout", "3 m", ", wall"),
    ],
)
def test_where_it_is_stands_by_its_name_where_that_was_told(before, kind, after, told):
    text = SITE.replace("BEFORE", before).replace("KIND", kind).replace("AFTER", after)
    plan = plan_of(study_of(text))
    route = next(way for way in plan.routes if way.opening == "yard plug")
    card = card_of(plan, route, tables().card, Units.METRIC, "", False)
    opened = " ".join(card_text(card).split()).partition(" See: ")[0]
    assert opened.partition(": ")[2].partition(",")[2] == f"{told[1:]}."
