"""Back in every menu beside the opening: the question before, with nothing lost and nothing told too soon."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from tests.push.sites import WALK
from tests.terminal.test_push_answers import HELD, standing
from tests.terminal.test_push_session import BEGIN, ESC

job, push = sitting.job, sitting.push  # fixtures
INCH = 0.0254


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("r9\rtrb" + "l3", {"what": "tie-in", "clock": 9.0, "size": pytest.approx(3 * INCH)}),  # size, hour
        ("r9\rtb" + "n", {"what": "nothing"}),  # hour, what is seen
        ("r9\rcb" + "n", {"what": "nothing"}),  # size
        ("r9\rmb" + "n", {"what": "nothing"}),  # material
        ("w1y9\rb" + "\ra", {"fixture": "basement toilet", "dye": False, "seconds": 9.0, "side": "ahead"}),
        ("w1y9\rb" + "12\rd", {"fixture": "basement toilet", "dye": False, "seconds": 12.0}),
        ("w1y9\rb" + ESC + "n", {"fixture": "basement toilet", "dye": False}),
        ("w1b" + "1o", {"fixture": "basement toilet", "dye": True}),
    ],
)
def test_back_is_the_question_before(job, push, keys, says):
    push(BEGIN + keys + "q")
    _, last = standing(job)
    assert last.data == says


def test_back_from_what_is_seen_keeps_the_reading(job, push):
    push(BEGIN + "r9\rb" + "\rn" + "q")
    assert standing(job)[-1].counter == pytest.approx(9 * 0.3048)


@pytest.mark.parametrize(
    ("keys", "signs"),
    [
        ("1b20" + "0", {"sign": "rim ahead"}),  # the last sign
        ("10" + "b" + "20" + "0", {"sign": "wall ahead, rim ahead"}),  # from the hand to the eye
        ("10" + "1b" + "20", {"sign": "wall ahead", "feel": "soft"}),
    ],
)
def test_back_among_signs_takes_the_last_one_back(job, push, keys, signs):
    push(BEGIN + "s9\r" + keys + "m" + "q")
    stop = next(entry for entry in standing(job) if entry.kind == "stopped")
    assert stop.data == signs


def test_back_from_the_first_sign_is_the_reading_and_tells_no_stop(job, push):
    push(BEGIN + "s9\rb" + ESC + "r8\rsb" + "n" + "q")
    assert [entry.kind for entry in standing(job)] == ["start", "sighting"]


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("thb" + "pfn", ("passed", "firm", "none")),  # force, what came of it
        ("thfb" + "hr", ("stopped", "hard", "running")),  # water, force
        ("o3b" + "1hfn", ("stopped", "firm", "none")),  # what came of it, what was tried
    ],
)
def test_back_among_the_questions_of_a_try(job, push, keys, says):
    push(BEGIN + HELD + keys + ("q" if says[0] == "passed" else "mq"))
    last = next(entry for entry in reversed(standing(job)) if entry.kind == "try")
    assert (last.data["outcome"], last.data["force"], last.data["water"]) == says
    if keys.startswith("o"):
        assert last.data["technique"] == "steady push"


@pytest.mark.parametrize(("typed", "what"), [("", "roots"), ("rust", "rust")])
def test_back_from_the_hour_of_a_find_keeps_its_words(job, push, typed, what):
    push(BEGIN + "r9\rn" + "ffroots\r\r1bb" + ESC + typed + "\r" + "\r1t" + "q")
    find = standing(job)[-1]
    assert (find.data["what"], find.data["clock"]) == (what, 12.0)


def test_back_from_a_late_entry_is_the_choice_before_which_it_was(job, push):
    push(BEGIN + "r9\rn" + "r12\rn" + "l2" + ESC + "1" + "5\rn" + "q")
    readings = [round((entry.counter or 0) / 0.3048) for entry in standing(job)[1:]]
    assert readings == [5, 9, 12]


def test_a_fixture_keeps_its_key_through_a_push(job, push):
    """Whichever is proposed: told by its key, another would be logged."""
    job.site.write_text(WALK.replace("holding: no", "holding: no, gas smell: no"))
    said = push("n11yd\r\r" + "wb" + "r5 m\rn" + "wb" + "w1n" + "wb" + "q")
    assert "un the kitchen sink" in said, "another than the first is proposed"
    assert said.count("1 laundry tub 2 kitchen sink 3 bath") == 4


def test_why_no_water_was_to_be_seen_is_told_in_plain_words(job, push):
    """5 m in, the kitchen line joined behind the head and the bath line joins ahead of it."""
    job.site.write_text(WALK.replace("holding: no", "holding: no, gas smell: no"))
    said = push("n11ys\r\r" + "r11.2\rttd" + "r16.5\rn" + "w3n" + "q")
    assert "Water of the bath cannot pass the lens: it joins further down than the head." in said
    assert "second main" not in said
    said = push("w2n" + "q")
    assert "It may run another way: a second main." in said
