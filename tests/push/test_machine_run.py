"""A machine run is a deed of its own: on the sheet, in cautions, log, at a stop ahead and in the report."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

import tests.terminal.test_push_session as sitting
from advisor.errors import BadInput
from advisor.plan import work_through
from advisor.push.before.limit import limit_of
from advisor.push.before.shown_so_far import shown_by
from advisor.push.before.to_look_at import to_look_at
from advisor.push.held_now import held_now
from advisor.push.log.kinds import MACHINE, SIGHTING
from advisor.push.report.log_words import kind_words, told_words
from advisor.push.report.words import history_words
from advisor.push.stop_ahead import stop_ahead
from advisor.quantity import Units
from advisor.result.barred import LeftIn, barred
from advisor.result.build import plan_of
from advisor.result.spots import cautions_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.hard import show_hard
from advisor.terminal.push.here import show_now
from advisor.terminal.push.home import show_coming_home
from advisor.terminal.push.machine import ask_machine
from advisor.terminal.push.remind import remind
from advisor.terminal.push.words import Words
from tests.cases.jobs import rules, tables
from tests.outcome.test_roots import planned
from tests.push.machines import cutter
from tests.push.test_report import HOUSE, START, TASK, case, entries, report, section
from tests.push.test_since import FT
from tests.push.test_stop_ahead import ROOTS, back, drawn, shown, stopped
from tests.terminal.test_now_shown import pushed
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN, ESC

__all__ = ["shown"]  # a fixture
job, push = sitting.job, sitting.push  # fixtures
RUN = "{on: 2026-05-03, in at: yard cleanout, to: 41 ft, came back: [roots]}"
OUT, HERE = {"outside": True}, {"opening": "stack foot plug", "direction": "upstream"}
UP_HERE = ("yard cleanout", "upstream")
STILL = "Where no push below went past its end, what stopped it may be there still."
OTHER = "{on: 2024, to: 30 ft}"


def sheet(history: str) -> str:
    return HOUSE + TASK + f"  history: {{machine runs: [{history}]}}\n"


# -- on the sheet -----------------------------------------------------------------------------


def test_what_came_back_on_it_counts_as_what_came_back():
    """The same chances of roots as where the same was told of a clearing of which nobody knows more."""
    told = sheet(RUN), HOUSE + TASK + "  history: {came back: [roots]}\n"
    by_run, plain = (network_of(site_of_text(text, "site", tables()), tables()) for text in told)
    (wall,) = {piece.wall.condition for piece in by_run.pieces.values() if piece.line == "house drain"}
    assert wall in {piece.wall.condition for piece in plain.pieces.values()}
    never = network_of(site_of_text(HOUSE + TASK, "site", tables()), tables())
    assert wall not in {piece.wall.condition for piece in never.pieces.values()}


def test_the_cautions_tell_the_latest_run_and_what_came_back():
    plan = plan_of(planned("unknown", history=f", history: {{machine runs: [{RUN}, {OTHER}]}}"))
    told = {note.id: note.text for note in plan.cautions}
    assert "A machine was last run here, on 2026-05-03, 41 ft in from yard cleanout." in told["machine-run"]
    assert "From another opening it is another reading." in told["machine-run"]
    assert "Roots came back from here" in told["roots-back"]
    assert "machine-run" not in {note.id for note in plan_of(planned("unknown")).cautions}


def test_of_one_run_nobody_need_know_when_and_it_needs_no_list():
    """Of which nobody knows when comes behind the others: it is the last one only where it is alone."""
    alone = planned("unknown", history=", history: {machine runs: {to: 41 ft}}")
    told = {note.id: note.text for note in plan_of(alone).cautions}["machine-run"]
    assert "A machine was last run here, nobody knows when, 41 ft in." in told
    assert "From which opening, nobody knows." in told
    assert "Slow all the way." in told, "a length from nowhere is no reading on this way"
    assert "None" not in told
    dated = planned("unknown", history=f", history: {{machine runs: [{{to: 12 ft}}, {OTHER}]}}")
    told = {note.id: note.text for note in plan_of(dated).cautions}["machine-run"]
    assert "in 2024, 30 ft in." in told
    history = site_of_text(sheet("{to: 41 ft}"), "site", tables()).model.task.history
    lines = history_words(history, lambda m: f"{m:.1f} m", tables().where)
    assert lines == ["A machine was run, 12.5 m in. " + STILL]


def test_of_a_run_of_which_nobody_knows_how_far_nothing_is_lost():
    """`unknown` stands for what nobody knows in every place of a sheet."""
    run = "{on: unknown, in at: unknown, to: unknown, came back: [roots]}"
    told = planned("unknown", history=f", history: {{machine runs: {run}}}")
    notes = {note.id: note.text for note in plan_of(told).cautions}
    assert "A machine was last run here, nobody knows when. How far in, nobody knows." in notes["machine-run"]
    assert "Slow all the way." in notes["machine-run"]
    assert "Roots came back from here" in notes["roots-back"]
    history = site_of_text(sheet(run), "site", tables()).model.task.history
    (line,) = history_words(history, str, tables().where)
    ran = "A machine was run, nobody knows how far in; roots came back."
    assert line == f"{ran} {STILL}"
    assert "run from here" not in near_its_end("{in at: yard cleanout, to: unknown}", 10)


@pytest.mark.parametrize(
    ("run", "fault"),
    [
        ("{on: last year, to: 41 ft}", "expected a day such as 2026-05-03"),
        ("{on: 2026-13-01, to: 41 ft}", "expected a day such as 2026-05-03"),
        ("{on: 2026, to: 0 ft}", "more than nothing"),
        ("{on: 2026}", "to"),
    ],
)
def test_a_run_of_which_the_day_or_the_length_is_no_such_is_refused(run, fault):
    with pytest.raises(BadInput, match=fault):
        site_of_text(sheet(run), "site", tables())


# -- in a push --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ("cy1h41\rr", {"what": "a cutter", **OUT, **HERE, "to": pytest.approx(41 * FT), "brought": "roots"}),
        ("jyd\rn", {"what": "a water jet", **OUT, "brought": "nothing"}),
        ("dnd41\rd", {"what": "a machine", "outside": False, "to": pytest.approx(41 * FT)}),
        (
            "c" + ESC + "sd" + ESC + "y1h12\rp",
            {"what": "a descaler", **OUT, **HERE, "to": pytest.approx(12 * FT), "brought": "soil or pipe"},
        ),
    ],
)
def test_it_is_told_by_a_key_of_its_own(job, push, keys, says):
    push(BEGIN + "fc" + keys + "q")
    last = standing(job)[-1]
    assert (last.kind, last.counter, last.data) == (MACHINE, None, says)


@pytest.mark.parametrize(
    ("keys", "warned", "said"),
    [
        ("cy1h41\rr", False, False),
        ("cn1h41\rr", True, True),
        ("cd1h41\rr", True, True),
        ("cyd41\rr", False, True),
    ],
)
def test_beside_a_rod_or_from_nobody_knows_where_it_settles_nothing(push, keys, warned, said):
    """A cutter past a rod that is still in the line wrecks the head or winds the rod into its cable."""
    text = " ".join(re.sub("[─-╿]", " ", push(BEGIN + "fc" + keys + "q", raw=True)).split())
    assert ("No cutter and no jet in a pipe in which a rod or head lies" in text) is warned
    assert ("it settles nothing here" in text) is said


@pytest.mark.parametrize(("outside", "over"), [(False, True), (True, False)])
def test_beside_which_a_machine_ran_no_rod_is_pushed_on(outside, over, shown):
    """From a trial: told to draw both out and look, then `First a gentle push: likely (99 %)`."""
    ran = cutter(30 * FT, *UP_HERE, outside=outside)
    for told in ((stopped(33, ROOTS), back(28), ran), (stopped(33, {"feel": "dead"}), ran)):
        now = drawn(*told)
        said = shown(show_now, now)
        assert ("A machine ran beside the rod: this push is over for it." in said) is over
        assert not (over and re.search("gentle push|If it holds|Go on here|Next:|Ahead:", said))
    found = held_now(drawn(stopped(33, {"feel": "dead"}), ran))
    assert (found.no_push, found.tries == ()) == (over, over)
    home = shown(lambda now, page: show_coming_home(now, page), drawn(ran))
    assert ("No push, no try, no turning." in home) is over
    assert ("Look at head, spring and rod: a machine ran beside them." in home) is over


def test_with_a_head_left_in_by_an_earlier_push_no_machine_counts_as_run_in_a_free_pipe(monkeypatch):
    now, data, page = drawn(), {}, Page()
    left = LeftIn(1, "roof vent", ("down",), "large reel", frozenset(), 9.0)
    held = replace(now.push.study, barred=barred(now.push.study.network, tables(), frozenset(), (left,)))
    monkeypatch.setattr(now.push, "study", held)
    with sitting.typed("cyd\rn"), page.console.capture() as shown:
        assert ask_machine(Asks(page, Units.INCH), held, now.push.opening.name, data)
    assert data["outside"] is False
    assert "First the head and rod have to come out. Nothing else goes into" in shown.get()


def test_gear_beside_which_a_machine_ran_is_looked_at_before_it_goes_in_again():
    small = planned("unknown").kit
    loadout = small.loadouts[0]
    begun = ("start", 0.0, {"opening": "yard cleanout", "loadout": loadout.name})
    beside, out = (entries(begun, cutter(9.0, *UP_HERE, outside=each)) for each in (False, True))
    assert to_look_at(beside, small) == loadout.parts
    assert not to_look_at(out, small)


def test_run_past_the_stop_it_opens_the_way_to_it_and_short_of_it_it_does_not():
    def after(*told):
        again = stop_ahead(drawn(stopped(33, ROOTS), back(0), *told))
        assert again is not None
        return again.cleared, again.not_past

    assert after() == (False, True)
    assert after(cutter(41 * FT, *UP_HERE)) == (True, False)
    assert after(cutter(30 * FT, *UP_HERE)) == (False, True)
    assert after(cutter(None, *UP_HERE)) == (False, True)


def near_its_end(run: str, at: float, *told) -> str:
    """What is shown at `at` ft of a push from the yard cleanout, where this run is remembered."""
    now = pushed(sheet(run), "yard cleanout", *told, (SIGHTING, at * FT, {"what": "nothing"}))
    page = Page()
    with page.console.capture() as shown:
        show_hard(limit_of(now), now, page, Words(now))
    return " ".join(re.sub("[─-╿]", " ", shown.get()).split())


def test_where_a_machine_from_this_opening_ended_is_told_on_the_way_there():
    """41 ft are 12.5 m by the definition of the foot; one goes slowly some way before."""
    far = near_its_end(RUN, 10)
    assert "a machine that was run from here (2026-05-03) went to 12.5 m, no further. Slow from" in far
    near = near_its_end(RUN, 40)
    assert "MACHINE ENDED HERE Slow. A machine that was run from here (2026-05-03)" in near
    assert "What stopped it may be there still: look before you push." in near
    assert "run from here" not in near_its_end(RUN, 45), "it lies behind the lens"


@pytest.mark.parametrize("run", ["{on: 2026, in at: roof vent, to: 41 ft}", "{on: 2026, to: 41 ft}"])
def test_one_from_another_opening_or_from_nobody_knows_where_has_no_reading_here(run):
    assert "run from here" not in near_its_end(run, 10)


def test_one_that_was_run_in_this_push_is_told_from_where_it_ended():
    run = cutter(30 * FT, "yard cleanout", "known")
    said = near_its_end("{on: 2026, to: 60 ft}", 10, run)
    assert "went to 9.1 m, no further." in said  # 30 ft


@pytest.mark.parametrize(("way", "told"), [("known", False), ("unknown", True)])
def test_where_a_later_one_came_past_the_end_of_an_earlier_it_is_told_no_more(way, told):
    """30 ft are 9.1 m, 41 ft are 12.5 m; of one that may have gone the other way nobody knows."""
    runs = cutter(30 * FT, "yard cleanout", "known"), cutter(41 * FT, "yard cleanout", way)
    said = near_its_end("{on: 2026, to: 60 ft}", 10, *runs)
    assert ("went to 9.1 m, no further." in said) is told
    assert ("went to 12.5 m, no further." in said) is not told


OLD = "{on: 2026-02-20, in at: roof vent, to: 55 ft}"
LATER = "{on: 2026-03-05, in at: roof vent, to: 55 ft}"


@pytest.mark.parametrize(
    ("on_sheet", "told", "last"),
    [
        (OLD, cutter(9.0, *UP_HERE), "on 2026-03-04, 9 m in from yard cleanout."),
        ("", cutter(9.0, *UP_HERE), "on 2026-03-04, 9 m in from yard cleanout."),
        (
            OLD,
            cutter(9.0, *UP_HERE, opening=None),
            "on 2026-03-04, 9 m in. From which opening, nobody knows.",
        ),
        (OLD, cutter(None, *UP_HERE), "on 2026-03-04. How far in, nobody knows."),
        (LATER, cutter(9.0, *UP_HERE), "on 2026-03-05, 16.8 m in from roof vent."),
    ],
)
def test_the_last_run_is_the_last_of_sheet_and_log(on_sheet, told, last):
    """The log is of 4 March 2026; 55 ft are 16.8 m by the definition of the foot."""
    of = case(sheet(on_sheet))
    shown = shown_by(entries(START, told), of.kit, tables())
    study = work_through(replace(shown.known_to(of), worlds=50), tables(), rules())
    (said,) = (note.text for note in cautions_of(study.site_firings) if note.id == "machine-run")
    assert f"A machine was last run here, {last}" in said


def test_what_lies_in_the_pipe_is_told_once():
    study = work_through(replace(case(sheet(OLD)), worlds=50), tables(), rules())
    page = Page()
    with page.console.capture() as shown:
        remind(study, "yard cleanout", study.kit.loadouts[0].name, (), True, page)
    assert shown.get().count("A machine was last run here") == 1


# -- in log and report ------------------------------------------------------------------------


def test_log_and_report_tell_it():
    told = cutter(12.5, *UP_HERE, brought="roots")
    (entry,) = entries(told)
    line = f"{kind_words(entry)}: {told_words(entry, Units.METRIC, tables().stuck)}"
    out = "all of the rod drawn out for it; in at yard cleanout; direction upstream"
    assert line == f"machine run: a cutter; {out}; to 12.5 m in; came back: roots"
    stop = ("stopped", 9.0, {"sign": "blocked, roots"})
    made = report(START, stop, told, text=sheet(RUN))
    ran = "machine run: a cutter; in by yard cleanout; upstream; all of the rod out; to 12.5 m; brought roots"
    assert ran in section(made, "Seen in this order")
    run = "A machine was run on 2026-05-03 from yard cleanout, 12.5 m in; roots came back."
    assert f"{run} {STILL}" in section(made, "Task")
    # What held the head has not been seen again: it is still where the push ended.
    assert "The head was stopped at 9 m: roots" in section(made, "Recommended")
