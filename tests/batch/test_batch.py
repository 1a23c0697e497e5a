"""Many sheets into one table: a bad sheet stops nothing, and a run that was cut off is gone on from."""

from __future__ import annotations

import csv
import os
import shutil
from pathlib import Path

import pytest

from advisor import demo
from advisor.batch.row import COLUMNS, Planner
from advisor.cli import main
from advisor.errors import cell
from advisor.tables.place import rules_dir


def run(capsys, *given: object) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main(["batch", *map(str, given), "--worlds", "100", "--cores", "1"])
    said = capsys.readouterr()
    return int(ended.value.code or 0), said.out, said.err


@pytest.fixture
def folder(tmp_path) -> Path:
    made = tmp_path / "sheets"
    (made / "job").mkdir(parents=True)
    for path in demo.ALL:
        (made / path.name).write_text(path.read_text())
    (made / "bad.yaml").write_text("site: =HYPERLINK(1)\nlines: []\n")
    (made / "pipe.yaml").symlink_to("/dev/zero")
    (made / "job" / "site.yaml").write_text(demo.MAIN.read_text().replace("holding: no", "holding: yes"))
    (made / "job" / "kit.yaml").write_text(demo.KIT.read_text())
    return made


def rows(path: Path) -> dict[str, dict[str, str]]:
    with path.open(newline="") as file:
        return {row["sheet"]: row for row in csv.DictReader(file)}


def test_every_sheet_has_its_row_and_a_bad_one_stops_nothing(folder, tmp_path, capsys):
    out = tmp_path / "plans.csv"
    assert run(capsys, folder, "-o", out)[0] == 0
    found = rows(out)
    assert set(found) == {path.name for path in demo.ALL} | {"bad.yaml", "pipe.yaml", "job/site.yaml"}
    for path in demo.ALL:
        assert found[path.name]["result"] == "planned"
        assert 0 < float(found[path.name]["chance"]) < 1
    assert found["job/site.yaml"]["result"] == "no camera yet"
    assert found["bad.yaml"]["result"] == found["pipe.yaml"]["result"] == "bad sheet"
    assert "bad.yaml" in found["bad.yaml"]["message"]
    assert "more)" in found["bad.yaml"]["message"]


def test_where_there_is_no_plan_the_row_has_none(folder, tmp_path, capsys):
    """A chance and an opening in a table are read without the words that nobody works there until then."""
    for path in folder.rglob("*.yaml"):
        path.unlink()
    (folder / "site.yaml").write_text(demo.MAIN.read_text().replace("holding: no", "chemicals: yes"))
    run(capsys, folder, "-o", tmp_path / "plans.csv")
    (row,) = rows(tmp_path / "plans.csv").values()
    assert row["result"] == "no camera yet"
    assert {name for name, value in row.items() if value} == {
        "sheet",
        "content",
        "result",
        "site",
        "first_step",
    }


def test_what_is_done_is_not_done_again_and_what_changed_is(folder, tmp_path, capsys):
    out = tmp_path / "plans.csv"
    run(capsys, folder, "-o", out)
    before = out.read_text()
    assert "nothing new" not in run(capsys, folder, "-o", out)[1], "what could not be read is tried again"
    (folder / "pipe.yaml").unlink()
    assert "nothing new" in run(capsys, folder, "-o", out)[1]
    (folder / demo.MAIN.name).write_text(demo.MAIN.read_text().replace("built: 19", "built: 18"))
    run(capsys, folder, "-o", out)
    assert out.read_text().startswith(before)
    assert len(out.read_text().splitlines()) == len(before.splitlines()) + 2


def test_a_table_cut_off_in_a_line_is_gone_on_from(folder, tmp_path, capsys):
    whole, cut = tmp_path / "whole.csv", tmp_path / "cut.csv"
    run(capsys, folder, "-o", whole)
    text = whole.read_bytes()
    for length in (10, len(text) // 2, len(text) - 1):
        cut.write_bytes(text[:length])
        run(capsys, folder, "-o", cut)
        assert rows(cut) == rows(whole), length


def test_several_processes_tell_the_same(folder, tmp_path, capsys):
    one, two = tmp_path / "one.csv", tmp_path / "two.csv"
    run(capsys, folder, "-o", one)
    with pytest.raises(SystemExit):
        main(["batch", str(folder), "-o", str(two), "--worlds", "100", "--cores", "2"])
    assert one.read_bytes() == two.read_bytes()


@pytest.mark.parametrize(
    "what", ["another table", "a sheet", "a folder", "no folder", "no sheets", "read-only"]
)
def test_what_cannot_be_is_told_in_one_line(what, folder, tmp_path, capsys):
    out, source = tmp_path / "plans.csv", folder
    if what == "another table":
        out.write_text("name,price\nrod,5\n")
    elif what == "a sheet":
        out = folder / demo.MAIN.name
    elif what == "a folder":
        out = tmp_path
    elif what == "no folder":
        source = tmp_path / "nowhere"
    elif what == "no sheets":
        source = tmp_path / "empty"
        source.mkdir()
    else:
        if os.geteuid() == 0:
            out = Path("/proc/plans.csv")  # not even root may write there
        else:
            out.write_text("")
            out.chmod(0o400)
    before = out.read_bytes() if out.is_file() else b""
    code, _, said = run(capsys, source, "-o", out)
    assert code == 2
    assert len(said.strip().splitlines()) == 1
    assert "expected" in said or "cannot be written" in said
    assert (out.read_bytes() if out.is_file() else b"") == before


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@a", "  =1"])
def test_no_cell_is_a_formula(text):
    # Source: the usual defence against formula injection, common practice: a quotation mark before it.
    assert cell(text) == f"'{text}"


def test_a_cell_is_one_printable_line():
    assert cell("a\x1b[31m\nb\u202e") == "a\\u001b[31m b\\u202e"
    assert cell("1-1/2 in") == "1-1/2 in"
    assert len(COLUMNS) == len(set(COLUMNS))


def test_another_kit_of_the_same_name_makes_a_row_an_old_one(tmp_path):
    kit = tmp_path / "kit.yaml"
    kit.write_text(demo.KIT.read_text())
    before = Planner(rules_dir(), kit, 100, 1).content(demo.MAIN)
    assert Planner(rules_dir(), kit, 100, 1).content(demo.MAIN) == before
    kit.write_text(demo.KIT.read_text() + "\n# a note\n")
    assert Planner(rules_dir(), kit, 100, 1).content(demo.MAIN) != before


def test_a_rule_that_changed_makes_a_row_an_old_one(tmp_path):
    own = tmp_path / "rules"
    shutil.copytree(rules_dir(), own)
    before = Planner(own, None, 100, 1).content(demo.MAIN)
    limits = own / "tables" / "limits.yaml"
    limits.write_text(limits.read_text().replace("least_chance: {value: 0.05", "least_chance: {value: 0.06"))
    assert Planner(own, None, 100, 1).content(demo.MAIN) != before
