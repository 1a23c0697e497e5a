"""Opens the log of a job and follows a push at this terminal."""

from __future__ import annotations

from datetime import UTC, datetime

from advisor.job.folder import Job
from advisor.push.log.log import Log, open_push
from advisor.terminal.choose import told_at_its_end
from advisor.terminal.page import Page
from advisor.terminal.push.session import Session
from advisor.terminal.ready import Ready


def follow(job: Job, ready: Ready) -> int:
    """Until the push is ended or left; raises BadInput where the log cannot be kept, InputEnded, and
    KeyboardInterrupt on Ctrl-C, once it is told what was kept."""
    log, page = Log.open(job.log), Page()

    def kept() -> str:
        if open_push(log.standing()):
            return f"All that was told is in the log. Go on with: advisor push {job.folder}"
        return f"No push was begun. Begin with: advisor push {job.folder}"

    try:
        with told_at_its_end(kept):
            return Session(job, ready, log, page, lambda: datetime.now(UTC)).run()
    except KeyboardInterrupt:
        page.line(f"Broken off. {kept()}")
        raise
    finally:
        log.close()
