"""The way home belongs to the push, and what was told late must fit what was told beside it.

From a trial: a rim that held the head on the way in was not named on the way home; the head held
on the way home could no longer be told, for the push was over; a late reading of nothing stood between 7.6 m
and 7 m; a head that stayed in the pipe was "not told" in the report.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as session
from advisor.push.now.now import Now
from advisor.terminal.page import Page
from advisor.terminal.push.home import show_coming_home
from tests.push.test_report import START, report, section
from tests.push.test_stop_ahead import back, drawn, read, stopped
from tests.terminal.test_push_session import BEGIN, FOOT, told

job, push = session.job, session.push  # fixtures


def home(now, capsys) -> str:
    show_coming_home(now, Page())
    return " ".join(capsys.readouterr().out.split())


def test_what_held_the_head_on_the_way_in_is_named_on_the_way_home(capsys):
    rim = {"sign": "rim ahead"}
    said = home(drawn(stopped(33, rim), read(38)), capsys)
    assert "At 10.1 m it was held on the way in (a rim or step before the lens): slowly there" in said
    assert "it was held on the way in" not in home(drawn(stopped(33, rim), back(28)), capsys)


@pytest.mark.parametrize("drawn_back", [False, True])
def test_what_held_an_earlier_push_is_not_told_as_of_this_one(drawn_back, capsys):
    """From a trial: a push that nothing held was told where it was held on the way in."""
    told = (read(38), stopped(33, {})) if drawn_back else (stopped(33, {"sign": "rim ahead"}), read(38))
    earlier = drawn(*told)
    said = home(Now(earlier.push, drawn(read(38)).entries, (earlier,)), capsys)
    assert "At 10.1 m an earlier push was held" in said
    assert "it was held" not in said


def test_a_place_with_roots_is_told_once_and_the_deeper_place_first(capsys):
    roots = {"sign": "blocked, roots", "feel": "soft"}
    said = home(drawn(stopped(33, roots), stopped(36, {"sign": "rim ahead"}), read(39)), capsys)
    assert said.count("At 10.1 m") == 1
    assert said.index("At 11 m it was held") < said.index("At 10.1 m it comes back through the roots")


def test_a_string_is_let_go_before_the_rod_is_drawn(capsys):
    """Rule of the trade: one that is fast at head and hand is drawn tight round the turn. Through roots it
    may hang: then it is drawn only if it runs free."""
    string = ("try", 33 * FOOT, {"technique": "string", "outcome": "passed", "outside": True})
    said = home(drawn(stopped(33, {"sign": "wall ahead"}), string, read(36)), capsys)
    assert said.index("Let the string go") < said.index("Draw the rod back by hand")
    rooted = home(drawn(stopped(33, {"sign": "blocked, roots"}), string, read(36)), capsys)
    assert rooted.index("draw it out only if it runs free") < rooted.index("Draw the rod back by hand")


def test_held_on_the_way_home_it_is_told_as_any_stop_and_the_push_goes_on(job, push):
    said = push(BEGIN + "r17\rn" + "en\rs" + "9\r" + "10" + "0" + "m" + "q")
    assert "COMING HOME" in said
    assert "The push is ended" not in said
    kinds = told(job)
    assert kinds[-2][0] == "stopped" if kinds[-1][0] == "offered" else kinds[-1][0] == "stopped"
    assert ("stopped", pytest.approx(9 * FOOT)) in [(kind, at) for kind, at in kinds]
    assert "The push is ended" in push("men\ry")


def test_back_from_the_last_question_nothing_is_ended(job, push):
    push(BEGIN + "r17\rn" + "en\rb" + "q")
    assert "end" not in [kind for kind, _ in told(job)]


@pytest.mark.parametrize(("out", "stays"), [("y", False), ("n", True)])
def test_what_stays_in_the_pipe_is_warned_of_and_logged(job, push, out, stays):
    said = push(BEGIN + "r17\rn" + "en\r" + out + ("\r" if stays else ""))
    said = " ".join(said.replace("┃", " ").split())
    assert ("Tell the owner before you leave" in said) is stays
    assert told(job)[-1][0] == "end"


@pytest.mark.parametrize(("typed", "feet"), [("\r", 17), ("15\r", 15)])
def test_it_is_asked_where_it_stays(job, push, typed, feet):
    said = push(BEGIN + "r17\rn" + "en\rn" + typed)
    assert "Counter where it stays? Empty: as before, 17 ft" in " ".join(said.split())
    assert told(job)[-1] == ("end", pytest.approx(feet * FOOT))


def test_back_from_where_it_stays_nothing_is_ended(job, push):
    push(BEGIN + "r17\rn" + "en\rn\x1b" + "q")
    assert "end" not in [kind for kind, _ in told(job)]


NEITHER = ("stopped", 3.2, {"feel": "will not come back"})


@pytest.mark.parametrize(
    ("entries", "still_in"),
    [
        ((START, NEITHER), True),
        ((START, NEITHER, ("end", 3.2, {"reached": False})), True),
        ((START, NEITHER, ("end", 3.2, {"reached": False, "out": True})), False),
        ((START, NEITHER, ("pulled back", 2.0, {})), False),
        ((START, NEITHER, START), False),
        ((START, ("stopped", 3.2, {"feel": "soft"}), ("end", 3.2, {"reached": False, "out": False})), True),
        ((START, ("stopped", 3.2, {"feel": "soft"})), False),
    ],
)
def test_a_head_that_is_still_in_the_pipe_is_the_first_thing_in_the_report(entries, still_in):
    first = section(report(*entries), "In short")
    assert ("The head is still in the pipe" in first) is still_in
    if still_in:
        assert "3.2 m" in first.partition(" by what was told last")[0]
        assert "The owner must be told" in first


def test_a_push_that_is_open_is_told_as_not_ended():
    assert "not ended in the log" in section(report(START, NEITHER), "Pushes")


def test_a_late_reading_that_cannot_be_is_asked_about(job, push):
    """Between 17 ft and 12 ft, by hand: nothing is no reading of then, 15 is."""
    said = push(BEGIN + "r17\rn" + "p12\r" + "l2" + "0\rn" + "15\re" + "q")
    assert "The counter was between 12 ft and 17 ft then. Is it 0 ft all the same? y yes, it is 0 ft" in said
    assert [at / FOOT for kind, at in told(job) if kind == "sighting"] == pytest.approx([17, 15])
    said = push("l3" + "14\re" + "q")
    assert "all the same" not in said


@pytest.mark.parametrize(
    ("keys", "asked", "read"),
    [
        ("r2\rn" + "16\re", True, [17, 16]),  # a digit was left out
        ("r2\ry" + "e", True, [17, 2]),  # drawn back, and told as no more than a reading
        ("r9\re", False, [17, 9]),
    ],
)
def test_a_reading_far_behind_the_last_is_asked_about(job, push, keys, asked, read):
    """8 ft back is 2.4 m, 15 ft 4.6 m."""
    said = push(BEGIN + "r17\rn" + keys + "q")
    assert ("2 ft is far behind 17 ft, told last" in said) is asked
    assert [at / FOOT for kind, at in told(job) if kind == "sighting"] == pytest.approx(read)


@pytest.mark.parametrize(
    ("keys", "asked", "read"),
    [
        ("r90\rn" + "29\re", True, [17, 29]),  # a digit slipped
        ("r90\ry" + "e", True, [17, 90]),
        ("r60\re", False, [17, 60]),
    ],
)
def test_so_is_one_far_ahead_of_it(job, push, keys, asked, read):
    """From 6 m to 39 m it was taken silently. 43 ft on are 13 m, 73 ft 22 m."""
    said = push(BEGIN + "r17\rn" + keys + "q")
    assert ("90 ft is far ahead of 17 ft, told last" in said) is asked
    assert [at / FOOT for kind, at in told(job) if kind == "sighting"] == pytest.approx(read)


def test_a_late_entry_may_come_before_any_of_them(job, push):
    """Seven told: the last five first, then the two before them."""
    steps = "".join(f"r{at}\rn" for at in (2, 4, 6, 8, 10, 12, 14))
    push(BEGIN + steps + "lm2" + "3\re" + "q")
    assert [at / FOOT for kind, at in told(job) if kind == "sighting"][:3] == pytest.approx([2, 3, 4])
