"""Nobody begins a push before it is known that there is no gas and that no drain cleaner was poured in.

Outside: whoever smells gas leaves and touches no switch (the advice of gas utilities everywhere).
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

import tests.terminal.test_push_session as sitting
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push import begin, gates
from tests.cases.jobs import rules, tables
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
        assert begin.begin(plan(case, tables(), rules()), Page(), asks, None) is None
        return asked, bool(reached)

    return run


@pytest.mark.parametrize(
    ("complaint", "said", "asked", "goes_on"),
    [
        ("gas smell: no, chemicals: unknown", "n", ["cleaner"], False),
        ("gas smell: no, chemicals: unknown", "y", ["cleaner"], True),
        ("gas smell: no, chemicals: no", "n", [], True),
    ],
)
def test_what_was_poured_in_is_asked_before_anything(begun, complaint, said, asked, goes_on, capsys):
    assert begun(complaint, {"cleaner": said}) == (asked, goes_on)
    assert ("Nothing is begun." in capsys.readouterr().out) is not goes_on


@pytest.mark.parametrize(("said", "goes_on"), [("n", True), ("y", False), ("d", False)])
def test_gas_that_nobody_spoke_of_is_asked_and_not_known_is_no_no(begun, said, goes_on, capsys):
    assert begun("chemicals: no", {"smell gas": said}) == (["smell gas"], goes_on)
    told = " ".join(capsys.readouterr().out.replace("┃", "").split())
    assert told.count("Touch no switch. Get everybody out.") == (2 if said == "y" else 1)
    assert ("Nothing is begun." in told) is not goes_on


def test_gas_comes_before_the_cleaner_and_ends_it(begun):
    assert begun("chemicals: unknown", {"smell gas": "d", "cleaner": "y"}) == (["smell gas"], False)
    assert begun("chemicals: unknown", {"smell gas": "n", "cleaner": "y"}) == (["smell gas", "cleaner"], True)


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
