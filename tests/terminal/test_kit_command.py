"""`advisor kit` as the technician meets it: shown, asked for, changed, measured, and never overwritten."""

from __future__ import annotations

import pytest

from advisor.cli import main
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from tests.cases.jobs import tables

KIT = """\
kit: van  # mine
heads:
  - {head: small head, diameter: 25 mm, length: 42 mm}  # new lens
springs:
  - spring: soft
    feel: soft   # by hand
rods:
  - rod: thin
    diameter: 7 mm
    # core: seen?
  - rod: thick
    diameter: 11 mm
"""


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("PUSH_ADVISOR_HOME", str(tmp_path / "own"))
    return tmp_path / "own"


@pytest.fixture
def own(home):
    home.mkdir()
    path = home / "kit.yaml"
    path.write_text(KIT)
    return path


def run(*words: str) -> int:
    with pytest.raises(SystemExit) as done:
        main(["kit", *words])
    return int(done.value.code or 0)


def test_without_a_sheet_the_built_in_kit_is_shown_and_said_to_be_guessed(home, capsys):
    assert run() == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "No kit sheet of your own" in said
    assert "small reel" in said
    assert "wide ranges" in said


def test_the_trucks_kit_is_shown_with_its_place_and_what_is_assumed(own, capsys):
    assert run("--units", "metric") == 0
    said = " ".join(capsys.readouterr().out.replace("│", " ").split())
    assert "own/kit.yaml" in said.replace(" ", "")
    assert "25 mm" in said
    assert "thin: usual" in said


def test_a_size_is_shown_as_it_was_typed(own, capsys):
    """Rounded to a tape, a rod of 0.28 in would be one of 1/4, and a head of 1-3/16 one of 1-1/4."""
    own.write_text(
        KIT.replace("diameter: 7 mm", "diameter: 0.28 in\n    core: 5/32 in").replace("25 mm", "1-3/16 in")
    )
    assert run() == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "across 0.28 in; core 5/32 in;" in said
    assert "across 1-3/16 in;" in said


@pytest.mark.parametrize(
    ("about", "was", "now"),
    [
        ("thin/diameter=8 mm", "diameter: 7 mm", "diameter: 8 mm"),
        ("soft/feel=firm", "feel: soft   # by hand", "feel: firm   # by hand"),
        ("small head/nose=flat", "length: 42 mm}  # new", "length: 42 mm, nose: flat}  # new"),
        ("small head/diameter=1 in", "diameter: 25 mm,", "diameter: 1 in,"),
        ("thin/core=about 4 mm", "- rod: thin\n", "- rod: thin\n    core: about 4 mm\n"),
        ("rods/thick/length=60 m", "- rod: thick\n", "- rod: thick\n    length: 60 m\n"),
    ],
)
def test_one_value_changes_and_every_other_line_stays(own, about, was, now):
    assert KIT.count(was) == 1
    assert run("edit", *about.split()) == 0
    assert own.read_text() == KIT.replace(was, now)
    kit_of(kit_of_text(own.read_text(), "kit"), tables())


def test_what_is_told_now_is_not_left_as_not_told(own):
    """A measured value above a remark that nobody told it; the remark of another part stays."""
    own.write_text(
        KIT.replace("    # core: seen?\n", "    # core: not told\n    # weight: not told\n")
        + "    # core: not told\n"
    )
    before = own.read_text()
    assert run("edit", "thin/core=3.7 mm") == 0
    wanted = before.replace("- rod: thin\n", "- rod: thin\n    core: 3.7 mm\n").replace(
        "    # core: not told\n", "", 1
    )
    assert own.read_text() == wanted


@pytest.mark.parametrize("place", range(3))
def test_options_may_stand_anywhere(tmp_path, capsys, place):
    sheet = tmp_path / "other.yaml"
    sheet.write_text(KIT)
    words = ["edit", "thin/diameter=8 mm"]
    words[place:place] = ["--kit", str(sheet)]
    assert run(*words) == 0
    assert "diameter: 8 mm" in sheet.read_text()
    assert run("--kit", str(sheet)) == 0
    assert "8 mm" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("about", "says"),
    [
        ("thn/diameter=8 mm", "no part is called 'thn'; did you mean 'thin'?"),
        ("thin/diametr=8 mm", "thin has no entry 'diametr'; did you mean 'diameter'?"),
        ("thin/diameter=8", "a number has no unit"),
        ("thin/core=9 mm", "thicker than the rod"),
        ("thin/like=huge reel", "no class of reel is called 'huge reel'"),
        ("thin", "expected PART/ENTRY=VALUE"),
        ("diameter=8 mm", "expected PART/ENTRY"),
    ],
)
def test_a_wrong_change_is_refused_and_nothing_written(own, capsys, about, says):
    assert run("edit", *about.split()) == 2
    assert says in " ".join(capsys.readouterr().err.split())
    assert own.read_text() == KIT


def test_edit_without_a_value_says_where_the_kit_stands(own, capsys):
    assert run("edit") == 0
    said = capsys.readouterr().out
    assert "kit.yaml" in said.replace("\n", "").replace(" ", "")
    assert "small head, soft, thin, thick" in said


def test_edit_without_a_kit_says_how_to_get_one(home, capsys):
    assert run("edit", "thin/core=4", "mm") == 2
    assert "advisor kit new" in capsys.readouterr().err
