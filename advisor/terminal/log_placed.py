"""The log of a job as it is shown: finds and marks where all that their pushes showed has them."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.plan import work_through
from advisor.push.log.log import Entry, standing
from advisor.push.report.placed_anew import may_move, placed_anew
from advisor.terminal.ready import make_ready

TOLD = (
    "Finds and marks are placed by what their push showed after them, too; the file of the log keeps what "
    "was known when they were told."
)


def as_placed(entries: tuple[Entry, ...], job: Job, rules: Path) -> tuple[Entry, ...]:
    """All entries of the log, also those taken back; as they were told where the job cannot be planned."""
    holds = standing(entries)
    if not may_move(holds):
        return entries
    with suppress(BadInput):
        ready = make_ready(job.folder, None, None, None, None, rules)
        study = work_through(ready.case, ready.tables, ready.base)
        anew = {entry.number: entry for entry in placed_anew(holds, study)}
        return tuple(anew.get(entry.number, entry) for entry in entries)
    return entries
