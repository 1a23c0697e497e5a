"""A plug that is seized is told where one stands before it: kept in the job, planned without, reported."""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from advisor.plan import plan
from advisor.push.report.build import report_of
from advisor.push.report.log_words import kind_words, told_words
from advisor.quantity import Units
from advisor.tables.place import rules_dir
from advisor.terminal.ready import make_ready
from tests.cases.jobs import rules, tables
from tests.push.test_report import section
from tests.terminal.test_push_answers import standing

job, push = sitting.job, sitting.push  # fixtures
PLUG = "stack foot plug"
SHUT = "11yn" + "b"  # the planned opening and kit, what comes before is done, it does not open; left


def ready(job):
    return make_ready(job.folder, None, None, 200, None, rules_dir())


def first(made) -> str:
    return made.settled.attempts[0].route.opening.name


def test_it_is_kept_and_the_plan_is_made_without_it(job, push):
    assert first(plan(ready(job).case, tables(), rules())) == PLUG
    said = push(SHUT)
    assert f"Noted: {PLUG} does not open. The plan without it:" in said
    after = said.partition("The plan without it:")[2]
    assert f"Open {PLUG}" not in after
    assert f"{PLUG} (ruled out: it does not open)" in after
    (entry,) = standing(job)
    assert (entry.kind, entry.counter, entry.data) == ("shut", None, {"opening": PLUG})
    assert f"{kind_words(entry)}: {told_words(entry, Units.INCH, tables().stuck)}" == f"does not open: {PLUG}"
    # Whatever is planned of this job later knows it too.
    assert first(plan(ready(job).case, tables(), rules())) != PLUG


def test_one_goes_on_from_another_opening_at_once(job, push):
    push("11yn" + "11yy\r\r" + "r3\rn" + "q")
    kinds = [(entry.kind, entry.data.get("opening")) for entry in standing(job)]
    assert kinds[0] == ("shut", PLUG)
    assert kinds[1][0] == "start"
    assert kinds[1][1] != PLUG
    assert kinds[2][0] == "sighting"


@pytest.mark.parametrize("pushed", [False, True])
def test_the_report_says_that_it_is_to_be_freed(job, push, pushed):
    push("11yn" + "11yy\r\r" + "r3\rn" + "en\ry" if pushed else SHUT)
    made = report_of("a job", tuple(standing(job)), ready(job).case, tables(), rules(), rules_dir())
    assert f"{PLUG} does not open: free it. Have its plug or lid freed or replaced" in section(
        made, "Recommended"
    )


def test_what_was_freed_since_is_shut_no_more(job, push):
    push(SHUT)
    assert ready(job).case.shut == (PLUG,)
    key = push("b").partition(f" {PLUG} (ruled out")[0].split()[-1]
    push(f"{key}1ys\r\r" + "q")
    assert [entry.kind for entry in standing(job)] == ["shut", "start"]
    assert ready(job).case.shut == ()
    assert first(plan(ready(job).case, tables(), rules())) == PLUG


def test_back_from_the_direction_is_no_word_on_the_plug(job, push):
    push("11y" + "b" + "bbb")
    assert standing(job) == []
