"""The start of a push goes by the plan that `plan` told: what held earlier pushes counts in both alike.

From a trial: `plan` said to open another toilet, as the way from the first meets the bend that had held the
rod; the start of `push` of the same job still offered the first, with a better chance. Common practice, no
source: what stopped a rod once stops it again, whichever command is asked.
"""

from __future__ import annotations

from datetime import UTC, datetime

from advisor.kit.loadouts import default_kit
from advisor.plan import Case
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from advisor.terminal.push.planned import Planned
from advisor.terminal.ready import Ready
from tests.cases.jobs import rules, tables
from tests.push.test_seen_whole import MET, SITE, START, end

BEGUN = (*START[:2], {**START[2], "loadout": "small head"})
RIM = ("stopped", 7.0, {"sign": "rim ahead", "feel": "springs back"})


def test_the_plan_that_a_push_starts_with_has_the_stops_of_those_before(tmp_path):
    log, at = Log.open(tmp_path / "log.db"), datetime(2026, 3, 1, 9, tzinfo=UTC)
    try:
        for kind, counter, data in (BEGUN, *MET, RIM, *end(7.0, "nothing", reached=False)):
            log.append(kind, counter, data, at)
        case = Case(site_of_text(SITE, "site", tables()), default_kit(tables()), Units.METRIC, 40)
        planned = as_pushes_show(case, log.standing(), tables(), rules())
        assert any(stop.line for stop in planned.stops)
        assert Planned(Ready(planned, None, tables(), rules()), log, at).case == planned
    finally:
        log.close()
