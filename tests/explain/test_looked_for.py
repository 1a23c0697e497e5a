"""Before a new opening is dug: is one there that nobody has looked for, can one be freed, is it the yard?"""

from __future__ import annotations

import pytest

from advisor.explain.change import Cure, _new_cleanout, cures
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


SLAB = """
site: slab
region: north america
lines:
  - line: house drain
    kind: drain
    material: pvc
    size: 4 in
    pieces:
      - opening: garage cleanout
        kind: floor cleanout
        opens: {opens}
      - pipe: 20 ft
      - joined by: kitchen line
        fitting: wye
        drawn: no
      - pipe: 20 ft
        landmark: edge of the slab
{outside}
      - pipe: 60 ft
      - end: public sewer
task: {{look at: "house drain, from kitchen line to public sewer"}}
"""
FREED = "first free garage cleanout once the line is seen to drain, about 45 minutes: if it comes open"
SEWER = "      - change: {kind: sewer}"


def changes(opens: str, outside: str = SEWER, shut: tuple[str, ...] = ()) -> list[Cure]:
    sheet = site_of_text(SLAB.format(opens=opens, outside=outside), "site", tables())
    kit = kit_of(kit_of_text(kit_text(), "kit"), tables())
    case, memory = Case(sheet, kit, Units.INCH, 100, 1, shut=shut), Memory()
    return list(cures(case, plan(case, tables(), rules(), memory), tables(), rules(), memory))


@pytest.mark.parametrize(("opens", "shut"), [("no", ()), ("unknown", ("garage cleanout",))])
def test_what_is_stuck_is_freed_before_a_new_opening_is_dug(opens, shut):
    found = changes(opens, shut=shut)
    freed = next(each for each in found if each.what.startswith("first free garage cleanout"))
    # The only way in from there: what it takes to free it is in the minutes of the whole.
    open_ = plan(
        Case(
            site_of_text(SLAB.format(opens="yes", outside=SEWER), "site", tables()),
            kit_of(kit_of_text(kit_text(), "kit"), tables()),
            Units.INCH,
            100,
            1,
        ),
        tables(),
        rules(),
    )
    assert freed.what == FREED  # costs.yaml: free; behind a plug a full line may stand
    assert freed.minutes_after == pytest.approx(open_.settled.order.minutes + 45)
    dug = [each.what for each in found if "a new " in each.what]
    assert all("that garage cleanout cannot be freed" in what for what in dug)
    assert [each.what for each in found][-len(dug) :] == dug or not dug


def test_nobody_digs_under_the_building():
    """What is to be seen begins under the slab: a new opening is in the yard, and the rod goes up from it."""
    sheet = site_of_text(SLAB.format(opens="no", outside=SEWER), "site", tables())
    case = Case(sheet, kit_of(kit_of_text(kit_text(), "kit"), tables()), Units.INCH, 50, 1)
    (new,) = _new_cleanout(case, plan(case, tables(), rules()), tables())
    assert new.what.endswith("a new two-way cleanout on house drain, outside, just below edge of the slab")
    pieces = new.case.sheet.model.lines[0].pieces
    assert [getattr(each, "opening", "") for each in pieces].index("new cleanout") == 4
    plain = SLAB.replace("        landmark: edge of the slab\n", "")
    unknown = site_of_text(plain.format(opens="no", outside="      - bend: 1/8 bend"), "site", tables())
    case = Case(unknown, case.kit, Units.INCH, 50, 1)
    assert list(_new_cleanout(case, plan(case, tables(), rules()), tables())) == []
