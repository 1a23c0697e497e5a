# ruff: noqa: E501 (one row a case reads best on one line)
"""Broken sheets and rules: each gives its one clear message with the right line, exit 2, no traceback."""

from __future__ import annotations

import os
import shutil

import pytest

from advisor.cli import main
from advisor.quantity import Dimension, parse
from advisor.tables.place import rules_dir

GOOD = """\
site: a small house
region: north america
built: 1960
lines:
  - line: drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: upper plug
        kind: end cleanout
      - pipe: 10 ft
      - joined by: side line
        fitting: wye
      - pipe: 10 ft
      - end: public sewer
  - line: side line
    size: 3 in
    pieces:
      - fixture: basin
      - pipe: 6 ft
task:
  look at: drain
  complaint: {slow: [basin], holding: no}
"""

# name, (text to replace, text instead), line of the fault, words of the message
BROKEN = [
    ("unknown fitting", ("fitting: wye", "fitting: wey"), 14, ["unknown fitting 'wey'", "did you mean 'wye'"]),
    ("unknown material", ("material: pvc", "material: pvd"), 8, ["unknown material 'pvd'", "did you mean 'pvc'"]),
    ("unknown kind of opening", ("kind: end cleanout", "kind: end cleanot"), 11, ["did you mean 'end cleanout'"]),
    ("misspelt key", ("size: 4 in", "sise: 4 in"), 7, ["unknown entry 'sise'"]),
    ("no unit", ("pipe: 10 ft\n      - end", "pipe: 10\n      - end"), 15, ["a number has no unit", "12 ft 6 in"]),
    ("wrong unit", ("size: 4 in", "size: 4 lb"), 7, ["'lb' is not a unit of length"]),
    ("range backwards", ("pipe: 6 ft", "pipe: 8 to 6 ft"), 21, ["the range runs backwards"]),
    ("negative", ("pipe: 6 ft", "pipe: -6 ft"), 21, ["less than zero"]),
    ("nothing long", ("pipe: 6 ft", "pipe: 0 ft"), 21, ["more than nothing"]),
    ("too large", ("pipe: 6 ft", "pipe: 99999 m"), 21, ["too large to be true"]),
    ("no number", ("pipe: 6 ft", "pipe: .nan ft"), 21, ["does not start with a number"]),
    ("endless", ("pipe: 6 ft", "pipe: inf ft"), 21, ["does not start with a number"]),
    ("a billion", ("pipe: 6 ft", "pipe: 1000000000 m"), 21, ["the number is not clear"]),
    ("power of ten", ("pipe: 6 ft", "pipe: 1e9 m"), 21, ["'e' is not a unit of length"]),
    ("comma of thousands", ("pipe: 6 ft", "pipe: '1,000 ft'"), 21, ["may mean thousands or decimals"]),
    ("line that joins no other", ("      - joined by: side line\n        fitting: wye\n", ""), 15, ["'side line' joins no other line"]),
    ("clock for a length", ("pipe: 6 ft", "pipe: 3:00"), 21, ["'3:00'"]),
    ("no as a year", ("built: 1960", "built: no"), 3, ["got 'no'", "a year such as 1958"]),
    ("unknown region", ("region: north america", "region: mars"), 2, ["got 'mars'", "britain"]),
    ("missing region", ("region: north america\n", ""), 1, ["'region' is missing"]),
    ("duplicate key", ("built: 1960", "built: 1960\nbuilt: 1970"), 4, ["'built' stands twice, first on line 3"]),
    ("alias", ("built: 1960", "built: &b 1960\nmap: *b"), 3, ["an anchor"]),
    ("tag", ("built: 1960", "built: !!int 1960"), 3, ["a tag"]),
    ("tab", ("built: 1960", "\tbuilt: 1960"), 3, ["not YAML"]),
    ("two documents", ("task:", "---\ntask:"), 22, ["another document"]),
    ("line that joins nothing", ("joined by: side line", "joined by: other line"), 13, ["no line is called 'other line'"]),
    ("line that joins itself", ("joined by: side line", "joined by: drain"), 13, ["line 'drain' joins itself"]),
    ("two lines of one name", ("line: side line", "line: drain"), 13, ["a second line is called 'drain'"]),
    ("target unknown", ("look at: drain", "look at: drian"), 23, ["called 'drian'", "did you mean 'drain'"]),
    ("target piece unknown", ("look at: drain", "look at: 'drain, from upper plug to sewer'"), 23, ["nothing on drain is called 'sewer'"]),
    ("target too far", ("look at: drain", "look at: 'drain, at 90 ft'"), 23, ["is only about"]),
    ("complaint unknown", ("slow: [basin]", "slow: [basim]"), 24, ["called 'basim'", "did you mean 'basin'"]),
    ("footage backwards", ("fitting: wye", "fitting: wye\n        at: 2 ft"), 15, ["lies above the piece before it"]),
    ("unknown fixture", ("fixture: basin", "fixture: bisan"), 20, ["unknown fixture 'bisan'"]),
    ("pieces no list", ("    pieces:\n      - fixture: basin\n      - pipe: 6 ft", "    pieces: none"), 19, ["expected a list"]),
    ("piece of no kind", ("- pipe: 6 ft", "- pipes: 6 ft"), 21, ["unknown entry 'pipes'", "did you mean 'pipe'"]),
    ("slope nonsense", ("material: pvc", "slope: 4 apples"), 8, ["a slope such as"]),
    ("nested too deep", ("built: 1960", "built: " + "[" * 30 + "]" * 30), 3, ["nested deeper"]),
    ("escape sequence", ("site: a small house", 'site: "a\\e[31m house"\nregion2: x'), 2, ["unknown entry 'region2'"]),
]  # fmt: skip


def run(capsys, *arguments) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main([str(each) for each in arguments])
    out, err = capsys.readouterr()
    return ended.value.code, out, err


def test_the_good_sheet_is_good(tmp_path, capsys):
    sheet = tmp_path / "site.yaml"
    sheet.write_text(GOOD)
    assert run(capsys, "check", sheet)[0] == 0


@pytest.mark.parametrize(("name", "change", "line", "words"), BROKEN, ids=[row[0] for row in BROKEN])
def test_broken_sheet(tmp_path, capsys, name, change, line, words):
    sheet = tmp_path / "site.yaml"
    text = GOOD.replace(*change)
    assert text != GOOD
    sheet.write_text(text)
    code, _, err = run(capsys, "plan", sheet)
    assert code == 2
    assert "Traceback" not in err
    first = err.splitlines()[0]
    assert first.startswith(f"{sheet}:{line}: "), err
    for word in words:
        assert word in err


@pytest.mark.parametrize("length", ["3,5 m", "3.5 m", "010 ft", "11 ft 5-3/4 in"])
def test_numbers_as_people_write_them(tmp_path, capsys, length):
    """A decimal comma is a point; a nought before a number is nothing: 010 is ten, never eight."""
    sheet = tmp_path / "site.yaml"
    sheet.write_text(GOOD.replace("pipe: 6 ft", f"pipe: {length}"))
    assert run(capsys, "check", sheet)[0] == 0
    metres = {"3,5 m": 3.5, "3.5 m": 3.5, "010 ft": 3.048, "11 ft 5-3/4 in": 11 * 0.3048 + 5.75 * 0.0254}
    assert parse(length, Dimension.LENGTH) == pytest.approx(metres[length])


def test_every_fault_at_once(tmp_path, capsys):
    text = GOOD.replace("fitting: wye", "fitting: wey").replace("material: pvc", "material: pvd")
    text = text.replace("kind: end cleanout", "kind: end cleanot").replace("slow: [basin]", "slow: [basim]")
    sheet = tmp_path / "site.yaml"
    sheet.write_text(text)
    assert [line.split(":")[1] for line in run(capsys, "plan", sheet)[2].splitlines()] == [
        "8",
        "11",
        "14",
        "24",
    ]


def test_water_in_a_circle(tmp_path, capsys):
    sheet = tmp_path / "site.yaml"
    sheet.write_text(
        "site: circle\nregion: britain\nlines:\n"
        "  - line: a\n    pieces:\n      - opening: x\n      - pipe: 1 m\n      - joined by: b\n      - pipe: 1 m\n"
        "  - line: b\n    pieces:\n      - pipe: 1 m\n      - joined by: a\n      - pipe: 1 m\n"
    )
    code, _, err = run(capsys, "plan", sheet)
    assert code == 2
    assert "water would run in a circle: a, b" in err


def test_escapes_never_reach_the_terminal_raw(tmp_path, capsys):
    sheet = tmp_path / "site.yaml"
    sheet.write_text(GOOD.replace("fitting: wye", 'fitting: "\\e[31mwye\\u202e"'))
    err = run(capsys, "plan", sheet)[2]
    assert "\x1b" not in err
    assert "\u202e" not in err


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("empty", b"", "it is empty"),
        ("only a word", b"hello", "expected `name: value`"),
        ("bad utf-8", b"site: \xff\xfe\n", "expected UTF-8"),
        ("binary", bytes(range(256)), "expected UTF-8"),
        ("huge", b"a: b\n" * 60_000, "larger than 256 KB"),
    ],
)
def test_files_that_are_no_sheets(tmp_path, capsys, name, content, words):
    sheet = tmp_path / "site.yaml"
    sheet.write_bytes(content)
    code, _, err = run(capsys, "plan", sheet)
    assert code == 2
    assert words in err
    assert len(err.splitlines()) == 1


def test_no_file_a_folder_a_pipe(tmp_path, capsys):
    assert "there is no such file" in run(capsys, "plan", tmp_path / "missing.yaml")[2]
    assert "no site.yaml in this folder" in run(capsys, "plan", tmp_path)[2]
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "this is not a file" in run(capsys, "plan", pipe)[2]


def test_what_a_name_leads_to(tmp_path, capsys):
    """A link is its target and no more: what is no sheet there is told and left. A name may be of any length."""
    (tmp_path / "elsewhere").write_text("root:x:0:0\n")
    link = tmp_path / "link.yaml"
    link.symlink_to(tmp_path / "elsewhere")
    code, _, err = run(capsys, "check", link)
    assert (code, (tmp_path / "elsewhere").read_text()) == (2, "root:x:0:0\n")
    assert "this is no site sheet" in err
    for command in ("plan", "check", "card"):
        code, _, err = run(capsys, command, tmp_path / ("x" * 300))
        assert code == 2
        assert len(err.splitlines()) == 1
    code, _, err = run(capsys, "plan", "a\x1b[31m.yaml")
    assert code == 2
    assert "\\u001b" in err


def test_a_file_that_may_not_be_read(tmp_path, capsys, monkeypatch):
    sheet = tmp_path / "site.yaml"
    sheet.write_text(GOOD)

    whole = open

    def refused(path: object, *more: object, **named: object) -> object:
        if str(path) == str(sheet):
            raise PermissionError(13, "Permission denied")
        return whole(path, *more, **named)  # type: ignore[call-overload]

    monkeypatch.setattr("builtins.open", refused)
    code, _, err = run(capsys, "plan", sheet)
    assert code == 2
    assert "Permission denied" in err
    assert len(err.splitlines()) == 1


KIT = """\
kit: van
heads: [{head: small head, diameter: 25 mm, length: 40 mm}]
springs: [{spring: soft, like: small reel}]
rods: [{rod: thin rod, like: small reel}]
"""


@pytest.mark.parametrize(
    ("change", "line", "words"),
    [
        (("like: small reel}]\nrods", "like: smal reel}]\nrods"), 3, "did you mean 'small reel'"),
        (("diameter: 25 mm", "diametre: 25 mm"), 2, "unknown entry 'diametre'"),
        (("length: 40 mm", "length: 40"), 2, "a number has no unit"),
        (("rods:", "loadouts: [{head: small hed, spring: soft, rod: thin rod}]\nrods:"), 4, "did you mean 'small head'"),
        (("kit: van", "kit: van\nheads: []"), 3, "'heads' stands twice"),
        (("heads: [{head: small head, diameter: 25 mm, length: 40 mm}]", "heads: []"), 2, "heads: the list is empty"),
        (("heads: [", "heads: [{head: small head}, "), 2, "a second head is called 'small head'"),
        (("rod: thin rod, like: small reel", "rod: thin rod, diameter: 6 mm, core: 9 mm"), 4, "thicker than the rod"),
        (("rod: thin rod,", "rod: thin rod, stiffness: 0 N m2,"), 4, "stiffness: it must be more than nothing"),
        (("rod: thin rod,", "rod: thin rod, stiffness: 3 N m,"), 4, "'n m' is not a unit of stiffness"),
        (("spring: soft,", "spring: soft, pull limit: 0 N,"), 3, "pull limit: it must be more than nothing"),
        (("spring: soft,", "spring: soft, feel: hard,"), 3, "known: firm, soft"),
        (("rods:", "loadouts: [{head: small head, spring: soft, rod: thin rod, guide: ring}]\nrods:"), 4, "no guide is called 'ring'; none is on the sheet"),
        (("rods:", "loadouts: [{head: small head, spring: soft}]\nrods:"), 4, "'rod' is missing"),
    ],
)  # fmt: skip
def test_broken_kits(tmp_path, capsys, change, line, words):
    kit = tmp_path / "kit.yaml"
    assert KIT.replace(*change) != KIT
    kit.write_text(KIT.replace(*change))
    code, _, err = run(capsys, "plan", "--kit", kit)
    assert code == 2
    assert err.startswith(f"{kit}:{line}: ")
    assert len(err.splitlines()) == 1
    assert words in err


@pytest.mark.parametrize(
    ("file", "change", "words"),
    [
        ("difficulty/junction.yaml", ("passage.folds_back >=", "passage.folds_bakc >="), "did you mean 'passage.folds_back'"),
        ("technique/push.yaml", ("quick push: rejected", "quick push: refused"), "refused"),
        ("tables/limits.yaml", ("grade: judgement", "grade: guess"), "guess"),
        ("tables/costs.yaml", ("source: own", "source: nobody"), "nobody"),
        ("caution/pipe.yaml", ("word: notice", "word: shout"), "shout"),
    ],
)  # fmt: skip
def test_broken_rules(tmp_path, capsys, file, change, words):
    rules = tmp_path / "rules"
    shutil.copytree(rules_dir(), rules)
    path = rules / file
    text = path.read_text()
    broken = text.replace(*change, 1)
    assert broken != text
    at = next(
        i for i, (a, b) in enumerate(zip(text.splitlines(), broken.splitlines(), strict=True), 1) if a != b
    )
    path.write_text(broken)
    code, _, err = run(capsys, "check", rules)
    assert code == 2
    assert words in err
    line = int(err.split(f"{path}:")[1].split(":")[0])
    # A rule's fault may be told at the rule's own first line.
    assert at - 8 <= line <= at


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["plan", "--worlds", "5"], "from 100 to 50000"),
        (["plan", "--units", "cubits"], "invalid choice"),
        (["plan", "--rules", "/tmp"], "not a rules folder"),
        (["plam"], "invalid choice"),
        ([], "required"),
    ],
)
def test_bad_options(capsys, arguments, words):
    code, _, err = run(capsys, *arguments)
    assert code == 2
    assert words in err
