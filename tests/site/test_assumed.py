"""What stands on a sheet as `assumed`: taken as written, told as our judgement, and no fact."""

from __future__ import annotations

import re

import pytest

from advisor.errors import BadInput, QuantityError
from advisor.evidence import Grade
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.plan import Case, plan
from advisor.quantity import Dimension, Units, parse, parse_stated
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables
from tests.result.test_plan import KIT

HOUSE = """
site: by hand
region: north america
built: 1950
map: measured
lines:
  - line: drain
    size: {a}4 in
    material: {a}clay
    condition: {a}roots
    slope: {a}2 %
    pieces:
      - opening: plug
        kind: {a}end cleanout
        opens: yes
        size: {a}4 in
        depth: {a}1 ft
      - pipe: {a}20 to 40 ft
      - joined by: branch
        fitting: {a}wye
      - bend: {a}long sweep
        angle: {a}90 deg
      - pipe: {a}10 ft
      - joint: offset
        step: {a}1/4 in
      - change: {{size: {a}6 in, material: {a}iron, condition: {a}sound, slope: {a}1 %}}
      - pipe: unknown
      - belly: {a}2 m
        at: {a}100 ft
      - trap: {a}house trap
      - end: public sewer
  - line: branch
    size: 2 in
    material: pvc
    condition: sound
    slope: 2 %
    pieces:
      - opening: tub
        kind: fixture tee
        opens: yes
      - fixture: basin
        size: {a}1-1/4 in
        arm: {a}2 ft
        fitting: {a}sanitary tee
      - pipe: 3 ft
task:
  look at: drain, at 15 ft
  complaint: {{holding: no}}
"""
# Every value that HOUSE can assume, counted on the sheet by hand: line 4, opening 3, pipe, junction, bend 2,
# pipe, joint, change 4, the footage of the belly, the belly, trap, arm 3.
ASSUMED = 23


def network(prefix: str):
    return network_of(site_of_text(HOUSE.format(a=prefix), "sheet", tables()), tables())


def test_a_sheet_reads_alike_with_and_without_the_word():
    told, assumed = network(""), network("assumed ")
    assert list(told.pieces) == list(assumed.pieces)
    for key, piece in told.pieces.items():
        other = assumed.pieces[key]
        assert piece.along == other.along
        assert piece.wall.nominal.value == other.wall.nominal.value
        assert piece.wall.material.options == other.wall.material.options
        assert piece.wall.condition.options == other.wall.condition.options
        assert (piece.fitting and piece.fitting.options) == (other.fitting and other.fitting.options)


def test_each_is_listed_once_as_our_judgement():
    told, assumed = network(""), network("assumed ")
    left_out = [each.about for each in told.assumed]  # of the basin's arm nothing more can be written
    more = [each for each in assumed.assumed if each.about not in left_out]
    assert len(more) == ASSUMED
    assert {each.belief.evidence.grade for each in more} == {Grade.JUDGEMENT}


def test_the_plan_is_that_of_the_same_values_and_tells_them_as_weak():
    def made(prefix: str):
        sheet = site_of_text(HOUSE.format(a=prefix), "sheet", tables())
        return plan_of(plan(Case(sheet, KIT, Units.INCH, 200), tables(), rules()))

    told, assumed = made(""), made("assumed ")
    assert [(r.opening, r.chance, r.minutes) for r in told.routes] == [
        (r.opening, r.chance, r.minutes) for r in assumed.routes
    ]
    known = {note.about for note in told.assumed}
    notes = {note.about: note for note in assumed.assumed if note.about not in known}
    assert all(note.weak for note in notes.values())
    assert notes["material of drain"].taken == "clay"
    assert notes["slope of drain"].taken == "1/4 in per ft"
    assert notes["bend in drain, below branch"].taken == "long sweep"
    assert notes["angle of the bend in drain, below branch"].taken == "90°"
    assert notes["length of a pipe in drain, below plug"].taken == "20 ft to 40 ft"


def test_an_assumed_single_length_is_off_by_what_the_map_is():
    pipe = next(p for p in network("assumed ").pieces.values() if p.kind == "pipe" and p.along == 3.048)
    error = tables().limits["map_error_measured"].likely * 3.048
    assert (pipe.length.low, pipe.length.high) == pytest.approx((3.048 - error, 3.048 + error))
    assert pipe.length.evidence.grade is Grade.JUDGEMENT


def test_the_word_is_read_in_any_case_and_never_as_one_certain_value():
    stated = parse_stated("Assumed about 20 ft", Dimension.LENGTH)
    assert (stated.assumed, stated.rough, stated.likely) == (True, True, pytest.approx(6.096))
    with pytest.raises(QuantityError, match="expected one value"):
        parse("assumed 20 ft", Dimension.LENGTH)


@pytest.mark.parametrize(
    ("was", "wrong", "says"),
    [
        ("pipe: assumed 10 ft", "pipe: assumed", "got 'assumed'"),
        ("pipe: assumed 10 ft", "pipe: assumed unknown", "got 'assumed unknown'"),
        ("pipe: assumed 10 ft", "pipe: assumed assumed 10 ft", "expected a length"),
        ("material: assumed clay", "material: assumed", "expected a name after `assumed`"),
        ("condition: assumed roots", "condition: assumed unknown", "or unknown alone"),
        ("fitting: assumed wye", "fitting: assumed wey", "unknown fitting 'wey'; did you mean 'wye'?"),
        ("trap: assumed house trap", "trap: assumed house trp", "did you mean 'house trap'?"),
    ],
)
def test_nonsense_behind_it_is_refused_at_its_line(was, wrong, says):
    text = HOUSE.format(a="assumed ")
    line = text[: text.index(was)].count("\n") + 1
    with pytest.raises(BadInput, match=re.escape(f"sheet:{line}: ") + ".*" + re.escape(says)):
        site_of_text(text.replace(was, wrong, 1), "sheet", tables())


def test_a_name_of_ones_own_may_begin_with_it():
    text = HOUSE.format(a="").replace("- trap: house trap", "- trap: house trap\n        name: assumed trap")
    assert any(
        p.name == "assumed trap"
        for p in network_of(site_of_text(text, "s", tables()), tables()).pieces.values()
    )


def test_a_kit_sheet_takes_it_too_and_the_kit_says_so():
    text = """
kit: van
heads: [{head: small head, diameter: assumed 25 mm, length: 40 mm}]
springs: [{spring: soft, like: small reel, feel: soft}]
rods: [{rod: thin, like: small reel, stiffness: assumed 1 N m2}]
"""
    kit = kit_of(kit_of_text(text, "kit"), tables())
    assert kit.heads[0].diameter.value == 0.025
    assert kit.heads[0].diameter.evidence.grade is Grade.JUDGEMENT
    assert "small head: diameter assumed on the sheet" in kit.assumed
    assert "thin: stiffness assumed on the sheet" in kit.assumed
