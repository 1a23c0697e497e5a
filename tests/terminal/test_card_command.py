"""`advisor card`: where it is written, what it is called, and what cannot be."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.cli import main

FEW = ["--worlds", "100"]


def run(capsys, *given: object) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        main(["card", *map(str, given), *FEW])
    said = capsys.readouterr()
    return int(ended.value.code or 0), said.out, said.err


@pytest.mark.parametrize(
    ("name", "starts"),
    [("c.pdf", b"%PDF"), ("c.png", b"\x89PNG"), ("c.svg", b"<svg"), ("c.txt", b"Larkspur")],
)
def test_the_name_of_the_file_says_the_format(name, starts, tmp_path, capsys):
    code, out, _ = run(capsys, "-o", tmp_path / name)
    assert code == 0
    assert (tmp_path / name).read_bytes().startswith(starts)
    assert "letter paper" in out
    code, _, err = run(capsys, "-o", tmp_path / name)
    assert code == 2
    assert "--force" in err
    assert run(capsys, "-o", tmp_path / name, "--force")[0] == 0


def test_paper_follows_the_region(tmp_path, capsys):
    british = next(path for path in demo.ALL if "region: britain" in path.read_text())
    assert "a4 paper" in run(capsys, british, "-o", tmp_path / "c.pdf")[1]


def test_another_route_is_another_way_in(capsys):
    one, other = run(capsys)[1], run(capsys, "--route", 2)[1]
    assert one.splitlines()[1] != other.splitlines()[1]


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (["-o", "card.doc"], "expected .pdf"),
        (["-o", "card"], "expected .pdf"),
        (["--format", "pdf"], "expected -o FILE"),
        (["--route", "99"], "expected 1 to"),
        (["-o", "/nowhere/card.pdf"], "cannot be written"),
        (["-o", "/tmp"], "--format"),
    ],
)
def test_what_cannot_be_is_told_in_one_line(given, says, capsys):
    code, out, err = run(capsys, *given)
    assert code == 2
    assert not out
    assert says in err.strip().splitlines()[-1]


def test_a_line_that_holds_has_a_card_of_how_it_is_relieved(tmp_path, capsys):
    """On wet paper it is the relief that is needed; of a push there is not a word."""
    sheet = tmp_path / "full.yaml"
    sheet.write_text(demo.MAIN.read_text().replace("holding: no", "holding: yes"))
    code, out, _ = run(capsys, sheet)
    assert code == 0
    said = " ".join(out.split())
    assert "No camera yet" in said
    assert "Open the lowest opening outside first." in said
    assert "ROUTE" not in said
    assert "never pull more" not in said


def test_no_card_where_nobody_works(tmp_path, capsys):
    sheet = tmp_path / "gas.yaml"
    sheet.write_text(demo.MAIN.read_text().replace("holding: no", "holding: yes\n    gas smell: yes"))
    code, _, err = run(capsys, sheet)
    assert code == 2
    assert "Leave the building" in err
