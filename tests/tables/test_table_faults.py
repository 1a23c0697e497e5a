"""A spoilt table is refused, with the file, the line, what was wrong and the nearest right name."""

from __future__ import annotations

import re

import pytest

from advisor.errors import BadInput
from advisor.tables import load_tables

SPOILT = [
    # file, what to replace, by what, words of the message
    ("signs/where.yaml", "  two mouths: {p", "  two mouth: {p", ["two mouths"]),
    ("signs/where.yaml", "measured: {value: 0.05}, ", "", ["'measured' is missing"]),
    ("signs/stuck.yaml", "signs: {rim ahead:", "signs: {rim ahaed:", ["'rim ahaed'", "'rim ahead'"]),
    (
        "signs/stuck.yaml",
        '  rod bows at the hand:\n    - {do: "Less',
        '  rod bows:\n    - {do: "Less',
        ["no cause 'rod bows'"],
    ),
    ("signs/stuck.yaml", "planned: bore", "planned: boer", ["bore"]),
    ("tables/limits.yaml", "run_up: {value: 0.3,", "run_up: {valu: 0.3,", ["'value' is missing"]),
    ("tables/limits.yaml", "grade: practice", "grade: hearsay", ["hearsay", "practice"]),
    ("tables/limits.yaml", "grade: practice", "grade: told", ["told"]),
    ("tables/limits.yaml", "source: practice", "source: practise", ["'practise'", "'practice'"]),
    ("tables/limits.yaml", "unit: m,", "unit: furlong,", ["furlong"]),
    ("tables/limits.yaml", "low: 50, high: 100", "low: 90, high: 100", ["not in this order"]),
    ("tables/limits.yaml", "value: 0.3, unit: m, ", "value: some, unit: m, ", ["some"]),
    ("tables/materials.yaml", "wall_class: smooth", "wall_class: smoth", ["smoth", "smooth"]),
    ("tables/materials.yaml", "laid_from: 1955", "laid_from: fifties", ["fifties", "1958"]),
    ("tables/materials.yaml", "[pvc schedule 40]", "[pvc schedule 4]", ["'pvc schedule 40'"]),
    (
        "tables/materials.yaml",
        "{cast iron: 0.93, galvanised",
        "{cast iorn: 0.93, galvanised",
        ["cast iron"],
    ),
    (
        "tables/materials.yaml",
        "{cast iron: 0.93, galvanised",
        "{cast iron: 0.83, galvanised",
        ["0.9"],
    ),
    ("tables/materials.yaml", "until 1960: {cast", "before 1960: {cast", ["until 1960"]),
    (
        "tables/materials.yaml",
        "    britain:\n      stack",
        "    wales:\n      stack",
        ["wales", "britain"],
    ),
    ("tables/pipes.yaml", "1.380, 1.364, -", "1.380, 1.464, -", ["order"]),
    ("tables/pipes.yaml", "wall, bore", "bore, wall", ["columns"]),
    ("tables/conditions.yaml", "  sound:\n    smooth", "  sounds:\n    smooth", ["'sound'"]),
    (
        "tables/conditions.yaml",
        "    clay: {value: 0.98",
        "    mud: {value: 0.98",
        ["mud", "no row for clay"],
    ),
    ("tables/bends.yaml", "radius: stack base", "radius: stack bass", ["'stack base'"]),
    ("tables/bends.yaml", "h to v: yes", "h to w: yes", ["h to v"]),
    ("tables/fixtures.yaml", "hot: yes", "hot: maybe", ["yes or no"]),
    ("tables/junctions.yaml", "short: 0.35, long: 0.25", "shrt: 0.35, long: 0.25", ["short"]),
    ("tables/junctions.yaml", "value: 45, unit: deg", "value: 45, unit: mm", ["angle"]),
    (
        "tables/openings.yaml",
        "[short riser, throat down]",
        "[short riser, throat]",
        ["no step 'throat'"],
    ),
    (
        "tables/openings.yaml",
        "hazards: [full line, seized",
        "hazards: [fool line, seized",
        ["'full line'"],
    ),
    ("tables/entry_steps.yaml", "bore: own", "bore: owned", ["own, line or a length"]),
    ("tables/fixtures.yaml", "opening: shower drain", "opening: shower drane", ["'shower drain'"]),
    ("tables/stoppers.yaml", "tank: yes", "tank: perhaps", ["perhaps", "yes or no"]),
    ("tables/slopes.yaml", "  britain:", "  brittany:", ["brittany", "britain"]),
    ("tables/costs.yaml", "unit: min", "unit: mm", ["time"]),
    ("tables/kits.yaml", "unit: GPa", "unit: kg", ["modulus"]),
    ("tables/junction.yaml", "quick_level:", "quick_levl:", ["quick_level"]),
    ("tables/typical.yaml", "value: 4, unit: in", "value: 4, unit: kg", ["length"]),
    ("sources.yaml", "title: Our own", "titel: Our own", ["titel"]),
    ("words/britain.yaml", "words:", "word:", ["word"]),
    ("card/words.yaml", "  joins:", "  joint:", ["'joint'", "joins"]),
    ("card/words.yaml", "  into main:", "  into man:", ["'into man'", "into main"]),
    ("card/words.yaml", '  bore: "jump: other bore"\n', "", ["no words for 'bore'"]),
    (
        "tables/materials.yaml",
        "aliases: [iron, soil pipe",
        "aliases: [copper, soil pipe",
        ["alias 'copper' is a material of its own"],
    ),
    ("tables/materials.yaml", "  pvc: {wall", "  pvc: {name: pvc, wall", ["'pvc' has a name of its own"]),
    (
        "tables/slopes.yaml",
        "- {slope: {value: 1/16",
        "- {up_to: {value: 8, unit: in, grade: read, source: ipc-704-1}, slope: {value: 1/16",
        ["north america: expected rising sizes and a last row without `up_to`"],
    ),
    (
        "tables/slopes.yaml",
        "{up_to: {value: 2-1/2, unit: in, grade: read, source: ipc-704-1}, slope",
        "{slope",
        ["north america: only the last row goes without `up_to`"],
    ),
    ("tables/slopes.yaml", "up_to: {value: 65,", "up_to: {value: 265,", ["britain: expected rising sizes"]),
    ("tables/junction.yaml", "0.0524, low: 0.02", "0.0524, low: 0.06", ["not in this order"]),
    ("tables/junction.yaml", "value: 0.0524", "value: [0.0524]", ["value: Input should be a valid number"]),
    (
        "tables/bends.yaml",
        "    any: {bores: {value: 1, low: 0.6, high: 1.5, grade: judgement, source: own}}\n",
        "",
        ["'quarter' has no row `any`"],
    ),
    (
        "tables/bends.yaml",
        "        later: {1/8 bend: 0.44",
        "        until 1950: {1/8 bend: 0.44",
        ["expected rising years `until ...` and then `later`"],
    ),
    ("tables/conditions.yaml", "  greasy: coated with grease or soap\n", "", ["no words for 'greasy'"]),
    (
        "tables/conditions.yaml",
        "  greasy:\n    any: {value: 0.88, low: 0.70, high: 0.97, grade: judgement, source: own}\n",
        "",
        ["no row for 'greasy'"],
    ),
]


@pytest.mark.parametrize(("file", "old", "new", "told"), SPOILT, ids=lambda v: str(v)[:30])
def test_refused_with_line(rules, file, old, new, told):
    path = rules / file
    text = path.read_text(encoding="utf-8")
    assert old in text, "the test spoils something that is there"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(BadInput) as caught:
        load_tables(rules)
    message = str(caught.value)
    assert re.search(rf"{re.escape(str(path))}:\d+: ", message), message
    for words in told:
        assert words in message, message


@pytest.mark.parametrize("file", ["bends", "junctions", "materials"])
def test_shares_must_be_there_for_every_region(rules, file):
    path = rules / f"tables/{file}.yaml"
    text = path.read_text(encoding="utf-8")
    before, likely, rest = text.partition("\nlikely:")
    # The block of one region, up to what is less deep than its rows.
    cut, found = re.subn(r"(?m)^    britain:[^\n]*\n(?:      [^\n]*\n)+", "", rest, count=1)
    assert found == 1
    path.write_text(before + likely + cut, encoding="utf-8")
    with pytest.raises(BadInput, match="no shares for britain"):
        load_tables(rules)


def test_no_source_at_all_is_a_fault(rules):
    (rules / "sources.yaml").write_text("sources: {}\n", encoding="utf-8")
    with pytest.raises(BadInput, match="there is no source in it"):
        load_tables(rules)


def test_line_is_that_of_the_fault(rules):
    path = rules / "tables/limits.yaml"
    lines = path.read_text(encoding="utf-8").splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith("  string_tension:"))
    lines[at] = lines[at].replace("source: engine-tables", "source: nowhere")
    path.write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(BadInput) as caught:
        load_tables(rules)
    assert [fault.line for fault in caught.value.faults] == [at + 1]


def test_all_faults_of_all_files_at_once(rules):
    for file, old, new in (
        ("tables/limits.yaml", "grade: practice", "grade: hearsay"),
        ("tables/slopes.yaml", "source: ad-h-2", "source: ad-h-9"),
        ("words/britain.yaml", "words:", "word:"),
    ):
        path = rules / file
        path.write_text(path.read_text(encoding="utf-8").replace(old, new, 1), encoding="utf-8")
    (rules / "tables/kits.yaml").unlink()
    with pytest.raises(BadInput) as caught:
        load_tables(rules)
    spoilt = {fault.file.rsplit("/", 1)[-1] for fault in caught.value.faults}
    assert spoilt == {"limits.yaml", "slopes.yaml", "britain.yaml", "kits.yaml"}


def test_negative_and_fraction_entries():
    from advisor.quantity import Estimate, Known
    from advisor.tables import Entry

    graded = {"grade": "judgement", "source": "own"}
    shift = Entry(value="0", low="-0.8", high="0.8", **graded).belief
    assert isinstance(shift, Estimate)
    assert (shift.low, shift.likely, shift.high) == (-0.8, 0.0, 0.8)
    inch = Entry(value="1-1/2", unit="in", **graded).belief
    assert isinstance(inch, Known)
    assert inch.value == pytest.approx(0.0381)  # 1 in is 25.4 mm exactly
    assert inch.evidence.source == "own"


def test_rules_dir_needs_our_sources(tmp_path, monkeypatch):
    from advisor.tables import place

    package = tmp_path / "advisor"
    (tmp_path / "rules").mkdir()
    monkeypatch.setattr(place, "_PACKAGE", package)
    assert place.rules_dir() == package / "_rules"
    (tmp_path / "rules/sources.yaml").write_text("", encoding="utf-8")
    assert place.rules_dir() == tmp_path / "rules"
