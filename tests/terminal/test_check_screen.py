"""`advisor check` tells what each file is, every fault of every file, and runs the rules' examples."""

from __future__ import annotations

import shutil

import pytest

from advisor import demo
from advisor.tables.place import rules_dir
from advisor.terminal.check_screen import check, matrix
from tests.site.test_all_at_once import SHEET


@pytest.fixture
def rules(tmp_path):
    return shutil.copytree(rules_dir(), tmp_path / "rules")


def test_says_what_each_file_is(capsys):
    files = [*demo.ALL, demo.KIT, rules_dir(), *sorted((rules_dir() / "technique").glob("push.yaml"))]
    assert check(files, rules_dir()) == 0
    told = capsys.readouterr()
    lines = told.out.splitlines()
    assert told.err == ""
    assert len(lines) == len(files)
    for file, line, words in zip(
        files, lines, ["site sheet"] * 3 + ["kit sheet"] + ["typical buildings"] * 2, strict=True
    ):
        assert line.startswith(f"{file}: ok, ")
        assert words in line


def test_tells_all_faults_of_all_files_and_passes_the_good_ones(tmp_path, capsys):
    site, kit = tmp_path / "site.yaml", tmp_path / "kit.yaml"
    site.write_text("site: a\nregion: nowhere\nbuilt: soon\nlines: []\n")
    kit.write_text("kit: b\nheads: []\nsprings: []\nrods: []\n")
    assert check([site, demo.KIT, kit, tmp_path / "none.yaml"], rules_dir()) == 2
    told = capsys.readouterr()
    assert told.out.splitlines() == [f"{demo.KIT}: ok, a kit sheet with 3 loadouts"]
    for start in (f"{site}:2: region", f"{site}:3: built", f"{kit}:2: heads", f"{tmp_path / 'none.yaml'}: "):
        assert any(line.startswith(start) for line in told.err.splitlines()), start


SLIPS = """\
kit: van
heads:
  - {head: small head, diameter: 25 m}
springs:
  - {sprnig: soft spring, like: small real}
rods:
  - {rod: small reel, length: 30}
loadouts:
  - {head: smal head, spring: soft spring, rod: small reel}
  - {head: small head, spring: soft spring, rod: smal reel}
"""


def test_slips_of_every_kind_in_a_kit_are_told_in_one_run(tmp_path, capsys):
    """A size, an entry, a class, a missing unit, two names: each in its line, none by another's cost."""
    kit = tmp_path / "kit.yaml"
    kit.write_text(SLIPS)
    assert check([kit], rules_dir()) == 2
    lines = [line.removeprefix(f"{kit}:") for line in capsys.readouterr().err.splitlines()]
    for line, words in zip(
        lines,
        [
            ("3: diameter: no head or spring on a push rod has that size"),
            ("5: no class of reel is called 'small real'; did you mean 'small reel'?"),
            ("5: unknown entry 'sprnig'; did you mean 'spring'?"),
            ("7: length: got '30': a number has no unit"),
            ("9: no head is called 'smal head'; did you mean 'small head'?"),
            ("10: no rod is called 'smal reel'; did you mean 'small reel'?"),
        ],
        strict=True,
    ):
        assert line.startswith(words)


def test_slips_of_every_kind_in_a_site_are_told_in_one_run(tmp_path, capsys):
    site = tmp_path / "site.yaml"
    text = SHEET
    for old, new in (
        ("built: 1960", "bilt: 19600"),
        ("material: pvc", "material: pvd"),
        ("fitting: wye", "fiting: wey"),
        ("pipe: 6 ft", "pip: 6"),
        ("look at: drain", "look at: the moon"),
        ("slow: [basin]", "slow: [basim]"),
    ):
        assert text.count(old) == 1
        text = text.replace(old, new)
    site.write_text(text)
    assert check([site], rules_dir()) == 2
    found = [line.removeprefix(f"{site}:").partition(": ") for line in capsys.readouterr().err.splitlines()]
    assert [int(line) for line, _, _ in found] == [3, 3, 7, 13, 13, 21, 21, 23, 24]
    said = "\n".join(words for _, _, words in found)
    for words in (
        "'built'",
        "'19600'",
        "'pvc'",
        "'fitting'",
        "'wye'",
        "'pipe'",
        "no unit",
        "moon",
        "'basin'",
    ):
        assert words in said


def test_a_tab_hides_no_other_slip(tmp_path, capsys):
    site = tmp_path / "site.yaml"
    text = SHEET.replace("    material: pvc", "\tmaterial: pvd").replace("look at: drain", "look at: moon")
    site.write_text(text)
    assert check([site], rules_dir()) == 2
    lines = [line.removeprefix(f"{site}:") for line in capsys.readouterr().err.splitlines()]
    for line, begins in zip(lines, ("7: this is not YAML: a tab", "7: ", "23: "), strict=True):
        assert line.startswith(begins)
    assert "unknown material 'pvd'" in lines[1]
    assert "'moon'" in lines[2]


def test_a_slip_in_one_rule_hides_neither_another_rule_nor_another_part(rules, capsys):
    push, site = rules / "technique" / "push.yaml", sorted((rules / "archetypes").glob("*.yaml"))[0]
    text = push.read_text()
    assert text.count("    title:") > 1
    first, second, rest = text.split("    title:", 2)
    source = rest.replace("memory: own", "memory: owm", 1).replace("judgement: own", "judgement: owm", 1)
    assert source != rest
    push.write_text(f"{first}    titel:{second}    title:{source}")
    site.write_text(site.read_text().replace("region: ", "region: nowhere near ", 1))
    assert check([rules], rules) == 2
    said = capsys.readouterr().err
    for words in ("unknown entry 'titel'; did you mean 'title'?", "unknown source 'owm'", "nowhere near"):
        assert words in said


def test_twenty_faults_of_a_file_are_told_and_the_others_counted(tmp_path, capsys):
    kits = [tmp_path / "a.yaml", tmp_path / "b.yaml"]
    for kit, count in zip(kits, (20, 23), strict=True):
        heads = "".join(f"  - {{head: h{i}, diameter: 25}}\n" for i in range(count))
        kit.write_text(f"kit: k\nheads:\n{heads}springs: [{{spring: s}}]\nrods: [{{rod: r}}]\n"
                       "loadouts: [{head: h0, spring: s, rod: r}]\n")  # fmt: skip
    assert check(kits, rules_dir()) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 20 + 21
    assert lines[19].startswith(f"{kits[0]}:22: diameter: got '25'")
    assert lines[-1] == f"{kits[1]}: and 3 more"


def test_a_day_that_is_still_to_come_is_told_of_a_sheet_that_is_right_all_the_same(tmp_path, capsys):
    """The clock of a computer that lay about may be wrong: no job is refused for that."""
    site = tmp_path / "site.yaml"
    run = "  history: {machine runs: [{on: 2099-05, to: 30 ft}, {on: 2019, to: 30 ft}]}\n"
    site.write_text(demo.MAIN.read_text().rstrip() + "\n" + run)
    assert check([site], rules_dir()) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "But machine run: 2099-05 is still to come" in told
    assert "2019 is" not in told


def test_site_whose_target_is_nowhere(tmp_path, capsys):
    site = tmp_path / "site.yaml"
    text = demo.MAIN.read_text()
    site.write_text(text.replace("look at: suspect section", "look at: the moon"))
    assert "the moon" in site.read_text()
    assert check([site], rules_dir()) == 2
    assert "no line or opening is called 'the moon'" in capsys.readouterr().err


def test_example_that_does_not_come_out_is_a_fault(rules, capsys):
    file = rules / "technique" / "push.yaml"
    text = file.read_text()
    file.write_text(text.replace("expect: fires", "expect: silent", 1))
    line = text[: text.index("- id:")].count("\n") + 1
    assert check([rules], rules) == 2
    told = capsys.readouterr().err
    assert told.startswith(f"{file}:{line}: ")
    assert "got fires; expected silent" in told
    # The same when the file itself, a table or the facts of that folder are named.
    for other in (file, rules / "facts.yaml", rules / "tables" / "limits.yaml"):
        assert check([other], rules_dir()) == 2, other


def test_rule_file_outside_a_rules_folder_says_where_it_belongs(tmp_path, capsys):
    file = tmp_path / "a" / "b" / "mine.yaml"
    file.parent.mkdir(parents=True)
    file.write_text("rules: []\n")
    assert check([file], rules_dir()) == 2
    assert capsys.readouterr().err.startswith(f"{file}:1: a rule file is checked where it stands")


@pytest.mark.parametrize("text", ["other: 1\n", "- 1\n", "just words\n"])
def test_what_is_no_sheet_at_all(text, tmp_path, capsys):
    file = tmp_path / "x.yaml"
    file.write_text(text)
    assert check([file], rules_dir()) == 2
    assert capsys.readouterr().err.startswith(f"{file}:1: this is no site sheet")


def test_folder_that_holds_no_rules(tmp_path, capsys):
    assert check([tmp_path], rules_dir()) == 2
    assert "expected sources.yaml in it" in capsys.readouterr().err


def test_matrix_shows_every_cell(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "100")
    assert matrix(rules_dir()) == 0
    told = capsys.readouterr().out
    for words in ("QUICK PUSH", "STRING", "allowed", "rejected", "What explains each trouble".upper()):
        assert words in told
    assert "Empty:" not in told
