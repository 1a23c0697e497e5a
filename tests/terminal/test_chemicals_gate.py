"""Nobody begins a push before it is known that no drain cleaner was poured in."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push import begin
from tests.cases.jobs import rules, tables
from tests.push.sites import WALK


@pytest.mark.parametrize(
    ("chemicals", "said", "asked", "begun"),
    [("unknown", "n", 1, False), ("unknown", "y", 1, True), ("no", "n", 0, True)],
)
def test_what_was_poured_in_is_asked_before_anything(chemicals, said, asked, begun, capsys, monkeypatch):
    text = WALK.replace("holding: no", f"holding: no, chemicals: {chemicals}")
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 100)
    questions, reached = [], []
    monkeypatch.setattr(begin, "choose", lambda page, question, *_: questions.append(question) or said)
    asks = SimpleNamespace(one_of=lambda *_: reached.append(True))
    assert begin.begin(plan(case, tables(), rules()), Page(), asks, None) is None
    assert sum("poured in a drain cleaner" in question for question in questions) == asked
    assert bool(reached) is begun
    assert ("Nothing is begun." in capsys.readouterr().out) is not begun
