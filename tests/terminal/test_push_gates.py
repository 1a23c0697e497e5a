"""Nobody begins a push before it is known that there is no gas and that no drain cleaner was poured in.

Outside: whoever smells gas leaves and touches no switch (the advice of gas utilities everywhere).
"""

from __future__ import annotations

from datetime import timedelta
from types import SimpleNamespace

import pytest

import tests.terminal.test_push_session as sitting
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.barred import LeftIn
from advisor.result.build import plan_of
from advisor.site.sheet import site_of_text
from advisor.terminal.choose import choose
from advisor.terminal.page import Page
from advisor.terminal.push import begin, gates
from tests.cases.hazards import FULL_UPSTAIRS, SMALL
from tests.cases.jobs import rules, studied, tables
from tests.push.sites import WALK
from tests.terminal.test_push_answers import standing

job, push = sitting.job, sitting.push  # fixtures
GAS = "Does anybody smell gas?"


@pytest.fixture
def begun(monkeypatch):
    """Which gates were asked, each so answered, and whether the question of the opening was reached."""

    def run(complaint: str, answers: dict[str, str]) -> tuple[list[str], bool]:
        text = WALK.replace("holding: no", f"holding: no, {complaint}")
        case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 100)
        asked, reached = [], []

        def answer(page, question, *_):
            asked.append(next(each for each in answers if each in question))
            return answers[asked[-1]]

        monkeypatch.setattr(gates, "choose", answer)
        asks = SimpleNamespace(one_of=lambda *_: reached.append(True))
        of = plan(case, tables(), rules())
        assert begin.begin(of, Page(), asks, (), None, lambda _: of) is None
        return asked, bool(reached)

    return run


@pytest.mark.parametrize(
    ("complaint", "said", "asked", "goes_on"),
    [
        ("gas smell: no, chemicals: unknown", "y", ["cleaner"], False),
        ("gas smell: no, chemicals: unknown", "d", ["cleaner"], False),
        ("gas smell: no, chemicals: unknown", "n", ["cleaner"], True),
        ("gas smell: no, chemicals: no", "n", [], True),
    ],
)
def test_what_was_poured_in_is_asked_before_anything(begun, complaint, said, asked, goes_on, capsys):
    """As of the gas before it, no is what lets it go on: nobody in a hurry takes the one for the other."""
    assert begun(complaint, {"cleaner": said}) == (asked, goes_on)
    assert ("Nothing is begun." in capsys.readouterr().out) is not goes_on


@pytest.mark.parametrize(("said", "goes_on"), [("n", True), ("y", False), ("d", False)])
def test_gas_that_nobody_spoke_of_is_asked_and_not_known_is_no_no(begun, said, goes_on, capsys):
    assert begun("chemicals: no", {"smell gas": said}) == (["smell gas"], goes_on)
    told = " ".join(capsys.readouterr().out.replace("┃", "").split())
    assert told.count("Touch no switch. Get everybody out.") == (2 if said == "y" else 1)
    assert ("Nothing is begun." in told) is not goes_on


def test_gas_comes_before_the_cleaner_and_ends_it(begun):
    assert begun("chemicals: unknown", {"smell gas": "d", "cleaner": "n"}) == (["smell gas"], False)
    assert begun("chemicals: unknown", {"smell gas": "n", "cleaner": "n"}) == (["smell gas", "cleaner"], True)


@pytest.mark.parametrize(("told", "asked"), [("no", 0), ("unknown", 1)])
def test_it_is_asked_once_a_beginning_and_stands_in_the_log(push, job, told, asked):
    """An opening that does not open leads to another: nobody is asked again what was told a minute ago."""
    job.site.write_text(job.site.read_text().replace("gas smell: no", f"gas smell: {told}"))
    said = push("n" * asked + "11yn" + "11yy\r\r" + "q")
    assert said.count(GAS) == asked
    assert said.count("Until it is known: Gas will explode") == asked
    start = standing(job)[-1]
    assert start.kind == "start"
    assert ("nobody smells gas" in str(start.data.get("told"))) == bool(asked)


@pytest.mark.parametrize(
    ("gas", "poured", "goes_on"), [("y", "n", False), ("n", "y", False), ("n", "n", True)]
)
def test_the_gates_hold_also_where_no_rule_warns(monkeypatch, gas, poured, goes_on):
    """Rules of somebody's own may say nothing of gas or of what was poured in: it is asked all the same."""
    study = SimpleNamespace(circumstances=SimpleNamespace(gas_smell=None, chemicals=None))
    silent = SimpleNamespace(ask=(), no_plan=False, until=None, holding=False, doubt=None)
    monkeypatch.setattr(gates, "choose", lambda _, asked, *__: gas if "gas" in asked else poured)
    passed = gates.pass_gates(study, silent, Page())
    assert (passed is not None) == goes_on


def test_where_all_gear_lies_in_the_pipe_nothing_is_asked_and_nothing_begins(monkeypatch, capsys):
    kit, site = default_kit(tables()), site_of_text(WALK, "site", tables())
    parts = frozenset(part for each in kit.loadouts for part in each.parts)
    lies = LeftIn(0, "floor plug", ("down",), "all of it", parts, 5.0)
    of = plan(Case(site, kit, Units.METRIC, 100, left_in=(lies,)), tables(), rules())
    monkeypatch.setattr(gates, "choose", lambda *_: pytest.fail("there is nothing to ask for"))
    assert begin.begin(of, Page(), None, (), None, lambda _: of) is None
    assert "Nothing goes into that pipe before they are out." in " ".join(capsys.readouterr().out.split())


# -- what was told as it began counts in that push, and not for ever ---------------------------------

OPEN = WALK.replace("holding: no", "holding: unknown")
BEGUN = "nny" + "11yd\r\r"  # no gas, nothing poured in, it drains; then as planned, the way not known
NOT_KNOWN = ("Not known whether it smells of gas", "whether drain chemicals were poured", "is holding water")


@pytest.fixture
def later(monkeypatch):
    """The clock of the sittings to come is set on by so many minutes."""

    def on(minutes: float) -> None:
        monkeypatch.setattr(sitting, "NOON", sitting.NOON + timedelta(minutes=minutes))

    return on


def test_what_was_told_as_it_began_counts_while_it_goes_on(push, job):
    """Seen to drain and nothing poured in: so water may be run, and nobody is told that it is not known."""
    job.site.write_text(OPEN)
    said = push(BEGUN + "r5\rn" + "q")
    assert "Only if the line is seen to drain" not in said
    assert "Run the laundry tub" in said
    again = push("s6\r10" + "30" + "hmq")
    assert not any(each in again for each in NOT_KNOWN)
    assert "Smell at the door" not in again


def test_a_stop_takes_away_that_it_drains_and_no_more(push, job):
    """A wall before the lens lets nobody see whether water goes by: then it is first to be seen again."""
    job.site.write_text(OPEN)
    before, _, after = push(BEGUN + "r5\rn" + "s6\r10" + "0" + "hmq").partition("And now?")
    assert "Run the laundry tub" in before
    assert "No water until you have seen that the line drains" in after
    assert "Nor then: " in after  # a wall takes all of the push: water is none of the ways out of it


@pytest.mark.parametrize(("seen", "asked"), [("", False), ("w1n" + "n", True)])
def test_who_saw_it_stand_in_this_push_is_asked_before_it_is_gone_on_with(push, job, seen, asked):
    """A minute after as well. Where it was only stopped since, no water is run."""
    job.site.write_text(OPEN)
    push(BEGUN + "s6\r10" + "0" + "m" + seen + "q")
    said = push("n" if asked else "q")
    assert ("Does the line drain now" in said) is asked
    assert ("Nothing is pushed on." in said) is asked
    assert ("No water before it is seen to drain again" in said) is not asked


def test_who_goes_on_the_next_day_is_asked_anew_and_it_stands_in_the_log(push, job, later):
    job.site.write_text(OPEN)
    push(BEGUN + "r5\rn" + "q")
    later(20 * 60)
    said = push("nny" + "r6\rn" + "q")
    assert said.index(GAS) < said.index("Has anybody poured") < said.index("Does the line drain now")
    assert said.index("Does the line drain now") < said.index("sighting at 5 ft")
    anew = next(entry for entry in standing(job) if entry.kind == "asked anew")
    assert "nobody smells gas" in str(anew.data["told"])
    assert anew.data["drains"] is True
    again = push("uuq")
    assert GAS not in again, "a minute later it still counts"
    assert [entry.kind for entry in standing(job)] == ["start", "asked anew"], "no slip takes that back"


@pytest.mark.parametrize("minutes", [58, 62])
def test_a_sitting_left_open_asks_anew_after_an_hour_and_only_once(push, job, later, monkeypatch, minutes):
    """The technician's lunch between "What now?" and the key: an hour, common practice, no source."""
    job.site.write_text(OPEN)
    asked = iter(range(9))

    def after_lunch(*question) -> str:
        if next(asked) == 1:
            later(minutes)
        return choose(*question)

    monkeypatch.setattr("advisor.terminal.push.session.choose", after_lunch)
    anew = "nny" + "r" if minutes > 60 else ""
    said = push(BEGUN + "r5\rn" + "r" + anew + "6\rn" + "r7\rn" + "q")
    assert said.count("Smell at the door") == (2 if anew else 1)
    kinds = ["start", "sighting", *(["asked anew"] if anew else []), "sighting", "sighting"]
    assert [entry.kind for entry in standing(job)] == kinds


def test_where_the_sheet_tells_all_of_it_nobody_is_stopped_after_an_hour(push, job, later):
    job.site.write_text(OPEN.replace("unknown", "no, gas smell: no, chemicals: no"))
    push("11yd\r\r" + "r5\rn" + "q")
    later(90)
    said = push("r6\rn" + "r7\rn" + "q")
    assert said.count("GOING ON FROM") == 1
    assert [entry.kind for entry in standing(job)] == ["start", *["sighting"] * 3]


@pytest.mark.parametrize("keys", ["y", "d", "ny", "nd", "nnn", "nnd"])
def test_nobody_goes_on_where_one_of_them_is_not_so(push, job, later, keys):
    job.site.write_text(OPEN)
    push(BEGUN + "r5\rn" + "q")
    later(20 * 60)
    said = push(keys)
    assert "Nothing is pushed on." in said
    assert "What now?" not in said
    assert ("draw it out by hand" in said) is keys.startswith("nn"), "not in gas, not into a cleaner"
    assert [entry.kind for entry in standing(job)] == ["start", "sighting"]


def test_what_the_sheet_came_to_leave_open_is_asked_of_an_open_push_too(push, job):
    job.site.write_text(OPEN.replace("unknown", "no, gas smell: no, chemicals: no"))
    push("11yd\r\r" + "q")
    job.site.write_text(OPEN.replace("unknown", "no"))
    said = push("nn" + "q")
    assert GAS in said


def test_whether_it_drains_is_looked_for_where_it_would_show(monkeypatch):
    """A toilet far above the gully shows nowhere below (by the trade: full here, dry there)."""
    of = studied(FULL_UPSTAIRS.replace("holding: yes, ", "").replace("gully, top", "top"), SMALL, 50)
    asked = []
    monkeypatch.setattr(gates, "choose", lambda _, question, *__: asked.append(question) or "n")
    gates._seen_to_drain(of, plan_of(of), Page())
    assert asked[0].startswith("Look into top toilet and the lowest fixture, loosen no plug.")
