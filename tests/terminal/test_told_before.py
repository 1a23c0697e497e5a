"""What was told as a push began stands with what a later plan asks: when, by whom, and it is asked anew."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as session
from advisor.cli import main

job, push = session.job, session.push  # fixtures
POURED = "nobody poured in a drain cleaner"


def shown(job, capsys, *given: str) -> str:
    with pytest.raises(SystemExit):
        main([*given, str(job.folder), "--worlds", "100"])
    return " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("given", [("plan",), ("card", "--format", "txt")])
def test_it_is_asked_all_the_same_and_the_plan_tells_it_with_its_time_and_name(job, push, capsys, given):
    """A card has its room for what is to be done: what was told another day is asked anew anyhow."""
    job.site.write_text(job.site.read_text().replace("\n    chemicals: no", ""))
    before = shown(job, capsys, *given)
    assert POURED not in before
    push("n" + "11ys\rPip\r" + "r3\rn" + "en\ry")
    after = shown(job, capsys, *given)
    assert ("Told by Pip as the push of 2026-11-02" in after) is (given == ("plan",))
    assert (f"{POURED}. That was then: ask anew." in after) is (given == ("plan",))
    asks = (
        "Ask whether drain chemicals were poured in"
        if given == ("plan",)
        else "Drain chemicals were poured in?"
    )
    assert asks in before
    assert asks in after


def test_where_the_sheet_says_it_nothing_is_added(job, push, capsys):
    sheet = job.site.read_text()
    job.site.write_text(sheet.replace("\n    chemicals: no", ""))
    push("n" + "11ys\r\r" + "r3\rn" + "en\ry")
    job.site.write_text(sheet)
    assert POURED not in shown(job, capsys, "plan")
