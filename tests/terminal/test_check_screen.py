"""`advisor check` tells what each file is, every fault of every file, and runs the rules' examples."""

from __future__ import annotations

import shutil

import pytest

from advisor import demo
from advisor.tables.place import rules_dir
from advisor.terminal.check_screen import check, matrix


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
