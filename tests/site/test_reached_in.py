"""The rodding arm of an interceptor trap is reached in the chamber before it: no chamber, no arm.

From a trial: practice sent him to a rodding arm that was certain, because the chamber that it is
in "may not be there" (55 %).
"""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

SITE = """
site: interceptor
region: britain
built: 1905
lines:
  - line: drain
    kind: drain
    size: 100 mm
    pieces:
      - {opening: gully, kind: gully}
      - pipe: 8 m
      - {opening: chamber, kind: inspection chamber, CHAMBER}
      - {trap: disconnecting trap}
      - {opening: arm, kind: disconnecting trap rodding arm, ARM}
      - pipe: 6 m
      - end: public sewer
task: {look at: "drain, from arm to public sewer", complaint: {holding: no, chemicals: no}}
"""


@pytest.mark.parametrize(
    ("chamber", "arm", "chances"),
    [
        ("there: 55 %", "there: yes", (1, 1)),  # whoever saw the arm has looked into the chamber
        ("there: 55 %", "there: 50 %", (0.55, 0.5)),
        ("there: 55 %", "there: 80 %", (0.55, 0.55)),
        ("there: yes", "there: 50 %", (1, 0.5)),
    ],
)
def test_an_arm_is_there_in_no_case_without_its_chamber(chamber, arm, chances):
    text = SITE.replace("CHAMBER", chamber).replace("ARM", arm)
    sheet = site_of_text(text, "site", tables())
    made = plan(Case(sheet, default_kit(tables()), Units.METRIC, 200), tables(), rules())
    pieces = {piece.name: piece for piece in made.network.openings()}
    assert tuple(pieces[name].hole.there for name in ("chamber", "arm")) == chances
    without = made.drawn.worlds.uniform(f"{pieces['chamber'].id}/there") >= chances[0]
    in_at_arm = next(each for each in made.outcomes if each.route.opening.name == "arm").walk.survive[0]
    assert not in_at_arm[without].any()
    assert in_at_arm.any()


@pytest.mark.parametrize(("arm", "left"), [("there: 50 %", False), ("there: yes", True)])
def test_what_nobody_saw_in_a_chamber_that_is_told_not_to_be_there_goes_with_it(arm, left):
    text = SITE.replace("CHAMBER", "there: no").replace("ARM", arm)
    network = network_of(site_of_text(text, "site", tables()), tables())
    assert ("arm" in {piece.name for piece in network.openings()}) is left
    (place,) = [piece for piece in network.pieces.values() if piece.name == "arm"]
    assert place.absent is not left, "a stretch may still be told by it"
