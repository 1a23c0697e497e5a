# ruff: noqa: E501 (one row a case reads best on one line)
"""Each slip of the pen on a sheet gives one line, at the line of the slip, with what to write instead."""

from __future__ import annotations

import re

import pytest

from advisor.errors import BadInput
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from tests.cases.jobs import tables

GOOD = """\
site: a small house
region: north america
built: 1960
lines:
  - line: drain
    size: 4 in
    pieces:
      - opening: upper plug
        kind: end cleanout
        water: dry
      - pipe: 10 ft
      - joined by: side line
        fitting: wye
        side: left
      - pipe: 10 ft
        landmark: wall
      - end: public sewer
  - line: side line
    size: 3 in
    pieces:
      - fixture: basin
      - pipe: 6 ft
      - bend: 1/8 bend
        angle: 45 deg
      - pipe: 2 ft
task:
  look at: drain
  complaint:
    slow: [basin]
"""


def faults(text: str) -> list[tuple[int, str]]:
    with pytest.raises(BadInput) as refused:
        target_of(*_laid(text))
    return [(fault.line, fault.message) for fault in refused.value.faults]


def _laid(text: str):
    sheet = site_of_text(text, "sheet", tables())
    return sheet, network_of(sheet, tables())


def test_the_good_sheet_is_good():
    assert target_of(*_laid(GOOD))[1] is not None


# What is written, what instead, the line, words of the message.
SLIPS = [
    # One piece of two kinds, or out of its place.
    ("- pipe: 6 ft", "- {pipe: 6 ft, bend: 1/8 bend}", 22, ["`pipe` and `bend` in one piece", "`- bend:`"]),
    ("- pipe: 6 ft", "- {pipe: 6 ft, drop: 3 ft}", 22, ["`pipe` and `drop` in one piece"]),
    ("- fixture: basin", "- {fixture: basin, opening: plug}", 21, ["in one piece"]),
    ("- pipe: 6 ft", "- pipe", 22, ["expected `name: value` entries"]),
    ("- pipe: 6 ft", "-", 22, ["expected `name: value` entries"]),
    ("- pipe: 6 ft", "- note: here", 22, ["unknown entry 'note'", "pipe"]),
    ("      - end: public sewer\n", "      - end: public sewer\n      - pipe: 3 ft\n", 17, ["end", "expected it last"]),
    ("- pipe: 6 ft", "- capped: yes", 22, ["capped", "expected it first"]),
    ("      - pipe: 2 ft", "      - tied to: drain\n      - pipe: 2 ft", 25, ["tied to", "expected it first"]),
    ("- pipe: 6 ft", "- change: {}", 22, ["expected size, material, condition, slope or kind"]),
    # Entries inside a piece: the line of the entry, not of the piece.
    ("side: left", "side: lft", 14, ["side: got 'lft'", "did you mean 'left'?"]),
    ("side: left", "sied: left", 14, ["unknown entry 'sied'", "did you mean 'side'?"]),
    ("water: dry", "water: wet", 10, ["water: got 'wet'", "dry, running, standing"]),
    ("water: dry", "buried: 3", 10, ["buried: got '3'", "yes, no or unknown"]),
    ("water: dry", "depth: -3 ft", 10, ["depth: got '-3 ft'", "a length such as"]),
    ("angle: 45 deg", "angle: 300 deg", 24, ["angle: it is more than a half turn", "45 deg"]),
    ("angle: 45 deg", "angle: 45", 24, ["no unit of angle", "an angle such as 45 deg"]),
    ("landmark: wall", "landmark: ''", 16, ["landmark: it is empty"]),
    ("landmark: wall", "at: somewhere", 16, ["at: got 'somewhere'"]),
    # Sizes and slopes.
    ("size: 4 in", "size: 3 to 4 in", 6, ["size: it is a range", "one nominal size such as 4 in"]),
    ("size: 4 in", "size: 40 ft", 6, ["size: no drain has that size"]),
    ("size: 4 in", "size: 1/8 in", 6, ["size: no drain has that size"]),
    ("size: 4 in", "size: 11/2 in", 6, ["write it as 1-1/2"]),
    ("size: 4 in", "size: 3-4 in", 6, ["write a range as `3 to 4 in`"]),
    ("size: 4 in", "size:", 6, ["there is no number in it", "4 in"]),
    ("size: 4 in", "slope: 300 %", 6, ["slope: got '300 %'", "too large to be true"]),
    ("size: 4 in", "slope: 2", 6, ["it is not a slope", "1/4 in per ft"]),
    # Lines that do not meet.
    ("- fixture: basin", "- tied to: drain\n      - pipe: 1 ft", 18, ["joined by: side line"]),
    ("- fixture: basin", "- tied to: nowhere", 21, ["no line is called 'nowhere'"]),
    ("- fixture: basin", "- tied to: side line", 21, ["tied to itself"]),
    ("      - end: public sewer", "      - joined by: side line\n      - end: public sewer", 18 + 1, ["joined 2 times; expected once"]),
    ("side: left", "drawn: no", 14, ["'side line' is on this sheet"]),
    ("      - pipe: 2 ft", "      - pipe: 2 ft\n      - end: soakaway", 18, ["has an `end` and is joined"]),
    # Complaints and targets.
    ("slow: [basin]", "slow: basin", 29, ["slow: got 'basin'", "expected a list"]),
    ("slow: [basin]", "slow: [basin]\n    fine: [basin]", 30, ["cannot run fine and be slow"]),
    ("slow: [basin]", "fine: [basin]\n    tested with volume: [upper plug]", 30, ["does not stand in `fine`"]),
    ("slow: [basin]", "slow: [1/8 bend]", 29, ["no fixture or opening is called '1/8 bend'"]),
    ("look at: drain", "look at: drain, somewhere", 27, ["`from A to B`, `at 24 ft` or `12 ft below A`"]),
    ("look at: drain", "look at: drain, at 12", 27, ["a number has no unit"]),
    ("look at: drain", "look at: drain, at 30 ft", 27, ["only about 20 ft long"]),
    ("look at: drain", "look at: where sid line joins", 27, ["did you mean 'side line'?"]),
    ("look at: drain", "look at: where side line joins wall", 27, ["does not join 'wall'; it joins drain"]),
    # Files.
    ("built: 1960", "built: ²", 3, ["got '²'", "a year such as 1958"]),
    ("built: 1960", "biult: 1960", 3, ["did you mean 'built'?"]),
    ("built: 1960", "<<: {built: 1960}", 3, ["unknown entry '<<'"]),
    ("built: 1960", "[a, b]: c", 3, ["a key that is not a word"]),
    ("built: 1960", "built: \x07", 3, ["a control character", "plain text"]),
    ("built: 1960", "map: a\u2028b", 3, ["a control character"]),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "line", "words"), SLIPS, ids=[row[1][:40] for row in SLIPS])
def test_one_slip_one_line(old, new, line, words):
    assert GOOD.count(old) == 1
    text = GOOD.replace(old, new)
    # Taking a fixture away also takes away whom the complaint names.
    if "basin" not in new and old == "- fixture: basin":
        text = text.replace("slow: [basin]", "slow: [upper plug]")
    (found,) = faults(text)
    assert found[0] == line, found
    for each in words:
        assert each in found[1]


def test_an_empty_list_of_lines_is_refused():
    head = GOOD[: GOOD.index("lines:")]
    assert faults(head + "lines: []\n") == [(4, "lines: the list is empty; expected at least one")]


def test_two_of_one_name_are_only_refused_where_somebody_means_one_of_them():
    twice = GOOD.replace("- pipe: 6 ft", "- pipe: 6 ft\n      - fixture: basin")
    assert faults(twice) == [(30, "2 are called 'basin'; expected a `label` of its own for each")]
    labelled = twice.replace(
        "      - fixture: basin\n      - bend", "      - {fixture: basin, label: other}\n      - bend"
    )
    assert target_of(*_laid(labelled))[1] is not None


def test_a_label_is_the_name_of_a_fixture():
    """A complaint about the bare kind would be lost without a word, so it is refused."""
    labelled = GOOD.replace("- fixture: basin", "- {fixture: basin, label: north basin}")
    message = "no fixture or opening is called 'basin'; did you mean 'north basin'?"
    assert faults(labelled) == [(29, message)]


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("basin", "basin"),
        ("upstairs basin", "basin"),
        ("basin 2", "basin"),
        ("toilet basin", None),
        ("bath with shower", None),
        ("bathroom", None),
        ("bathroom floor drain", "floor drain"),
        ("Kitchen sink", "kitchen sink"),
    ],
)
def test_a_fixture_is_known_by_how_its_name_ends_or_starts(name, kind):
    text = GOOD.replace("fixture: basin", f"fixture: {name}").replace("slow: [basin]", f"slow: [{name}]")
    if kind is None:
        assert f"unknown fixture {name!r}" in faults(text)[0][1]
    else:
        _, network = _laid(text)
        piece = next(each for each in network.pieces.values() if each.name == name)
        assert piece.hole.fixture == kind


def test_five_faults_five_lines():
    text = GOOD
    for old, new in (
        ("region: north america", "region: mars"),
        ("built: 1960", "built: no"),
        ("water: dry", "water: wet"),
        ("- pipe: 6 ft", "- pipe: 6"),
        ("angle: 45 deg", "angel: 45 deg"),
    ):
        text = text.replace(old, new)
    assert [line for line, _ in faults(text)] == [2, 3, 10, 22, 24]


def test_a_name_from_the_sheet_cannot_forge_a_line_of_the_message():
    text = GOOD.replace("fitting: wye", 'fitting: "wey\\nother.yaml:1: all is well"')
    with pytest.raises(BadInput) as refused:
        _laid(text)
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize(
    ("entry", "wrong"),
    [
        ("pipe: 10 ft", "pipe: ten"),
        ("size: 4 in", "size: 3 to 4 in"),
        ("size: 4 in", "size: 40 ft"),
        ("look at: drain", "look at: 'drain, at ten'"),
        ("look at: drain", "look at: 'drain, ten'"),
    ],
)
@pytest.mark.parametrize(
    ("region", "own", "others"), [("north america", "(ft|in)", "m?m"), ("britain", "m?m", "(ft|in)")]
)
def test_an_example_is_in_the_units_of_the_region(entry, wrong, region, own, others):
    text = GOOD.replace("region: north america", f"region: {region}").replace(entry, wrong, 1)
    ((_, message),) = faults(text)
    example = message.partition("expected")[2]
    assert re.search(rf"\d {own}\b", example)
    assert not re.search(rf"\d {others}\b", example)
