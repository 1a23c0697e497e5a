"""A push through the terminal's own questions, key by key, with what is in the log after each."""

from __future__ import annotations

from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor import demo
from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case
from advisor.push.log import Log
from advisor.quantity import Units
from advisor.site.sheet import read_site
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.session import Session
from advisor.terminal.ready import Ready
from tests.cases.jobs import rules, tables
from tests.push.sites import WALK

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
BEGIN = "11ys\r\r"  # the planned opening and kit, direction known, counter at nothing, no name
ESC = "\x1b"


@contextmanager
def typed(text: str):
    with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
        keys.send_text(text + "\x04")  # a session that wants more keys than these ends, and its test fails
        yield


@pytest.fixture
def job(tmp_path) -> Job:
    said = demo.MAIN.read_text().replace("holding: no", "holding: no\n    chemicals: no\n    gas smell: no")
    (tmp_path / "site.yaml").write_text(said)
    (tmp_path / "kit.yaml").write_text(demo.KIT.read_text())
    return Job(tmp_path)


@pytest.fixture
def push(job, capsys):
    seconds, widths = count(), []

    def run(keys: str, raw: bool = False) -> str:
        """Type the keys in one sitting; what the screen said, in one line or `raw` as it stands."""
        log = Log.open(job.log)
        sheet = read_site(job.site, tables())
        case = Case(sheet, kit_of(read_kit(job.kit), tables()), Units.INCH, 200)
        ready = Ready(case, None, tables(), rules())
        try:
            with typed(keys):
                Session(job, ready, log, Page(), lambda: NOON + timedelta(seconds=next(seconds))).run()
        finally:
            log.close()
        screen = capsys.readouterr().out
        widths.append(max(map(len, screen.splitlines()), default=0))
        return screen if raw else " ".join(screen.split())

    run.widths = widths
    return run


def told(job: Job) -> list[tuple[str, float | None]]:
    log = Log.read(job.log)
    try:
        return [(entry.kind, entry.counter) for entry in log.standing()]
    finally:
        log.close()


FOOT = 0.3048


def test_a_push_from_start_to_end(job, push):
    said = push(BEGIN + "r4.2\rtr3" + "r17\rtl2" + "w1y9\rf" + "r40\rn" + "eyyy")
    kinds = [kind for kind, _ in told(job)]
    assert kinds == ["start", "sighting", "sighting", "water", "sighting", "end"]
    assert told(job)[1][1] == pytest.approx(4.2 * FOOT)
    assert "How big is its mouth, about? Press its first figure. 1 1-1/2 in 2 2 in" in said
    for words in ("toilet branch", "laundry line", "Downstream is ahead of the lens", "The push is ended"):
        assert words in said
    home = said.partition("COMING HOME")[2]
    for words in ("Draw the rod back by hand", "never pull more than", "Close the opening.", "Run water."):
        assert words in home
    assert f"advisor report {job.folder}".split()[1] in home
    assert "Let the string go" not in home, "none is on the head"


@pytest.mark.parametrize(("again", "reached"), [("y", True), ("n\r", False)])
def test_an_end_told_against_counter_and_sheet_is_asked_about_once_more(job, push, again, reached):
    """By the sheet the target goes on for 58 ft from there: 40 ft on the counter leave some 18 ft."""
    said = push(BEGIN + "r4.2\rtr3" + "r17\rtl2" + "r40\rn" + "ey" + again + "y")
    assert "unlikely (under 1 %) by counter and sheet. By them it lies some 18 ft further in" in said
    assert said.count("yes, all of it seen") == 3 + reached
    log = Log.read(job.log)
    assert log.standing()[-1].data["reached"] is reached
    log.close()


def test_drawn_back_past_where_the_counter_was_set_anew_it_shows_less_than_0(job, push):
    """From a technician's day: set to 0 at 10 m, drawn back 2.5 m, and -2.5 could not be told."""
    said = push(BEGIN + "r20\rn" + "x\r" + "p-5\r" + "p-6 ft 6 in\r" + "r-4\rn" + "fmflag\r-3\r\r" + "q")
    backs = [at for kind, at in told(job) if kind in ("pulled back", "sighting")]
    assert backs[1:] == pytest.approx([-5 * FOOT, -6.5 * FOOT, -4 * FOOT])
    assert said.count("less than zero") == 1, "the depth of a pipe"
    assert "COUNTER 5 FT BEFORE THE COUNTER'S 0" in said
    assert "less than zero" in push("p-3\r" + ESC + "uuuuuu" + "p-3\r" + ESC + "q")


def test_at_the_end_no_water_is_run_where_none_may_be(job, push):
    job.site.write_text(job.site.read_text().replace("chemicals: no", "chemicals: yes"))
    home = push("y" + BEGIN + "r3\rn" + "en\ry").partition("COMING HOME")[2]
    assert "Close the opening." in home
    assert "Run water" not in home


def test_undo_takes_the_last_back_and_it_can_be_told_again(job, push):
    push(BEGIN + "r4.2\rtr3" + "r9\re" + "u" + "q")
    assert [kind for kind, _ in told(job)] == ["start", "sighting"]
    said = push("uq")
    assert "GOING ON FROM STACK FOOT PLUG" in said
    assert [kind for kind, _ in told(job)] == ["start"]
    said = push("uy")
    assert told(job) == []
    assert "Nothing is open" in said


def test_it_goes_on_where_it_was_left_and_shows_the_last_three(job, push):
    push(BEGIN + "r4.2\rtr3" + "r9\rn" + "r12\rn" + "r14\rnq")
    said = push("q")
    assert "Taken" not in said
    for words in ("sighting at 9 ft", "sighting at 12 ft", "sighting at 14 ft", "COUNTER 14 FT"):
        assert words in said
    assert "sighting at 4.2 ft" not in said
    assert "A full line can burst out where it is opened." in " ".join(
        said.replace("│", " ").replace("┃", " ").split()
    )


def test_stuck_then_passed(job, push):
    said = push(BEGIN + "s\r10" + "10" + "thfn" + "h" + "tpfn" + "q")
    kinds = [kind for kind, _ in told(job)]
    assert kinds == ["start", "stopped", "offered", "try", "try"]
    log = Log.read(job.log)
    first, second = [entry for entry in log.standing() if entry.kind == "try"]
    log.close()
    assert (first.data["outcome"], second.data["outcome"]) == ("stopped", "passed")
    assert first.data["technique"] == second.data["technique"] == "turn the rod"
    assert first.data["force"] == "firm"
    assert 0 < first.data["book"] <= 1
    assert first.data["way"]
    for words in (
        "HELD AT",
        "two tries left",
        "one try left",
        "GETTING OUT",
        "Never a winch",
        "Never pull more",
    ):
        assert words in said


def test_a_late_entry_stands_where_it_belongs(job, push):
    push(BEGIN + "r4.2\rtr3" + "r17\rn" + "l2" + "9\re" + "q")
    readings = [round(counter / FOOT, 1) for _, counter in told(job)[1:]]
    assert readings == [4.2, 9.0, 17.0]


def test_drawn_back_and_counter_set_anew(job, push):
    said = push(BEGIN + "r10\rn" + "p4\r" + "x\r" + "q")
    assert [kind for kind, _ in told(job)] == ["start", "sighting", "pulled back", "counter reset"]
    assert said.rstrip().count("COUNTER 0 FT") == 2


def test_units_may_be_typed_and_nonsense_is_asked_again(job, push):
    said = push(BEGIN + "r2 m\rn" + "r" + "twelve\r" + "8\rn" + "q")
    assert told(job)[1][1] == pytest.approx(2.0)
    assert told(job)[2][1] == pytest.approx(8 * FOOT)
    assert "expected a length such as 12 ft 6 in or 4 in" in " ".join(said.split())


def test_a_counter_that_cannot_be_is_asked_about(job, push):
    """The reel holds 98 ft: 500 is a slip, and so is drawing back to more than was in."""
    said = push(BEGIN + "r500\rn" + "50\rn" + "p60\r" + "q")
    assert "500 ft is more than the reel holds" in said
    assert "nothing was drawn back" in said
    ((kind, counter),) = told(job)[1:]
    assert (kind, round(counter / FOOT)) == ("sighting", 50)
    push("r500\ryn" + "q")
    assert told(job)[-1][1] == pytest.approx(500 * FOOT)


def test_what_was_passed_holds_no_more(job, push):
    said = push(BEGIN + "s\r10" + "10" + "tpfn" + "a" + "q")
    assert "held where the plan has no hard place" not in said.lower()
    assert [kind for kind, _ in told(job)][-1] == "try"


def test_back_out_of_everything_tells_nothing(job, push):
    push(BEGIN + "r" + ESC + "r5\rb" + ESC + "wb" + "w1bb" + "p" + ESC + "fb" + "ff" + ESC + "beb" + "q")
    assert [kind for kind, _ in told(job)] == ["start"]


def test_a_find_and_a_mark_carry_line_and_distance(job, push):
    push(BEGIN + "r17\rtl2" + "ffroots\r\rt" + "fmflag 1\r3\r" + "fnoak near by\r" + "q")
    log = Log.read(job.log)
    find, mark, note = log.standing()[-3:]
    log.close()
    assert (find.kind, mark.kind, note.kind) == ("find", "mark", "note")
    assert find.data["line"] == mark.data["line"] == "house drain"
    assert find.data["distance"] == pytest.approx(17 * FOOT, abs=0.5)
    assert mark.data["depth"] == pytest.approx(3 * FOOT)


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
