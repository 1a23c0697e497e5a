"""Where a drain ends in a tank nobody is told of a sewer: no word of ours says so, in any form.

Outside: the sheet says what the drain ends in. "Sewer gas" is the name of a gas, whatever the drain ends in.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest

from advisor.cli import main
from advisor.push.log.kinds import END, FIND, SIGHTING, START, STOPPED
from advisor.push.log.log import Log
from tests.cases.jobs import rules
from tests.push.sites import WALK

SEWER = re.compile(r"sewer(?! gas)|municipal|\bin the street\b", re.I)
NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)
RUNS = (
    ("north america", "{on: 2026-05, in at: floor plug, to: 41 ft}"),
    ("britain", "{to: unknown}"),
)


def test_no_rule_takes_it_that_there_is_a_sewer():
    """None asks that there is one, so none may say so."""
    for rule in rules().all_rules:
        told = (rule.title, rule.because, rule.mechanism, rule.if_wrong, *rule.conclusion.texts())
        assert not [text for text in told if SEWER.search(text)], rule.id


@pytest.mark.parametrize(("region", "run"), RUNS)
def test_a_site_with_a_tank(tmp_path, capsys, region, run):
    history = f"history: {{came back: [soil or pipe, roots], worse on: [rain], machine runs: {run}}}"
    sheet = WALK.replace("end: public sewer", "end: septic tank").replace("north america", region)
    sheet = sheet.replace("map: measured", "map: measured\nseptic: yes\nshared: yes\npumps: yes")
    sheet = sheet.replace("{holding: no}", "{holding: no, chemicals: no, backs up: [bath]}, " + history)
    (tmp_path / "site.yaml").write_text(sheet)
    log = Log.open(tmp_path / "log.db")
    log.append(START, 0.0, {"opening": "floor plug", "direction": "known"}, NOON)
    log.append(SIGHTING, 4.0, {"what": "water"}, NOON)
    log.append(FIND, 4.0, {"what": "standing water"}, NOON)
    log.append(STOPPED, 5.0, {"sign": "wall ahead"}, NOON)
    log.append(END, None, {}, NOON)
    log.close()
    few, site = ["--worlds", "100"], str(tmp_path)
    for command in (
        ["plan", site],
        ["card", site, "--back"],
        ["explain", "how", "--full", "--site", site],
        ["report", site, "--format", "txt"],
    ):
        with pytest.raises(SystemExit) as ended:
            main([*command, *few])
        assert ended.value.code == 0
    told = capsys.readouterr().out + (tmp_path / "report.txt").read_text()
    assert not [line for line in told.splitlines() if SEWER.search(line)]
