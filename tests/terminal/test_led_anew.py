"""Lifted out of an open channel and led in anew, key by key: one push ends, another begins, all is kept.

Common practice, no source: what a head passed in another pipe says nothing of where the next one is.
"""

from __future__ import annotations

from datetime import timedelta
from itertools import count

import pytest

from advisor import demo
from advisor.job.folder import Job
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case
from advisor.push.log.kinds import DOWN, END, SIGHTING, START, STOPPED, TRY, UP, WATER, entry_faults
from advisor.push.log.log import Log, standing_in
from advisor.push.now.led_anew import Led, led_anew, may_be_led_anew
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push.session import Session
from advisor.terminal.ready import Ready
from tests.cases.jobs import rules, tables
from tests.push.test_chamber_mouths import CHAMBER
from tests.push.test_other_mouth import SINK, into_the_annexe
from tests.terminal.test_push_session import NOON, typed

SHEET = CHAMBER.replace("yard drain, from gutter line to public sewer", "annexe").replace(
    "kind: inspection chamber", "kind: inspection chamber\n        depth: 600 mm"
)
SHEET = SHEET.replace("holding: no", "holding: no, gas smell: no")


@pytest.fixture
def push(tmp_path, capsys):
    job, seconds = Job(tmp_path), count()

    def run(keys: str) -> str:
        log = Log.open(job.log)
        kit = kit_of(read_kit(demo.KIT), tables())
        case = Case(site_of_text(SHEET, "site", tables()), kit, Units.METRIC, 100)
        try:
            with typed(keys):
                clock = lambda: NOON + timedelta(seconds=next(seconds))  # noqa: E731
                Session(job, Ready(case, None, tables(), rules()), log, Page(), clock).run()
        finally:
            log.close()
        return " ".join(capsys.readouterr().out.split())

    run.log = job.log
    return run


def test_the_key_ends_the_push_and_begins_one_in_the_mouth_told(push):
    said = push("11ys\r\r" + "o" + "2" + "\r" + "q")
    assert "Done? Tell it with key o" in said
    kinds = [(each.kind, each.data.get("mouth")) for each in standing_in(push.log)]
    assert kinds == [(START, None), (END, None), (START, "annexe")]
    ended, again = standing_in(push.log)[1:]
    assert (ended.data["reached"], ended.data["out"], again.data["direction"]) == (False, True, UP)
    assert "NOT AS PLANNED" not in said.rpartition("led in anew")[2]
    # Taken back, the push before goes on; all of it stands in the log.
    said = push("u" + "y" + "q")
    assert [each.kind for each in standing_in(push.log)] == [START]
    assert "NOT AS PLANNED" in said


def test_what_was_told_of_site_and_water_holds_on_and_what_was_passed_does_not():
    now = into_the_annexe(SINK, (WATER, 3.0, {"fixture": "far toilet", "drains": False}))
    (kind, counter, end), (start, shown, data) = led_anew(now, 0.0, Led(UP, "annexe"))
    assert (kind, start, counter, shown) == (END, START, 0.0, 0.0)
    assert not entry_faults(kind, counter, end)
    assert not entry_faults(start, shown, {name: each for name, each in data.items() if each is not None})
    assert data["drains"] is False, "water that stood stands still"


@pytest.mark.parametrize(
    ("told", "may"),
    [
        ((), True),
        (((SIGHTING, 3.0, {"what": "nothing"}),), True),
        (((STOPPED, 3.0, {}), (TRY, 3.0, {"technique": "steady push", "outcome": "kinked"})), False),
        (((STOPPED, 3.0, {"feel": "will not come back"}),), False),
    ],
)
def test_it_is_offered_over_a_channel_with_sound_rod_that_comes_back(told, may):
    assert may_be_led_anew(into_the_annexe(*told, direction=DOWN)) is may
