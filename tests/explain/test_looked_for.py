"""Before a new opening is dug: is the one that nobody has looked for there?"""

from __future__ import annotations

import pytest

from advisor.explain.change import cures
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import kit_text, rules, tables

HOUSE = """
site: far street
region: north america
built: 1995
lines:
  - line: house drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: far plug
        kind: end cleanout
      - pipe: 900 ft
      - opening: yard cleanout
        kind: yard cleanout
        there: {there}
      - pipe: 20 ft
      - end: public sewer
task: {{look at: "house drain, from yard cleanout to public sewer"}}
"""


@pytest.mark.parametrize(("there", "looked"), [("30 %", True), ("no", False)])
def test_one_that_may_be_there_is_looked_for_before_a_new_one_is_made(there, looked):
    sheet = site_of_text(HOUSE.format(there=there), "site", tables())
    case = Case(sheet, kit_of(kit_of_text(kit_text(), "kit"), tables()), Units.INCH, 200, 1)
    memory = Memory()
    found = [c.what for c in cures(case, plan(case, tables(), rules(), memory), tables(), rules(), memory)]
    (new,) = [what for what in found if "a new yard cleanout" in what]
    assert new.startswith("only once it is seen that there is no yard cleanout") is looked
    assert ("first look for yard cleanout: if it is there" in found) is looked
