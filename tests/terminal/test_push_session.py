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
from advisor.job.folder import Job
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.site.sheet import read_site
from advisor.terminal.page import Page
from advisor.terminal.push.session import Session
from advisor.terminal.ready import Ready
from tests.cases.jobs import rules, tables

NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
BEGIN = "11ys\r\r"  # the planned opening and kit, direction known, counter at nothing, no name
ESC = "\x1b"


@contextmanager
def typed(text: str):
    with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
        keys.send_text(text + "\x15\x04")  # a session that wants more keys ends, and its test fails
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
    for words in ("Draw the rod back by hand", "never pull more", "Close the opening.", "a little at a time"):
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
    """From a trial: set to 0 at 10 m, drawn back 2.5 m, and -2.5 could not be told."""
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
    push(BEGIN + "r17\rtl2" + "ffroots\r\r1t" + "fmflag 1\r3\r" + "fnoak near by\r" + "q")
    log = Log.read(job.log)
    find, mark, note = log.standing()[-3:]
    log.close()
    assert (find.kind, mark.kind, note.kind) == ("find", "mark", "note")
    assert find.data["line"] == mark.data["line"] == "house drain"
    assert find.data["distance"] == pytest.approx(17 * FOOT, abs=0.5)
    assert mark.data["depth"] == pytest.approx(3 * FOOT)
