"""`advisor kit edit --add` and `--remove` at the terminal: asked, gone back over, left, refused, used."""

from __future__ import annotations

import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.terminal.kit_interview import Interview
from tests.cases.jobs import tables
from tests.terminal.test_choose import typed
from tests.terminal.test_kit_asked_for import BACK, BREAK, at_a_terminal
from tests.terminal.test_kit_command import KIT, home, own, run
from tests.terminal.test_kit_droop import readings

__all__ = ["at_a_terminal", "home", "own"]  # fixtures


def carried(path) -> list[tuple[str, str, str, str | None]]:
    kit = kit_of(kit_of_text(path.read_text(), "kit"), tables())
    return [(e.head.name, e.spring.name, e.rod.name, e.guide and e.guide.name) for e in kit.loadouts]


BOTH = [("small head", "soft", "thin", None), ("small head", "soft", "thick", None)]
FIRM = "firm\r" + "2" + "5 in\r" + "f"


def test_a_second_spring_for_one_of_two_rods(own, at_a_terminal, capsys):
    with typed(FIRM + "yn" + "w"):
        assert run("edit", "--add", "spring") == 0
    assert carried(own) == [*BOTH, ("small head", "firm", "thin", None)]
    text = own.read_text()
    assert "  - spring: firm\n    like: large reel\n    length: 5 in\n    feel: firm\n" in text
    assert [line for line in KIT.splitlines() if line not in text.splitlines()] == []
    said = capsys.readouterr().out
    assert "- spring: firm" in said.split("NEW ON THE KIT SHEET")[1]
    assert "small head, diameter" not in said, "only what is new is shown"


@pytest.mark.parametrize(("value", "unit"), [("30 mm", "(m)"), ("1-1/4 in", "(ft)")])
def test_the_units_are_those_of_its_values_whatever_it_is_called(own, at_a_terminal, capsys, value, unit):
    """A truck of twelve feet is no measure."""
    kit = "kit: 12 ft\nheads: [{head: 5 in eye, diameter: %s}]\nsprings: [{spring: s, like: small reel}]\n"
    own.write_text(kit % value + "rods: [{rod: r, like: small reel}]\n")
    with typed("new one\r1" + "\x03"):
        assert run("edit", "--add", "rod") == 130
    assert f"how much rod is on it? {unit}" in " ".join(capsys.readouterr().out.split())


def test_every_answer_can_be_taken_back(own, at_a_terminal):
    """A slip in the name, the class, the length and the rod, and at the end itself."""
    keys = (
        "frim\r" + BACK + "firm\r" + "1" + BREAK + "2" + "9 in\r" + BACK + "5 in\r" + "f" + "n" + BACK + "y"
        + "y" + BACK + "n" + "w"
    )  # fmt: skip
    with typed(keys):
        assert run("edit", "--add", "spring") == 0
    assert carried(own) == [*BOTH, ("small head", "firm", "thin", None)]
    assert "length: 5 in" in own.read_text()
    assert "like: large reel" in own.read_text()


@pytest.mark.parametrize(("end", "code"), [("ly", 0), ("\x03", 130), ("\x04", 130)])
def test_left_or_broken_off_nothing_is_written(own, at_a_terminal, end, code):
    with typed(FIRM + "yn" + end):
        assert run("edit", "--add", "spring") == code
    with typed("n"):
        assert run("edit", "--remove", "thick") == 0
    assert own.read_text() == KIT


def test_a_head_a_guide_and_a_rod(own, at_a_terminal, capsys):
    with typed("big head\r" + "2" + "2 in\r" + "\r" + "f" + "ny" + "w"):
        assert run("edit", "--add", "head") == 0
    big = ("big head", "soft", "thick", None)
    assert carried(own) == [*BOTH, big]
    with typed("ring\r" + "45 mm\r" + "15 mm\r" + "yn" + "w"):
        assert run("edit", "--add", "guide") == 0
    ring = ("small head", "soft", "thin", "ring")
    assert carried(own) == [*BOTH, big, ring]
    with typed("long\r" + "2" + "100 m\r" + "\r\r\r" + "2" + "1" + "y" + "w"):  # the second head
        assert run("edit", "--add", "rod") == 0
    assert carried(own)[4:] == [("big head", "soft", "long", None), ("big head", "soft", "long", "ring")]
    assert "advisor kit droop" in capsys.readouterr().out


def test_a_guide_that_does_not_fit_is_not_put_on_a_new_rod_or_head(own, at_a_terminal, capsys):
    """A ring of 45 mm clamps on no head of 2 in: it is asked, not taken."""
    with typed("ring\r" + "45 mm\r" + "15 mm\r" + "yy" + "w"):
        assert run("edit", "--add", "guide") == 0
    before = carried(own)
    with typed("big head\r" + "2" + "2 in\r" + "\r" + "f" + "ny" + "n" + "w\x04"):
        assert run("edit", "--add", "head") == 0
    assert carried(own) == [*before, ("big head", "soft", "thick", None)]
    with typed("long\r" + "2" + "100 m\r" + "\r\r\r" + "2" + "1" + "n" + "w\x04"):
        assert run("edit", "--add", "rod") == 0
    assert carried(own)[-1] == ("big head", "soft", "long", None)
    said = " ".join(capsys.readouterr().out.split())
    assert "Does ring go on big head?" in said
    assert "Does ring go on long?" in said
    assert "Without a guide" not in said


def test_what_goes_on_no_rod_is_said_to_be_in_no_plan(own, at_a_terminal, capsys):
    with typed(FIRM + "nn" + "w"):
        assert run("edit", "--add", "spring") == 0
    assert carried(own) == BOTH
    assert "so no plan has it: firm" in " ".join(capsys.readouterr().out.split())
    assert run() == 0
    assert "carried with nothing: firm" in " ".join(capsys.readouterr().out.split())


def test_a_name_that_is_taken_and_a_wrong_size_are_told_at_once(own, at_a_terminal, capsys):
    with typed("soft\r" + "firm\r" + "2" + "banana\r" + "5 in\r" + "f" + "yy" + "w"):
        assert run("edit", "--add", "spring") == 0
    said = capsys.readouterr().out
    assert "there is a 'soft' already" in said
    assert "does not start with a number" in said


FULL = KIT.replace("  - rod: thick\n    diameter: 11 mm\n", "")


@pytest.mark.parametrize("kind", ["head", "spring", "rod", "guide"])
def test_a_kit_without_room_is_told_before_the_first_question(own, at_a_terminal, capsys, kind):
    """One head on one spring on twelve rods."""
    own.write_text(FULL + "".join(f"  - rod: r{i}\n" for i in range(11)))
    with typed("\x04"):
        assert run("edit", "--add", kind) == 2
    told = capsys.readouterr()
    assert "12 loadouts are carried, so there is no room" in told.err
    assert "What do you call" not in told.out


def test_a_rod_for_which_there_is_no_room_any_more_can_only_be_passed_over(own, at_a_terminal, capsys):
    """Eleven rods: the new spring is the twelfth loadout on the first; on the second yes is refused."""
    full = FULL + "".join(f"  - rod: r{i}\n" for i in range(10))
    own.write_text(full)
    with typed(FIRM + "y" + "y" * 9 + "n" * 10 + "w\x04"):
        assert run("edit", "--add", "spring") == 0
    assert "There is no room: 12 loadouts at most." in " ".join(capsys.readouterr().out.split())
    assert carried(own)[11:] == [("small head", "firm", "thin", None)]


def test_a_rod_with_a_head_and_a_spring_that_are_new_too(own, at_a_terminal, capsys):
    """The spring's name is taken back once, and what was said of the rod and the head stays."""
    rod, head = "long\r2" + "100 m\r\r\r\r", "n" + "\r" + "2" + "2 in\r\rf"
    with typed(rod + head + "n" + "sfot\r" + BACK + "firm\r" + "2" + "5 in\rf" + "w"):
        assert run("edit", "--add", "rod") == 0
    assert carried(own) == [*BOTH, ("long head", "firm", "long", None)]
    text = own.read_text()
    for row in (
        "  - head: long head\n    like: large reel\n    diameter: 2 in\n    nose: flat\n",
        "  - spring: firm\n    like: large reel\n    length: 5 in\n    feel: firm\n",
        "  - rod: long\n    like: large reel\n    length: 100 m\n",
    ):
        assert row in text
    assert [line for line in KIT.splitlines() if line not in text.splitlines()] == []
    new = capsys.readouterr().out.split("NEW ON THE KIT SHEET")[1]
    assert all(f"- {row}" in new for row in ("head: long head", "spring: firm", "rod: long"))


def test_what_goes_on_a_new_rod_can_be_taken_back_from_new_to_old(own, at_a_terminal):
    with typed("long\r2" + "\r\r\r\r" + "1" + "n" + BREAK + "1" + "w"):
        assert run("edit", "--add", "rod") == 0
    assert carried(own) == [*BOTH, ("small head", "soft", "long", None)]


def test_every_one_of_twenty_five_springs_can_be_had(own, at_a_terminal):
    """Nine on a page: the twenty-fifth is the seventh of the third."""
    many = "".join(f"  - spring: s{i}\n" for i in range(2, 26))
    ready = "loadouts:\n  - {head: small head, spring: soft, rod: thin}\n"
    own.write_text(KIT.replace("rods:\n", many + "rods:\n") + ready)
    with typed("long\r2" + "\r\r\r\r" + "1" + "mm" + "7" + "w\x04"):
        assert run("edit", "--add", "rod") == 0
    assert carried(own)[-1] == ("small head", "s25", "long", None)


@pytest.mark.parametrize(("kind", "line"), [("spring", 4), ("rod", 7), ("head", 2)])
def test_a_layout_that_nothing_fits_into_is_told_before_the_first_question(
    own, at_a_terminal, capsys, kind, line
):
    """Lists between brackets over several lines."""
    text = "kit: van\nheads: [\n  {head: h}]\nsprings: [\n  {spring: s}\n]\nrods: [\n  {rod: r}]\n"
    own.write_text(text)
    with typed("\x04"):
        assert run("edit", "--add", kind) == 2
    told = capsys.readouterr()
    assert f"kit.yaml:{line}: it is laid out in a way of its own" in told.err
    assert f"`  - {kind}: NAME`" in told.err
    assert "What do you call" not in told.out
    assert own.read_text() == text


def test_a_new_spring_that_the_sheet_has_no_place_for_is_not_offered_and_that_is_said(
    own, at_a_terminal, capsys
):
    own.write_text(
        KIT.replace(
            "springs:\n  - spring: soft\n    feel: soft   # by hand\n", "springs: [\n  {spring: soft}]\n"
        )
    )
    with typed("long\r2" + "\r\r\r\r" + "1" + "w\x04"):
        assert run("edit", "--add", "rod") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "No new spring can be asked for with it" in said
    assert "a new spring" not in said
    assert carried(own)[-1] == ("small head", "soft", "long", None)


def test_a_sheet_from_a_machine_with_other_line_ends_keeps_them(own, at_a_terminal):
    own.write_bytes(KIT.replace("\n", "\r\n").encode())
    with typed(FIRM + "yn" + "w"):
        assert run("edit", "--add", "spring") == 0
    data = own.read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n") > KIT.count("\n")
    assert run("edit", "thin/core=3.7 mm") == 0
    assert run("edit", "thin/diameter=8 mm") == 0
    with typed("y"):
        assert run("edit", "--remove", "firm") == 0
    data = own.read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n")


def test_a_part_is_taken_out_once_that_is_meant(own, at_a_terminal, capsys):
    with typed("y"):
        assert run("edit", "--remove", "thick") == 0
    assert own.read_text() == KIT.replace("  - rod: thick\n    diameter: 11 mm\n", "")
    assert "- rod: thick" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--remove", "thck"), "did you mean 'thick'?"),
        (("--remove", "soft"), "without soft nothing is left to carry"),
        (("--remove", "thick", "--add", "rod"), "one change at a time"),
        (("thin/core=3 mm", "--add", "rod"), "one change at a time"),
        (("--add", "wheel"), "invalid choice: 'wheel'"),
    ],
)
def test_what_cannot_be_meant_is_refused_and_nothing_written(own, at_a_terminal, capsys, words, says):
    assert run("edit", *words) == 2
    assert says in " ".join(capsys.readouterr().err.split())
    assert own.read_text() == KIT


@pytest.mark.parametrize("words", [("--add", "spring"), ("--remove", "thick")])
def test_without_a_terminal_or_without_a_sheet_one_line_says_what_to_do(home, capsys, words):
    assert run("edit", *words) == 2
    assert "advisor kit new" in capsys.readouterr().err
    home.mkdir()
    (home / "kit.yaml").write_text(KIT)
    assert run("edit", *words) == 2
    assert "needs a terminal" in capsys.readouterr().err


def test_a_sheet_changed_meanwhile_by_hand_is_not_written_over(own, at_a_terminal, monkeypatch, capsys):
    """The questions take minutes; what was saved from an editor in between stays."""
    asked = Interview.settled
    mended = KIT.replace("7 mm", "7.5 mm")

    def slow(self, *given):
        own.write_text(mended)
        return asked(self, *given)

    monkeypatch.setattr(Interview, "settled", slow)
    with typed(FIRM + "yn" + "w"):
        assert run("edit", "--add", "spring") == 2
    assert "changed meanwhile" in capsys.readouterr().err
    assert own.read_text() == mended


def test_after_more_springs_and_rods_the_droop_test_asks_for_each_rod_once(own, at_a_terminal, capsys):
    with typed(FIRM + "yy" + "w"):
        assert run("edit", "--add", "spring") == 0
    with typed("long\r" + "2" + "\r\r\r\r" + "1" + "1" + "w"):
        assert run("edit", "--add", "rod") == 0
    capsys.readouterr()
    length, down, up = readings()[1::2]
    with typed(f"3y{length}\r{down}\r{up}\r71 g/m\ry"):
        assert run("droop") == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Which rod? 1 thin 2 thick 3 long >" in said
    assert "rods/long/stiffness: 0.3" in said
    rod = next(
        e for e in kit_of(kit_of_text(own.read_text(), "kit"), tables()).loadouts if e.rod.name == "long"
    ).rod
    assert rod.stiffness.low < 0.4 < rod.stiffness.high


def test_the_eleventh_rod_can_be_measured_too(own, at_a_terminal, capsys):
    own.write_text(FULL + "".join(f"  - rod: r{i}\n" for i in range(2, 12)))
    length, down, up = readings()[1::2]
    with typed(f"m2y{length}\r{down}\r{up}\r71 g/m\ry\x04"):  # thin and r2 to r9 are a page
        assert run("droop") == 0
    assert "rods/r11/stiffness" in " ".join(capsys.readouterr().out.split())
