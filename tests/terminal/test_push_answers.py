"""Each answer beside the opening reaches the log as it was meant, and what bears on the next push is told."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from advisor.job.folder import Job
from advisor.push.log.log import Entry, Log
from advisor.push.report.log_words import told_words
from advisor.quantity import Units
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from tests.cases.jobs import tables
from tests.push.sites import CHAIN
from tests.terminal.test_choose import typed
from tests.terminal.test_push_session import BEGIN, ESC, FOOT, told

job, push = sitting.job, sitting.push  # fixtures
HELD = "s\r10" + "10"  # held at a wall, the rod springs back; then its menu


def standing(job: Job) -> list[Entry]:
    log = Log.read(job.log)
    try:
        return list(log.standing())
    finally:
        log.close()


@pytest.mark.parametrize(
    ("keys", "what"),
    [
        ("c3", {"what": "bore", "size": pytest.approx(3 * 0.0254)}),
        ("cd", {"what": "bore"}),
        ("md", {"what": "material"}),
        ("o", {"what": "two mouths"}),
        ("a", {"what": "end"}),
        ("td3", {"what": "tie-in", "size": pytest.approx(3 * 0.0254)}),
    ],
)
def test_what_is_seen_is_kept_with_what_was_known_of_it(job, push, keys, what):
    """What nobody knows is left out: no size and no hour is made up for it."""
    push(BEGIN + "r9\r" + keys + "q")
    last = standing(job)[-1]
    assert (last.kind, last.data) == ("sighting", what)


def test_a_find_all_round_the_pipe_has_no_hour_and_says_so(job, push):
    push(BEGIN + "r9\rn" + "ffroots\r\r1a" + "q")
    find = standing(job)[-1]
    assert (find.kind, find.data["note"]) == ("find", "all round the pipe")
    assert "clock" not in find.data


def test_a_mark_asks_for_the_depth_of_the_pipe_below_the_ground(job, push):
    said = push(BEGIN + "r9\rn" + "fmflag 1\r3\r" + "q")
    assert "Depth of the pipe below the ground here" in said
    assert standing(job)[-1].data["depth"] == pytest.approx(3 * FOOT)


def test_a_depth_that_no_drain_has_is_read_back_and_asked_again(job, push):
    """60 inches typed where feet are taken: the drain would lie 60 ft down."""
    said = push(BEGIN + "r9\rn" + "fmflag 1\r60\rn60 in\r" + "q")
    assert "60 ft deep" in said
    assert "Is it 60 ft all the same? y yes, it is 60 ft" in said
    assert standing(job)[-1].data["depth"] == pytest.approx(5 * FOOT)
    push("fmflag 2\r60\ry" + "q")  # who says that it is that is believed
    assert standing(job)[-1].data["depth"] == pytest.approx(60 * FOOT)


def test_a_change_of_material_is_kept_by_its_name_in_the_tables(job, push):
    said = push(BEGIN + "r9\rm1q")
    last = standing(job)[-1]
    assert last.data["what"] == "material"
    assert f"1 {last.data['material']}" in said


def test_no_further_after_a_reading_is_the_same_as_stuck(job, push):
    push(BEGIN + "r17\rs" + "10" + "10" + "m" + "q")
    stop = standing(job)[1]
    assert stop.kind == "stopped"
    assert stop.counter == pytest.approx(17 * FOOT)
    assert stop.data == {"sign": "wall ahead", "feel": "springs back"}


def test_rod_that_went_in_while_the_picture_stood_is_to_be_drawn_out(push):
    # Read at 10 ft, and at 12 ft the picture has not moved: 2 ft lie loose.
    said = push(BEGIN + "r10\rn" + "s12\r" + "60" + "0" + "\r" + "m" + "q")
    assert "2 ft of rod lie loose in the pipe: draw them out first." in said


def test_water_on_a_holding_line_is_warned_of_before_it_is_told_once_the_head_is_stopped(job, push):
    """Seen to drain as the push began, water may be run in it, until a stop shows that it may stand again."""
    job.site.write_text(job.site.read_text().replace("holding: no", "holding: yes"))
    before, _, after = push("y" + BEGIN + "wb" + "s6\r10" + "0" + "hm" + "wbq").partition("And now?")
    forbidden = "No water until you have seen that the line drains"
    assert forbidden not in before
    assert forbidden in after
    assert "Run nothing until the line is seen to drain: it was stopped at 6 ft." in after
    assert "water" not in [entry.kind for entry in standing(job)]


def test_water_without_its_seconds_is_not_told(job, push):
    push(BEGIN + "r9\rn" + "w1y" + ESC + "bb" + "q")
    assert [entry.kind for entry in standing(job)] == ["start", "sighting"]


def test_dye_is_kept_as_dye_and_its_side_too(job, push):
    push(BEGIN + "r9\rn" + "w1c40\ra" + "w1o" + "q")
    came, missed = standing(job)[-2:]
    assert came.data["dye"] is True
    assert (came.data["seconds"], came.data["side"]) == (40, "ahead")
    assert missed.data["dye"] is True
    assert "seconds" not in missed.data


def test_a_sheet_without_a_fixture_has_no_water_to_tell(job, push):
    job.site.write_text(CHAIN)
    said = push("nn" + BEGIN + "r3\rnwq")
    assert "The sheet shows no fixture." in said


def test_the_whole_push_is_only_taken_back_by_a_yes(job, push):
    push(BEGIN + "un" + "q")
    assert [entry.kind for entry in standing(job)] == ["start"]


def test_nothing_can_come_before_the_first_entry(job, push):
    said = push(BEGIN + "l" + "q")
    assert "There is nothing yet that it could come before." in said
    assert [entry.kind for entry in standing(job)] == ["start"]


def test_back_from_a_late_entry_tells_nothing(job, push):
    push(BEGIN + "r9\rn" + "lb" + "r12\rnq")
    assert [round(counter / FOOT) for _, counter in told(job)[1:]] == [9, 12]


def test_something_else_that_was_tried_is_kept_by_its_name(job, push):
    said = push(BEGIN + HELD + "o3" + "hfn" + "m" + "q")
    last = standing(job)[-1]
    assert last.kind == "try"
    assert last.data["outcome"] == "stopped"
    assert f"3 {last.data['technique']}" in said


@pytest.mark.parametrize("keys", ["ob", "gb", "tb"])
def test_back_from_a_try_tells_no_try(job, push, keys):
    push(BEGIN + HELD + keys + "m" + "q")
    assert "try" not in [entry.kind for entry in standing(job)]


def test_every_sign_may_be_told_and_then_the_next_question_comes(job, push):
    """Nine by eye stand in rules/signs/stuck.yaml; of a wall and an open pipe the lens shows but one."""
    push(BEGIN + "s9\r" + "12341" + "56789d" + "00" + "\r" + "m" + "q")
    stop = next(entry for entry in standing(job) if entry.kind == "stopped")
    assert len(str(stop.data["sign"]).split(", ")) == 8
    assert "feel" not in stop.data


@pytest.mark.parametrize(
    ("keys", "sign"),
    [
        ("142" + "0", "open pipe ahead"),
        ("41b" + "0", "open pipe ahead"),  # the wall was a slip
        ("241" + "2" + "0", "rim ahead, wall ahead"),
    ],
)
def test_a_wall_across_the_picture_is_not_logged_beside_an_open_pipe(job, push, keys, sign):
    said = push(BEGIN + "s9\r" + keys + "0" + "m" + "q")
    assert "The lens cannot show both at once. Which does it show now?" in said
    stop = next(entry for entry in standing(job) if entry.kind == "stopped")
    assert stop.data["sign"] == sign


@pytest.mark.parametrize(
    "keys", ["b", "1bb", "11bbb", "11ybbbb", "11ys" + ESC + "bbbb", "11ys\r" + ESC + ESC + "bbbb"]
)
def test_a_push_that_is_left_before_it_began_is_not_in_the_log(job, push, keys):
    push(keys)
    assert standing(job) == []


def test_one_kit_is_not_asked_for(job, push):
    text = job.kit.read_text()
    job.kit.write_text(
        text[: text.index("  - {head: small head, spring: soft spring, rod: small reel, guide")]
    )
    said = push(BEGIN[0] + BEGIN[2:] + "q")
    assert "What goes in?" not in said
    assert [entry.kind for entry in standing(job)] == ["start"]


def test_a_sheet_that_is_off_is_told_before_anybody_digs_by_it(job, push):
    """The end is seen at 45 ft by the counter, where the sheet has it some 10 ft further."""
    said = push(BEGIN + "r4.2\rtr3" + "r17\rtl2" + "r45\ra" + "q")
    assert "In from stack foot plug 45 ft by the counter," in said
    assert "Before digging, locate it from above" in said
    assert "To dig, go by the counter" not in said
    assert "one of them is off" not in push("ur17\rn" + "q").split("COUNTER")[-1]


@pytest.mark.parametrize("nonsense", ["soon", "-5", "1:30", "²", "9999999999"])
def test_seconds_that_are_none_get_one_message_with_an_example(job, push, nonsense):
    said = push(BEGIN + "r17\rtl2" + f"w1y{nonsense}\r" + "7.5\rf" + "q")
    assert f"{nonsense!r} is no time. Type the seconds, such as 12, or a time such as 1 min 30 s." in said
    assert standing(job)[-1].data["seconds"] == 7.5, "a number alone is in seconds, with a point or without"


def test_in_a_pipe_that_stands_nobody_guesses_an_hour(capsys):
    """A stack has no bottom with water in it, and a head that hangs in it no top."""
    data: dict[str, object] = {}
    with typed("d"):
        assert Asks(Page(), Units.METRIC).hour(data)
    assert data["clock"] is None
    assert "A pipe that stands has no bottom: don't know." in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize(
    ("keys", "readings", "ended"),
    [
        ("y7\r", [("standing water", 5), ("nothing", 7), ("nothing", 9)], [7]),
        ("y\r", [("standing water", 5), ("nothing", 9)], [9]),
        ("y4\r10\r8\r", [("standing water", 5), ("nothing", 8), ("nothing", 9)], [8]),
        ("n", [("standing water", 5), ("standing water", 9)], []),
        ("y" + ESC + "n", [("standing water", 5), ("standing water", 9)], []),
    ],
)
def test_where_standing_water_ended_is_asked_with_the_next_open_reading(job, push, keys, readings, ended):
    """From a trial: told to write down where it ends, and no key for it."""
    said = push(BEGIN + "r5\rw" + "r9\rn" + keys + "q")
    assert "The standing water told at 5 ft: is the lens out of it?" in said
    seen = [(each.data["what"], each.counter) for each in standing(job) if each.kind == "sighting"]
    assert seen == [(what, pytest.approx(at * FOOT)) for what, at in readings]
    dry = [each for each in standing(job) if each.data.get("dry")]
    assert [each.counter for each in dry] == pytest.approx([at * FOOT for at in ended])
    for each in dry:
        assert "the standing water ended there" in told_words(each, Units.INCH, tables().stuck)


def test_what_tells_no_end_of_water_is_not_asked_for_one(job, push):
    """Nothing new without water before, drawn back behind it, and once it was told."""
    said = push(BEGIN + "r4\rn" + "r5\rw" + "p3\r" + "r3.5\rn" + "r6\rn" + "q")
    assert "is the lens out of it" not in said


@pytest.mark.parametrize(("key", "hour"), [("9", 9), ("3", 3), ("6", 6), ("l", 9), ("o", 6)])
def test_the_figure_shown_for_an_hour_is_taken_for_it(job, push, key, hour):
    push(BEGIN + "r9\rn" + "ffgrease\r\r1" + key + "q")
    assert standing(job)[-1].data["clock"] == hour


def test_the_answer_to_a_plan_again_stands_right_above_the_next_question(push):
    """On 24 lines it scrolled off above the status screen that followed, of which nothing had changed."""
    said = push(BEGIN + "r9\rn" + "a" + "q")
    after = said.rpartition("AS PLANNED SO FAR")[2]
    assert after
    assert "COUNTER" not in after
    assert "What now?" in after
    assert "COUNTER" in push("a" + "u" + "yq").rpartition("AS PLANNED")[2]
