"""One question on the screen: long lists turned through, several chosen, a line typed, why it is asked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from advisor.interview.answers import NONE, Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW
from advisor.quantity import Units
from advisor.site.history import still_to_come
from advisor.site.sheet import units_in
from advisor.terminal import ask_screen
from advisor.terminal.page import Page
from tests.interview.small_session import known
from tests.terminal.test_ask import SMALL_HOUSE, typed


def arms(count: int) -> str:
    """The small house with so many basins more, each on an arm of its own."""
    joins = "".join(
        f"      - {{joined by: arm {i}, fitting: wye}}\n      - pipe: 1 ft\n" for i in range(count)
    )
    lines = "".join(
        f"  - line: arm {i}\n    size: 2 in\n    pieces:\n      - {{fixture: basin, label: basin {i}}}\n"
        "      - pipe: 3 ft\n"
        for i in range(count)
    )
    text = SMALL_HOUSE.replace("      - joined by: vent\n", joins + "      - joined by: vent\n")
    return text.replace("task:\n", lines + "task:\n")


def test_more_places_than_one_screen_holds_are_turned_through_and_chosen_on_each(capsys):
    house = arms(6)  # with toilet and washing machine eight places
    session = Session(replace(known(), sheet=house))
    asked = session.ask((), "backs-up")
    names = [option.value for option in asked.options]
    assert len(names) == 8
    # Six on a screen: the first of each, and the second screen is followed by the first again.
    with typed("1" + "m" + "1" + "m" + "2" + "0"):
        said = ask_screen.put(asked, session, (), Page())
    assert said.values == (names[0], names[1], names[6])
    told = " ".join(capsys.readouterr().out.split())
    assert "m more of them" in told
    assert f"1 {names[0]}: not so after all" in told


def test_back_on_a_later_screen_of_a_list_goes_to_the_one_before_and_then_back():
    session = Session(replace(known(), sheet=arms(6)))
    asked = session.ask((), "backs-up")
    with typed("m" + "b" + "1" + "0"):
        assert ask_screen.put(asked, session, (), Page()).values == (asked.options[0].value,)
    with typed("m" + "b" + "b"):
        assert ask_screen.put(asked, session, (), Page()).back


def test_a_cover_that_is_built_over_is_asked_for_with_the_chamber():
    """A patio lies over it: it is there and nobody goes in. A plug indoors is asked for as before."""
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    asks = {a.subject.id: a.text for a in session.open(()) if a.question.id == "opening-there"}
    assert "Paved or built over: no." in asks["house drain/opening:yard pit"]
    assert "Paved" not in asks["house drain/opening:floor cleanout"]


def test_what_was_chosen_twice_is_not_chosen(capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    asked = session.ask((), "backs-up")
    with typed("1" + "1" + "0"):
        assert ask_screen.put(asked, session, (), Page()).values == (NONE,)
    assert "0 that is all" in " ".join(capsys.readouterr().out.split())


def test_a_length_far_from_the_usual_is_asked_about(capsys):
    """Over twice the most that is assumed there, or under half the least, may be a slip of the pen."""
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    length = next(each for each in session.open(()) if each.question.type_in == "length")
    usual = [piece.length for piece in length.subject.pieces]
    low, high = sum(each.low for each in usual), sum(each.high for each in usual)
    for right in (low / 1.9, (low + high) / 2, high * 1.9):
        assert length.unusual(f"{right:.4f} m") is None
    for far in (low / 2.1, high * 2.1):
        assert length.unusual(f"{far:.4f} m") == (low, high)
    with typed("t500 ft\rn" + "t500 ft\ry"):
        assert ask_screen.put(length, session, (), Page()).values == ("500 ft",)
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("would be usual there. Is 500 ft right?") == 2
    assert "> no" in said


def test_a_machine_run_longer_than_the_drain_is_asked_about(capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    asked = session.ask((), "machine-run")
    with typed("900 ft\rn" + "900 ft\ry"):
        assert ask_screen.put(asked, session, (), Page()).values == ("900 ft",)
    said = " ".join(capsys.readouterr().out.split())
    assert said.count("ft would be usual there. Is 900 ft right?") == 2
    assert " Up to " in said
    assert " 0 ft" not in said


def test_an_empty_line_and_escape_are_no_value():
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    length = next(each for each in session.open(()) if each.question.type_in == "length")
    with typed("t\r" + "d"):
        assert ask_screen.put(length, session, (), Page()).values == (DONT_KNOW,)
    with typed("t\r" + "t5 ft\r"):
        assert ask_screen.put(length, session, (), Page()).values == ("5 ft",)


@pytest.mark.parametrize(("units", "told"), [(Units.INCH, ("5 ft", "4 in")), (Units.METRIC, ("5 m", "4 mm"))])
def test_a_number_alone_is_feet_of_a_length_and_inches_of_a_size(units, told, capsys):
    """Metric likewise; 4 mm is refused then, and 100 taken."""
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True, units=units))
    asks = {each.question.type_in: each for each in session.open(())}
    with typed("t5\ry"):
        assert ask_screen.put(asks["length"], session, (), Page()).values == (told[0],)
    with typed("t4\r100\r"):
        assert ask_screen.put(asks["size"], session, (), Page()).values in ((told[1],), ("100 mm",))
    said = " ".join(capsys.readouterr().out.split())
    assert f"> {told[0]}" in said
    assert ("expected a nominal size" in said) == (units is Units.METRIC)


def test_why_tells_the_minutes_only_where_it_takes_any(capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    told = set()
    for each in (*session.open(()), session.next(())):
        with typed("wd"):
            ask_screen.put(each, session, (), Page())
        said = " ".join(capsys.readouterr().out.split())
        assert " ".join(each.question.why.split()) in said
        takes = each.question.minutes.likely >= 1  # as rules/questions has it
        assert ("Finding out takes about" in said) == takes
        told.add(takes)
    assert told == {True, False}


@pytest.mark.parametrize(
    ("region", "units", "own", "others"),
    [
        ("north america", None, "ft", " m"),
        ("britain", None, " m", "ft"),
        ("britain", Units.INCH, "ft", " m"),
    ],
)
def test_what_is_refused_is_told_with_an_example_in_the_units_of_the_job(region, units, own, others):
    sheet = SMALL_HOUSE.replace("region: north america", f"region: {region}")
    session = Session(replace(known(), sheet=sheet, ask_all=True, units=units))
    asks = {each.question.type_in: each for each in session.open(()) if each.question.type_in}
    for typed_ in ("far", "0 m", "12"):
        example = str(asks["length"].check(typed_)).rpartition("such as")[2]
        assert own in example, typed_
        assert others not in example, typed_
    size = str(asks["size"].check("9 m")).rpartition("such as")[2]
    assert ("mm" in size, "in" in size) == ((units or units_in(region)) is Units.METRIC, own == "ft")


def test_a_length_of_nothing_is_no_length(capsys):
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    length = next(each for each in session.open(()) if each.question.type_in == "length")
    assert "expected a length such as 12 ft" in str(length.check("0 ft"))
    assert length.check("1 in") is None


@pytest.mark.parametrize(
    ("keys", "value"),
    [("y", "yes"), ("1", "yes"), ("n", "no"), ("2", "no"), ("d", DONT_KNOW), ("?", DONT_KNOW)],
)
def test_yes_and_no_are_asked_as_everywhere(keys, value, capsys):
    """By letter as beside the opening, or by number as the other answers of the session."""
    session = Session(replace(known(), sheet=SMALL_HOUSE))
    for asked in (session.ask((), "gas-smell"), session.ask((), "holding")):
        with typed(keys):
            assert ask_screen.put(asked, session, (), Page()).values == (value,)
    said = " ".join(capsys.readouterr().out.split())
    assert "y yes n no d don't know" in said
    assert "y yes, it stands full n no, it drains away" in said


def test_every_question_of_the_rules_whose_answers_are_yes_and_no_has_these_keys():
    """None is left over to be asked by 1 and 2: the answers of each begin with the words themselves."""
    for question in known().questions.by_id.values():
        values = [choice.value for choice in question.offered("north america")]
        words = [choice.words.split(",")[0] for choice in question.offered("north america")]
        assert (values[:2] == ["yes", "no"]) == ({"yes", "no"} <= set(words)), question.id


def test_whoever_types_a_year_does_not_choose_by_its_first_digit(capsys):
    """1958 was taken for the first of the list, before 1920."""
    session = Session(known())
    asked = session.ask((Answer("region", "job", ("north america",)),), "built")
    with typed("1958\r"):
        assert ask_screen.put(asked, session, (), Page()).values == ("1958",)
    said = " ".join(capsys.readouterr().out.split())
    assert said.index("t type the year") < said.index("a before 1920"), "that it may be typed comes first"
    with typed("e"):
        assert ask_screen.put(asked, session, (), Page()).values == ("1952",)


@pytest.mark.parametrize("asked", ["built", "machine-when"])
def test_what_is_still_to_come_is_told_and_asked_again(asked, capsys):
    """Nothing was built or run after today; what was kept stays, whatever the clock says."""
    session = Session(known())
    question = session.ask((Answer("region", "job", ("north america",)),), "built")
    question = replace(question, question=session.known.questions.by_id[asked])
    with typed("2099\r2019\r"):
        assert ask_screen.put(question, session, (), Page()).values == ("2019",)
    told = capsys.readouterr().out
    assert told.count("2099 is still to come: by this computer it is 20") == 1
    assert question.check("2099") is None


@pytest.mark.parametrize(
    ("told", "ahead"),
    [("2026-05", False), ("2026", False), ("2026-05-03", False), ("2026-05-04", True), ("2026-06", True)],
)
def test_a_day_a_month_or_a_year_is_ahead_of_today_or_not(told, ahead):
    assert (still_to_come(told, date(2026, 5, 3)) is not None) is ahead


def test_no_list_beside_which_a_number_may_be_typed_has_numbers_for_keys():
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    asks = [each for each in session.open(()) if each.question.type_in and each.options]
    assert {each.question.id for each in asks} == {"pipe-size", "newer-branch"}
    for each in asks:
        keys = [choice.key for choice in ask_screen._choices(each, each.options, [], False)]
        assert not any(key.isdigit() for key in keys)
        assert keys[0] == "t"
        assert len(set(keys) | {"d", "b", "w", "s", "l"}) == len(keys) + 5, "no key stands for two things"


def test_a_digit_at_a_length_begins_the_number(capsys):
    """Whoever reads a tape types the number: `t` had to come first."""
    session = Session(replace(known(), sheet=SMALL_HOUSE, ask_all=True))
    length = next(each for each in session.open(()) if each.question.type_in == "length")
    with typed("12 ft\r"):
        assert ask_screen.put(length, session, (), Page()).values == ("12 ft",)
    with typed("0 ft\r12 ft\r"):  # refused, and nothing of it is left in the line
        assert ask_screen.put(length, session, (), Page()).values == ("12 ft",)
    assert "a digit begins it" in capsys.readouterr().out
