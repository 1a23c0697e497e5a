"""A stop that no push of a job came past stands in its plan and on its card, as in its log."""

from __future__ import annotations

import pytest

from advisor.cli import main
from advisor.demo import ALL
from advisor.job.folder import Job
from advisor.push.log.log import Log
from tests.terminal.test_now_shown import NOON

SAYS = "In from stack foot plug, downstream, a push was stopped at 22 ft"


@pytest.mark.parametrize(
    ("given", "says"), [("plan", SAYS), ("card", "22 ft: stopped before: it feels dead and hard")]
)
@pytest.mark.parametrize("stopped", [True, False])
def test_it_stands_in_the_plan_and_on_the_card(tmp_path, capsys, given, says, stopped):
    job = Job(tmp_path)
    job.site.write_text(ALL[0].read_text())
    log = Log.open(job.log)
    log.append("start", 0.0, {"opening": "stack foot plug"}, NOON)
    if stopped:
        log.append("stopped", 6.7056, {"feel": "dead"}, NOON)  # 22 ft
    log.close()
    with pytest.raises(SystemExit):
        main([given, str(tmp_path), "--worlds", "100"])
    assert (says in " ".join(capsys.readouterr().out.split())) is stopped
