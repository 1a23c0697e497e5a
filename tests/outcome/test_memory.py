"""A replan that remembers tells to the last bit what one worked out anew tells, and redoes what changed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor import demo
from advisor.errors import BadInput
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.model import Head, Kit
from advisor.kit.sheet import read_kit
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.quantity import Known, Units
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from tests.bench.generated_site import generated_site
from tests.cases.jobs import rules, tables

pytestmark = pytest.mark.usefixtures("anew")

DEMO = demo.MAIN.read_text(encoding="utf-8")
EDITS = (
    ("ft", "m"),
    ("1/4 bend", "long sweep"),
    ("cast iron", "pvc"),
    ("pvc", "cast iron"),
    ("slope: 1/4", "slope: 1/2"),
    ("wye", "unknown"),
)
# Two bends so close that they hinder each other, behind a straight branch of its own size.
TIGHT = """
site: tight
region: north america
map: measured
lines:
  - line: main
    size: 2 in
    material: copper
    condition: sound
    pieces:
      - {opening: top, kind: end cleanout}
      - pipe: 1 m
      - {joined by: side, fitting: wye}
      - pipe: 1 m
      - bend: 1/8 bend
      - pipe: 20 mm
      - {bend: 1/8 bend, roll: 0 deg}
      - pipe: 1 m
      - end: sewer
  - line: side
    size: 2 in
    material: galvanised steel
    condition: light scale
    pieces:
      - {opening: plug, kind: end cleanout}
      - pipe: 1 m
task: {look at: "main, from side to sewer", complaint: {holding: no}}
"""
KIT = kit_of(read_kit(demo.KIT), tables())


def case(text: str) -> Case:
    return Case(site_of_text(text, "site", tables()), KIT, Units.INCH, 300)


def told(study: Study) -> str:
    return plan_of(study).model_dump_json()


def pieces_changed(text: str) -> list[str]:
    """The sheet with one thing changed in each of many places: lengths, fittings, conditions, names."""
    found = []
    lines = text.splitlines()
    for number, line in enumerate(lines):
        for old, new in EDITS:
            if old in line and "look at" not in line:
                changed = [*lines[:number], line.replace(old, new, 1), *lines[number + 1 :]]
                found.append("\n".join(changed) + "\n")
    return found


def sheets() -> list[str]:
    good = []
    for text in pieces_changed(DEMO):
        try:
            site_of_text(text, "site", tables())
        except BadInput:
            continue
        good.append(text)
    return good


@pytest.mark.slow
def test_after_every_change_the_same_as_worked_out_anew():
    memory = Memory()
    changed = sheets()
    assert len(changed) >= 10
    plan(case(DEMO), tables(), rules(), memory)
    for text in changed:
        assert told(plan(case(text), tables(), rules(), memory)) == told(plan(case(text), tables(), rules()))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("20 mm", "900 mm"),
        ("light scale", "heavy scale"),
        ("size: 2 in\n    material: galv", "size: 1-1/2 in\n    material: galv"),
    ],
)
def test_neighbours_that_change_are_seen(old, new):
    memory, text = Memory(), TIGHT.replace(old, new)
    assert text != TIGHT
    first, second = (replace(case(each), kit=longer(KIT)) for each in (TIGHT, text))
    before = told(plan(first, tables(), rules(), memory))
    after = told(plan(second, tables(), rules(), memory))
    assert before != after == told(plan(second, tables(), rules()))


def longer(kit: Kit) -> Kit:
    """Heads that one of the bends lets through and two close together do not."""
    heads = [replace(each.head, length=Known(0.138, each.head.length.evidence)) for each in kit.loadouts]
    pairs = zip(kit.loadouts, heads, strict=True)
    return replace(kit, loadouts=tuple(replace(each, head=head) for each, head in pairs))


def thinner(kit: Kit) -> Kit:
    """The same names on other gear."""
    loadouts = [
        replace(each, rod=replace(each.rod, core=Known(0.002, each.rod.core.evidence)))
        for each in kit.loadouts
    ]
    return replace(kit, loadouts=tuple(loadouts))


@pytest.mark.parametrize(
    "other",
    [
        lambda c: replace(c, kit=default_kit(tables())),
        lambda c: replace(c, kit=thinner(c.kit)),
        lambda c: replace(c, kit=replace(c.kit, loadouts=(c.kit.loadouts[0], *thinner(c.kit).loadouts[1:]))),
        lambda c: replace(c, units=Units.METRIC),
        lambda c: replace(c, seed=2),
        lambda c: replace(c, worlds=200),
        lambda c: case(DEMO.replace("region: north america", "region: britain")),
        lambda c: case(DEMO.replace("holding: no", "holding: yes")),
    ],
    ids=["kit", "same names", "all but one the same names", "units", "seed", "worlds", "region", "holding"],
)
def test_what_all_rests_on_is_never_remembered_wrongly(other):
    memory, first = Memory(), case(DEMO)
    second = other(first)
    plan(first, tables(), rules(), memory)
    assert told(plan(second, tables(), rules(), memory)) == told(plan(second, tables(), rules()))
    assert told(plan(first, tables(), rules(), memory)) == told(plan(first, tables(), rules()))


def with_a(kit: Kit, **gear: object) -> Kit:
    """The kit with one more loadout: its first with some other gear, by another name."""
    first = kit.loadouts[0]
    other = replace(first.rod, name="other reel")
    return replace(kit, loadouts=(*kit.loadouts, replace(first, rod=other, **gear)))


def narrow(kit: Kit) -> Head:
    """A head smaller than any of the kit."""
    head = kit.loadouts[0].head
    least = min(each.diameter.likely for each in kit.heads)
    return replace(head, name="narrow head", diameter=Known(least / 2, head.diameter.evidence))


BARE = replace(KIT, loadouts=tuple(each for each in KIT.loadouts if each.guide is None))
GUIDE = next(each.guide for each in KIT.loadouts if each.guide)


@pytest.mark.parametrize(
    "more",
    [with_a(BARE), with_a(BARE, head=narrow(BARE)), with_a(BARE, guide=GUIDE)],
    ids=["as the others", "a smaller head", "a guide"],
)
def test_a_kit_that_gains_a_loadout_is_told_as_anew(more):
    """Advice on the other loadouts speaks of a smaller head and of a guide that are in the kit by now."""
    memory, first = Memory(), replace(case(DEMO), kit=BARE)
    second = replace(first, kit=more)
    for each in (first, second, first):
        assert told(plan(each, tables(), rules(), memory)) == told(plan(each, tables(), rules()))


def test_of_a_kit_that_gains_a_loadout_only_that_one_is_worked_out():
    memory, first = Memory(), replace(case(DEMO), kit=BARE)
    before = plan(first, tables(), rules(), memory)
    after = plan(replace(first, kit=with_a(BARE)), tables(), rules(), memory)
    kept = {id(outcome) for outcome in before.outcomes} & {id(outcome) for outcome in after.outcomes}
    assert len(kept) == len(before.outcomes) == len(BARE.loadouts) * len(before.routes)


def test_only_routes_that_changed_are_worked_out_again():
    text = generated_site(60, 6)
    changed = text.replace("  - line: branch 0\n", "  - line: branch 0\n    condition: sound\n", 1)
    assert changed != text
    memory = Memory()
    before = plan(case(text), tables(), rules(), memory)
    after = plan(case(changed), tables(), rules(), memory)
    kept = {id(outcome) for outcome in before.outcomes} & {id(outcome) for outcome in after.outcomes}
    through = [o for o in after.outcomes if any(p.piece.line == "branch 0" for p in o.route.passages)]
    assert through
    assert len(kept) == len(after.outcomes) - len(through)


def test_a_rule_on_a_spot_that_speaks_of_the_way_is_asked_anew():
    """The spot stays as it was and the way beyond it grows: what is said of the way is the new one."""
    base = rules()
    rule = next(each for each in base.all_rules if each.id == "turn-rod-how")
    asks = replace(
        rule,
        because="It is {route.length}.",
        shown={**rule.shown, "route.length": base.facts["route.length"]},
    )
    assert "route" in asks.subjects
    assert "route" not in rule.subjects
    strata = {
        name: tuple(asks if each.id == rule.id else each for each in some)
        for name, some in base.by_stratum.items()
    }
    other, memory = replace(base, by_stratum=strata), Memory()

    def said(text: str, remembered: Memory | None) -> set[str]:
        study = plan(case(text), tables(), other, remembered)
        firings = [f for o in study.outcomes for spot in o.spots for r in spot.rulings for f in r.firings]
        return {f.because for f in firings if f.rule_id == rule.id and f.outcome}

    longer_way = TIGHT.replace(
        "      - pipe: 1 m\n      - end: sewer", "      - pipe: 9 m\n      - end: sewer"
    )
    before = said(TIGHT, memory)
    after = said(longer_way, memory)
    assert before
    assert before != after == said(longer_way, None)
