"""The droop test at the terminal and from options: what is read, what is told of a slip, what is kept."""

from __future__ import annotations

import re

import pytest

from advisor.cli import main
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from tests.cases.jobs import tables
from tests.outside.test_droop_inverse import hung, overhang
from tests.terminal import test_kit_asked_for as others
from tests.terminal.test_choose import typed
from tests.terminal.test_kit_asked_for import BREAK
from tests.terminal.test_kit_command import KIT, run

at_a_terminal = others.at_a_terminal  # a fixture
home = others.home  # a fixture
own = others.own  # a fixture


def readings(ei=0.4, w=0.7, radius=4.0):
    length = overhang(ei, w, 5.0)
    down, up = (hung(length, ei, w, sign / radius) for sign in (1, -1))
    return [
        "--length",
        f"{length:.3f} m",
        "--droop",
        f"{down * 100:.1f} cm",
        "--droop-rolled",
        f"{up * 100:.1f} cm",
    ]


def test_the_droop_test_from_options_and_its_stiffness_kept(own, capsys):
    grams = 0.7 / 9.80665 * 1000 * 5  # of 5 m
    assert run("droop", "--rod", "thin", *readings(), "--weight", f"{grams:.0f} g per 5 m", "--save") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Stiffness 0.4 N m²" in said or "Stiffness 0.39" in said or "Stiffness 0.40" in said
    assert "radius 4" in said or "radius 3.9" in said
    kit = kit_of(kit_of_text(own.read_text(), "kit"), tables())
    rod = next(each.rod for each in kit.loadouts if each.rod.name == "thin")
    assert rod.stiffness.low < 0.4 < rod.stiffness.high
    assert rod.weight.low < 0.7 < rod.weight.high
    assert "# core: seen?" in own.read_text()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--length", "1 m"], "a reading is missing"),
        (["--length", "1", "--droop", "2 cm", "--droop-rolled", "x"], "a number has no unit"),
        (["--length", "1 m", "--droop", "2 m", "--droop-rolled", "1 m"], "cannot fall further"),
        (["--length", "99 m", "--droop", "2 m", "--droop-rolled", "1 m"], "0.2 m to 10 m"),
        (
            ["--length", "1 m", "--droop", "30 cm", "--droop-rolled", "20 cm", "--weight", "0 g/m"],
            "more than nothing",
        ),
        (
            ["--length", "1 m", "--droop", "30 cm", "--droop-rolled", "20 cm", "--weight", "9 g per 0 m"],
            "more than",
        ),
    ],
)
def test_readings_that_are_none(own, capsys, words, says):
    assert run("droop", "--rod", "thin", *words) == 2
    assert says in " ".join(capsys.readouterr().err.split())
    assert own.read_text() == KIT


def test_which_rod_must_be_said_and_known(own, capsys):
    assert run("droop", *readings()) == 2
    assert "expected one of: thin, thick" in capsys.readouterr().err
    assert run("droop", "--rod", "thn", *readings()) == 2
    assert "did you mean 'thin'?" in capsys.readouterr().err


def test_the_droop_test_asked_for(own, at_a_terminal, capsys):
    length, down, up = readings()[1::2]
    with typed(f"1y{length}\r{down}\r{up}\r71 g/m\ry"):
        assert run("droop") == 0
    assert "stiffness: 0.3" in own.read_text()


def test_in_the_droop_test_a_step_back_leaves_the_other_readings(own, at_a_terminal):
    length, down, up = readings()[1::2]
    with typed(f"1y{length}\r9 m\r0.1 m\r{BREAK}{down}\r{up}\r{BREAK}{up}\r71 g/m\ry"):
        assert run("droop") == 0
    assert "stiffness: 0.3" in own.read_text()


def test_a_second_fall_lower_than_the_first_is_told_where_it_is_typed(own, at_a_terminal, capsys):
    """A slip in the first: 44 for 440. Esc goes back to it, and what was told after it stays."""
    length, down, up = readings()[1::2]
    with typed(f"1y{length}\r1 cm\r1 cm\r{up}\r{BREAK}{down}\r{up}\r71 g/m\ry"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"{up} here, 1 cm at first: the first fall is with the curl down" in said
    assert "stiffness: 0.3" in own.read_text()


def test_a_fall_that_is_hardly_one_is_asked_about_once(own, at_a_terminal, capsys):
    """5,4 mm for 540: told where it is typed. The other is taken without a word."""
    length, down, up = readings()[1::2]
    with typed(f"1y{length}\r5,4 mm\r{down}\r{up}\r71 g/m\ry\x04"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("is hardly a fall: this rod,") == 1
    assert said.index("is hardly a fall") < said.index("And rolled half round?")
    assert "stiffness: 0.3" in own.read_text()


def test_a_length_or_a_fall_that_no_table_has_is_asked_about_once(own, at_a_terminal, capsys):
    """19.5 ft for inches: ten times as stiff the end would lie on the floor. By the trade a table is some 30
    in high and a bench a little more than 36. What was hung from higher up is taken when told again."""
    length, down, up = readings()[1::2]
    with typed(f"1y19.5 ft\r{length}\r{down}\r{up}\r71 g/m\ry\x04"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("would lie on the floor. A slip?") == 1
    assert said.index("19.5 ft hung out") < said.index("How far below the table's top")
    with typed("1y2 m\r1.2 m\r1.2 m\r1.1 m\r1.1 m\r71 g/m\rn\x04"):
        run("droop")
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("2 m hung out") == 0, "a stiff rod may need as much"
    assert [said.count(f"{each} m is further down than a table is high") for each in (1.2, 1.1)] == [1, 1]


def test_a_slip_seen_at_the_end_costs_that_reading_alone(own, at_a_terminal, capsys):
    """From `Keep this stiffness?` back to each; an empty line keeps what was told of it."""
    length, down, up = readings()[1::2]
    with typed(f"1y9.9 m\r9.9 m\r{down}\r{up}\r71 g/m\rb{BREAK}{BREAK}{BREAK}{length}\r\r\r\ry"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"Empty: as told, {down}. Esc" in said
    assert "Empty: as told, 71 g/m; d: don't know. Esc" in said
    assert "stiffness: 0.3" in own.read_text()


def test_readings_that_tell_nothing_are_not_lost_where_they_are_asked(own, at_a_terminal, capsys):
    length, down, up = readings()[1::2]
    with typed(f"1y{length}\r3 mm\r3 mm\r2 mm\r71 g/m\r{BREAK}{BREAK}{down}\r{up}\r\ry"):
        assert run("droop") == 0
    assert "That cannot be:" in capsys.readouterr().out
    assert "stiffness: 0.3" in own.read_text()


def test_no_reading_no_word(own, at_a_terminal, capsys, monkeypatch):
    monkeypatch.setattr("advisor.terminal.droop_ask.type_in", lambda *_, **__: None)  # Esc at the first
    with typed("1y"):
        assert run("droop") == 0
    assert "nothing can be said" in capsys.readouterr().out
    assert own.read_text() == KIT


def test_that_the_rod_must_be_bare_is_said_before_anything_is_measured(own, at_a_terminal, capsys):
    with typed("1n"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert said.index("take head and spring off first") < said.index("Are head and spring off?")
    assert "How much hangs" not in said
    assert "Hang a spare piece of the same rod instead" in said
    assert "advisor kit edit 'rods/thin/core=...'" in said
    assert own.read_text() == KIT


def test_the_smallest_bend_is_one_number_in_the_test_and_in_the_kit(own, capsys):
    """Nobody told the core: it is the one that is so stiff, and no longer any of its class."""
    grams = 0.7 / 9.80665 * 1000 * 5  # of 5 m
    assert run("droop", "--rod", "thin", *readings(), "--weight", f"{grams:.0f} g per 5 m", "--save") == 0
    said = " ".join(capsys.readouterr().out.split())
    bend = said.split("Smallest bend, by this core: radius ")[1].split(".")[0]
    assert run("--units", "metric") == 0
    shown = " ".join(capsys.readouterr().out.split()).split("RODS")[1]
    assert f"smallest bend {bend} *" in shown.split("thick")[0]
    assert "(as its stiffness says)" in shown.split("thick")[0]
    # d of E pi d^4/64 = 0.4 with E 38 GPa is 3.84 mm, and d/2/0.012 is 160 mm: within what both may be off.
    low, high = (float(end.removesuffix(" mm")) for end in bend.split(" to "))
    assert low < 160 < high


def test_a_fall_longer_than_what_hangs_is_told_where_it_is_typed(own, at_a_terminal, capsys):
    length, down, up = readings()[1::2]
    with typed(f"1y62\r{length}\r20 ft\r{down}\r{up}\r71 g/m\rn"):
        assert run("droop", "--units", "inch") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "must be what hangs free" in said, "62 is feet, and no inches"
    assert "the end cannot fall further than the length that hangs" in said
    assert "Stiffness " in said


GUIDES = """\
guides:
  - {guide: ball skid, diameter: 1-3/4 in}
  - {guide: wide ring, diameter: 3 in}
loadouts:
  - {head: small head, spring: soft, rod: thin, guide: ball skid}
  - {head: small head, spring: soft, rod: thick, guide: ball skid}
  - {head: small head, spring: soft, rod: thin, guide: wide ring}
"""


def test_a_guide_no_wider_than_its_head_is_told_wherever_a_kit_is(own, capsys):
    """By measure: 1-3/4 in is 44 mm, so it stands out beyond a head of 25 mm and not beyond one of 2 in."""
    own.write_text(KIT + GUIDES)
    assert run() == 0
    assert "guides nothing" not in capsys.readouterr().out
    assert run("edit", "heads/small head/diameter=2 in") == 0
    assert "ball skid is no wider than small head, so it guides nothing there" in capsys.readouterr().out
    assert run() == 0
    assert capsys.readouterr().out.count("guides nothing") == 1
    with pytest.raises(SystemExit) as done:
        main(["check", str(own)])
    said = capsys.readouterr().out
    assert done.value.code == 0
    assert "ball skid is no wider" in said
    assert "wide ring" not in said


def test_the_droop_test_and_the_kit_tell_one_stiffness(own, capsys):
    """The readings of a technician whose test said 148 and whose kit then said 147."""
    readings = ["--length", "4 ft 4 in", "--droop", "21 in", "--droop-rolled", "17 in"]
    given = [*readings, "--weight", "4.5 lb per 100 ft", "--rod", "thin", "--save", "--units", "inch"]
    assert run("droop", *given) == 0
    told = re.search(r"between (\S+ lb in²) and (\S+ lb in²)", capsys.readouterr().out)
    assert run("--units", "inch") == 0
    assert f"stiffness {told[1]} to {told[2]}" in " ".join(capsys.readouterr().out.split())
