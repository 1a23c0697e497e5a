"""From a trial: "Cut roots grow again within months" on every screen of a job of which only grease came back.

Whoever reads it takes roots for told. What a machine cut nobody may know, so it stays, as a condition.
"""

from __future__ import annotations

from tests.cases.jobs import rules


def test_what_a_machine_may_have_cut_is_told_as_a_condition():
    texts = [
        rule.conclusion.caution.text
        for rule in rules().all_rules
        if rule.conclusion.caution and rule.conclusion.caution.id == "machine-run"
    ]
    assert len(texts) == 3
    assert all(text.endswith("If it cut roots, they grow again within months.") for text in texts)
