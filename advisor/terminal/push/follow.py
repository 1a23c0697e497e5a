"""Opens the log of a job and follows a push at this terminal."""

from __future__ import annotations

from datetime import UTC, datetime

from advisor.job.folder import Job
from advisor.push.log import Log
from advisor.terminal.page import Page
from advisor.terminal.push.session import Session
from advisor.terminal.ready import Ready


def follow(job: Job, ready: Ready) -> int:
    """Until the push is ended or left; raises BadInput where the log cannot be kept."""
    log, page = Log.open(job.log), Page()
    try:
        return Session(job, ready, log, page, lambda: datetime.now(UTC)).run()
    except EOFError:
        page.line("The terminal is gone. All that was told is kept.")
        return 0
    finally:
        log.close()
