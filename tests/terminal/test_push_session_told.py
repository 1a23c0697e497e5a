"""A push through the terminal's own questions: what is told on the way, and what never gets lost."""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.errors import BadInput
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from tests.push.sites import WALK
from tests.terminal import test_push_session as others
from tests.terminal.test_push_session import BEGIN, ESC, told, typed

job = others.job  # a fixture
push = others.push  # a fixture


def test_no_water_test_is_proposed_on_a_line_that_stood_full_once_it_is_stopped_again(job, push):
    """It was seen to drain as the push began, and that counts until the head is stopped."""
    job.site.write_text(job.site.read_text().replace("holding: no", "holding: yes"))
    said = push("y" + BEGIN.replace("ys", "yd") + "r3\rn" + "s4\r10" + "0" + "hmq")  # y: seen to drain
    assert "Does the line drain now, down to what its trap always holds?" in said
    _, stopped, after = said.partition("> stuck: it goes no further")
    assert stopped
    assert "Run the" not in after
    assert "run the laundry tub" not in after
    again = push("q")
    assert "A full line can empty over you when a plug comes out" in again, "as before it was seen to drain"


def test_before_a_push_into_a_line_that_was_cleared_stands_what_belongs_to_a_push(job, push):
    """And not how a full line is relieved: who goes on is past that, and needs coupling, transmitter and a
    person at the taps; on a shared line the neighbours hold off water as well."""
    text = job.site.read_text().replace("holding: no", "holding: yes")
    job.site.write_text(text.replace("site:", "shared: yes\nsite:", 1))
    said = push("y" + BEGIN.replace("y", "ny", 1) + "q")
    assert "Check coupling, jacket, lens, recording and transmitter." in said
    assert "Post one person who can shout." in said
    assert "Have them hold off water too: theirs comes without warning." in said
    assert "Clear it from the opening just above the stoppage" not in said


def test_a_damaged_sheet_is_told_and_nothing_is_lost(job, push):
    push(BEGIN + "r4.2\rtr3q")
    job.site.write_text(job.site.read_text().replace("stack foot plug", "other plug"))
    with pytest.raises(BadInput, match="no opening of the sheet now"):
        push("q")
    assert len(told(job)) == 2


def test_a_narrow_screen_holds_every_line(push, monkeypatch):
    monkeypatch.setenv("COLUMNS", "40")
    said = push(BEGIN + "r4.2\rtr3" + "s\r10" + "10" + "m" + "q")
    assert push.widths[0] <= 40
    assert "toilet branch" in said


def test_a_stop_that_is_taken_back_or_gone_back_to_is_told_in_words(push):
    stop = "stopped at 9 ft: a rim or step before the lens; it feels dead and hard"
    push(BEGIN + "s9\r20" + "30" + "m" + "q")
    said = push("u" + "q")
    assert said.count(stop) == 2
    assert f"Taken back: {stop}" in said


def test_an_opening_that_leads_the_other_way_is_told_and_the_plan_made_anew(job, push):
    job.site.write_text(WALK)
    said = push("nn11yd\r\r" + "r5\rn" + "w" + "1y9\ra" + "a" + "q")
    assert "Where: not sure. Either" in said
    assert "Run the laundry tub: it tells most" in said, "both were told as it began"
    assert "NOT AS PLANNED floor plug leads the other way than planned." in said
    assert "The plan from here:" in said
    assert "Downstream is behind the lens: likely" in said


def test_a_pipe_that_is_not_on_the_map_is_told_with_a_water_test(job, push):
    job.site.write_text(WALK)
    dry = "w1n" + "w2n" + "w3n"
    said = push("nn11ys\r\r" + "r5\re" + "r8\re" + "r14\rtt2" + dry + "q")
    assert "It may be a pipe that is not on your map" in said
    assert "NOT AS PLANNED" in said
    assert "A second main" in said or "a second main" in said


def test_a_terminal_that_goes_away_loses_nothing(job, push):
    with pytest.raises(EOFError):
        push(BEGIN + "r4.2\rtr3" + "\x04")
    assert [kind for kind, _ in told(job)] == ["start", "sighting"]


def test_hostile_words_are_shown_escaped(job, push):
    said = push(BEGIN + "fn[bold]\u202egone\r" + "q")
    again = push("q")
    assert "[bold]\\u202egone" in again
    assert "\u202e" not in said + again


def test_who_pushes_is_asked_once_a_job_and_stands_in_the_log(job, push):
    push("11ys\rRowan\r" + "r10\rn" + "en\ry")
    again = push("11ys\r\r" + "r10\rn" + "en\ry")
    assert "Empty: Rowan" in again
    log = Log.read(job.log)
    names = [entry.data.get("operator") for entry in log.standing() if entry.kind == "start"]
    log.close()
    assert names == ["Rowan", "Rowan"]


def test_escape_is_back_where_an_empty_line_would_mean_something(job, push):
    push(BEGIN + "r10\rn" + "s" + ESC + "x" + ESC + "fmflag 1\r" + ESC + ESC + "b" + "q")
    assert [kind for kind, _ in told(job)] == ["start", "sighting"]
    push("uuy")
    push("11ys" + ESC + "bbbb")
    assert told(job) == []


def test_what_can_hurt_at_an_opening_that_was_not_planned_is_told_before_the_head_goes_in(job, push):
    """The plan goes in by the yard; whoever takes the roof is told of the roof, whatever gear goes in."""
    job.site.write_text(next(p for p in demo.ALL if p.stem == "slab-house").read_text())
    for gear, show in ("1s", "2n", "2s"):
        said = push(f"nn2{gear}{show}y" + "y\r\r" + "uy")
        opening, _, rest = said.partition("> roof vent")
        assert "A fall from the roof can kill" not in opening
        told, _, _ = rest.partition("Is it open now?")
        assert "A fall from the roof can kill" in told
        assert "At this opening" in told
        assert "Check coupling, jacket, lens" in told, "shown again to whoever asks"


def test_more_names_than_keys_come_a_screenful_at_a_time(capsys):
    """Keys for 32 names: the fortieth stands on the second screen; the last screen leads to the first."""
    names = [f"opening {number}" for number in range(1, 41)]
    asks = Asks(Page(), Units.INCH)
    with typed("m8"):
        assert asks.one_of("Which?", names) == "opening 40"
    with typed("mm1"):
        assert asks.one_of("Which?", names) == "opening 1"
    with typed("mb"):
        assert asks.one_of("Which?", names) is None
    capsys.readouterr()
    with typed("1"):
        assert asks.one_of("Which?", names[:32]) == "opening 1"
    assert "more of them" not in capsys.readouterr().out


def test_back_before_a_push_is_the_question_before(job, push):
    """Whoever took the wrong opening goes back to it; what was asked in between is asked again."""
    push("21y" + "bbb" + "11ys\r\r" + "q")
    assert [kind for kind, _ in told(job)] == ["start"]
    log = Log.read(job.log)
    (start,) = log.standing()
    log.close()
    assert start.data["opening"] == "stack foot plug"
