"""A kit that is asked for part by part: as told, slips told at once, every answer taken back."""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from tests.cases.jobs import tables
from tests.terminal import test_kit_command as others
from tests.terminal.test_choose import typed
from tests.terminal.test_kit_command import KIT, run

home = others.home  # a fixture
own = others.own  # a fixture


ALL_UNKNOWN = "1" + "\r" + "1\r" + "\r\r" + "d" + "\rdn" + "\r\r\r\r" + "n" + "n" + "w"
TOLD = (
    "1" + "my van\r" + "1red reel\r" + "1 in\r" + "1-5/8 in\r" + "r" + "12 in\r" + "y" + "sn"
    + "100 ft\r" + "9/32 in\r" + "\r" + "5 in\r"
    + "y" + "2\r" + "50 mm\r" + "\r" + "f" + "\r" + "fn" + "60 m\r" + "\r\r\r" + "n"
    + "y" + "ring\r" + "45\r" + "45 mm\r" + "15 mm\r" + "yy" + "n" + "w"
)  # fmt: skip


@pytest.fixture
def at_a_terminal(monkeypatch):
    for module in ("kit_command", "kit_parts"):
        monkeypatch.setattr(f"advisor.terminal.{module}.need_terminal", lambda instead: None)


def test_a_first_kit_of_which_nothing_is_known(home, at_a_terminal, capsys):
    with typed(ALL_UNKNOWN):
        assert run("new") == 0
    text = (home / "kit.yaml").read_text()
    kit = kit_of(kit_of_text(text, "kit"), tables())
    assert len(kit.loadouts) == 1
    assert "# core: not told" in text
    assert any("usual" in each for each in kit.assumed)


def test_a_kit_as_told(home, at_a_terminal):
    with typed(TOLD):
        assert run("new") == 0
    text = (home / "kit.yaml").read_text()
    kit = kit_of(kit_of_text(text, "kit"), tables())
    assert kit.name == "my van"
    names = {each.name for each in kit.loadouts}
    assert "red reel head on red reel + ring" in names
    assert len(names) == 4
    small = next(each for each in kit.loadouts if each.rod.name == "red reel")
    assert small.head.diameter.likely == pytest.approx(0.0254)
    assert small.rod.minimum_radius.likely == pytest.approx(0.127)
    assert small.spring.firm is False
    assert small.spring.length.likely == pytest.approx(0.3048)


def test_a_guide_goes_only_on_the_reels_that_it_is_told_to_fit(home, at_a_terminal, capsys):
    """A ring made for the thick head does not clamp on the thin one: no plan may send it in there."""
    assert TOLD.count("15 mm\ryy") == 1
    with typed(TOLD.replace("15 mm\ryy", "15 mm\rny") + "\x04"):
        assert run("new") == 0
    kit = kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables())
    assert [(each.rod.name, each.guide is not None) for each in kit.loadouts] == [
        ("red reel", False), ("large reel", False), ("large reel", True),
    ]  # fmt: skip
    said = " ".join(capsys.readouterr().out.split())
    assert "Does ring go on red reel?" in said
    assert "Does ring go on large reel?" in said


BACK, BREAK = "b", "\x1b"  # where a key, and where a line is asked for


TWO_SPRINGS = (
    "1"
    + "\r"
    + "1red\r"
    + "\r\rd"
    + "12 in\rys"
    + "y"
    + "6 in\rf"
    + "\r"
    + "n"
    + "\r\r\r\r"
    + "n"
    + "n"
    + "w"
)


def test_a_rod_with_a_soft_and_a_firm_spring_is_carried_with_either(home, at_a_terminal, capsys):
    with typed(TWO_SPRINGS):
        assert run("new") == 0
    kit = kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables())
    assert [(e.rod.name, e.spring.name, e.spring.firm) for e in kit.loadouts] == [
        ("red", "red soft spring", False),
        ("red", "red firm spring", True),
    ]
    assert [e.spring.length.likely for e in kit.loadouts] == [
        pytest.approx(12 * 0.0254),
        pytest.approx(6 * 0.0254),
    ]
    # Each is told apart in what a plan says, and on the screen.
    assert [e.name for e in kit.loadouts] == [
        "red head on red, red soft spring",
        "red head on red, red firm spring",
    ]
    capsys.readouterr()
    assert run() == 0
    shown = [line.strip() for line in capsys.readouterr().out.splitlines()]
    assert "2. red head on red, red firm spring" in shown


def test_a_spring_told_by_a_slip_is_taken_back_with_its_questions(home, at_a_terminal):
    """Yes at `another spring`, two answers to it, and back over all of them to no."""
    keys = TWO_SPRINGS.replace("y6 in\rf\rn", "y6 in\rf" + BREAK + BACK + BREAK + "n", 1)
    assert keys != TWO_SPRINGS
    with typed(keys):
        assert run("new") == 0
    (only,) = kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables()).loadouts
    assert (only.spring.name, only.spring.firm) == ("red soft spring", False)


def test_as_many_springs_and_guides_as_a_kit_can_carry(home, at_a_terminal):
    """Six springs on one rod: no seventh is asked for, no other reel, and one guide makes twelve loadouts."""
    more = "".join("y" + "\rd" + "\r" for _ in range(5))
    keys = "1" + "\r" + "1\r" + "\r\rd" + "\rd" + more + "\r\r\r\r" + "y" + "\r\r\r" + "w"
    with typed(keys):
        assert run("new") == 0
    assert len(kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables()).loadouts) == 12


def test_every_answer_can_be_taken_back(home, at_a_terminal):
    """A slip in the name, in a size and at the very end; what was right stays."""
    keys = (
        "2" + BACK + "1" + "vna\r" + BACK + "my van\r"  # back at the next question
        + "2" + BREAK + "1" + "red reel\r" + "1-1/2 in\r" + BREAK + "1 in\r" + "\r" + "r" + "\r" + "sn"
        + "100 ft\r" + "9/32 in\r" + "\r\r" + "n" + "y" + BREAK + "n" + BACK + "n" + "w"
    )  # fmt: skip
    with typed(keys):
        assert run("new") == 0
    text = (home / "kit.yaml").read_text()
    kit = kit_of(kit_of_text(text, "kit"), tables())
    (only,) = kit.loadouts
    assert kit.name == "my van"
    assert "like: small reel" in text
    assert only.head.diameter.likely == pytest.approx(0.0254)


@pytest.mark.parametrize(
    ("wrong", "says"),
    [("400 mm", "has that size"), ("banana", "does not start with a number")],
)
def test_a_slip_is_told_at_once_and_leaves_an_empty_line(home, at_a_terminal, capsys, wrong, says):
    with typed("1\r1\r" + wrong + "\r" + "40 mm\r" + "\x03"):
        assert run("new") == 130
    said = " ".join(capsys.readouterr().out.split())
    assert says in said
    assert "how long is the stiff head" in said


@pytest.mark.parametrize(
    ("units", "shown"), [("1", "how thick is the rod, jacket and all? (in)"), ("2", "jacket and all? (mm)")]
)
def test_a_bare_number_is_taken_in_the_unit_that_is_asked_for_and_read_back(
    home, at_a_terminal, capsys, units, shown
):
    """1 and 5/8 of an inch, 200 ft of rod; 40 and 90 mm, 60 m of rod."""
    head, spring, rod = {"1": ("1-5/8", "5", "200"), "2": ("40", "90", "60")}[units]
    with typed(f"{units}\r1\r{head}\r\rd{spring}\rd\rn{rod}\r" + "\r\r\rnnw"):
        assert run("new") == 0
    (only,) = kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables()).loadouts
    told = (only.head.diameter.likely, only.spring.length.likely, only.rod.length.likely)
    by_hand = {"1": (1.625 * 0.0254, 5 * 0.0254, 200 * 0.3048), "2": (0.040, 0.090, 60.0)}[units]
    assert told == pytest.approx(by_hand)
    said = " ".join(capsys.readouterr().out.split())
    assert shown in said
    assert f"> {rod} {'ft' if units == '1' else 'm'} " in said


def test_a_size_far_from_the_usual_is_asked_about_once(home, at_a_terminal, capsys):
    """A spring of 3/4 in: those of a small reel are 70 to 120 mm long, so 2-3/4 to 4-3/4 in."""
    with typed("1\r1\r\r\rd" + "3/4\rn" + "3/4\ry" + "d\rn" + "\r\r\r\rnnw"):
        assert run("new") == 0
    assert "length: 3/4 in" in (home / "kit.yaml").read_text()
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("2-3/4 in to 4-3/4 in would be usual for it. Is 3/4 in right?") == 2


@pytest.mark.parametrize(("wide", "asked"), [("60 mm", 1), ("12 mm", 1), ("49 mm", 0), ("13 mm", 0)])
def test_a_head_that_is_not_of_the_class_that_was_chosen_is_asked_about_once(
    home, at_a_terminal, capsys, wide, asked
):
    """That class was chosen by a head about 25 mm across (kits.yaml): twice that is 50, half of it 12.5."""
    with typed("2\r1\r" + wide + "\r" + "y" * asked + "\x03"):
        assert run("new") == 130
    said = " ".join(capsys.readouterr().out.split())
    assert said.count(f"would be usual for it. Is {wide} right?") == asked
    assert "how long is the stiff head" in said


def test_a_thick_rod_with_a_small_head_is_asked_for_part_by_part(home, at_a_terminal, capsys):
    """Its spring is as those of a thick rod, 0.02 to 0.2 N m2 (kits.yaml), and not as of a thin one."""
    with typed("1\r" + "3mixed\r" + "1\r\rd" + "2\rd\rn" + "2\r\r\r\r" + "nnw"):
        assert run("new") == 0
    (only,) = kit_of(kit_of_text((home / "kit.yaml").read_text(), "kit"), tables()).loadouts
    classes = tables().kit_classes
    assert only.head.diameter == classes["small reel"].head.diameter
    assert only.spring.stiffness == classes["large reel"].spring.stiffness
    assert only.rod.diameter == classes["large reel"].rod.jacket_diameter
    said = " ".join(capsys.readouterr().out.split())
    assert "that of a thick rod: about 1 in across outside" in said  # 24 mm to the eighth


def test_a_core_thicker_than_its_rod_is_told_where_it_is_asked(home, at_a_terminal, capsys):
    keys = "1\r1\r\r\r" + "r" + "\r" + "sn" + "\r" + "11 mm\r" + "1 in\r" + "5 mm\r" + "\r" + "nnw"
    with typed(keys):
        assert run("new") == 0
    assert "thicker than the rod" in capsys.readouterr().out
    assert "core: 5 mm" in (home / "kit.yaml").read_text()


def test_a_kit_that_is_there_is_not_asked_for_again(own, at_a_terminal, capsys):
    assert run("new") == 2
    assert "there is a kit already" in capsys.readouterr().err
    assert own.read_text() == KIT


def test_leaving_or_breaking_off_writes_nothing(home, at_a_terminal):
    with typed(ALL_UNKNOWN[:-1] + "ly"):
        assert run("new") == 0
    with typed(ALL_UNKNOWN[:8] + "\x03"):
        assert run("new") == 130
    assert not (home / "kit.yaml").exists()


def test_one_key_does_not_throw_every_answer_away(home, at_a_terminal, capsys):
    with typed(ALL_UNKNOWN[:-1] + "ln" + "y"):
        assert run("new") == 0
    assert "answers would be lost" in capsys.readouterr().out
    assert (home / "kit.yaml").exists(), "yes writes it, as w does"


def test_without_a_terminal_it_says_where_to_write(home, capsys):
    assert run("new") == 2
    assert "needs a terminal" in capsys.readouterr().err
