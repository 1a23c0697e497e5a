"""`advisor report`: the report into a file, or as text on the screen."""

from __future__ import annotations

import sys
from pathlib import Path

from advisor.job.folder import Job
from advisor.job.output import write_out
from advisor.push.log import standing
from advisor.push.report import report_of
from advisor.push.report_pages import html_of, pdf_of, text_of
from advisor.terminal.log_screen import entries_of
from advisor.terminal.page import Page
from advisor.terminal.ready import Ready


def write_report(job: Job, ready: Ready, rules: Path, form: str, out: Path, force: bool, page: Page) -> None:
    """Write the report in one form; `-` as the file shows text on the screen. Raises BadInput.

    Without a log there is a report too: it says that nothing was examined.
    """
    entries = standing(entries_of(job)) if job.log.exists() else ()
    made = report_of(job.name, entries, ready.case, ready.tables, ready.base, rules)
    if str(out) == "-":
        sys.stdout.write(text_of(made))
        return
    data = pdf_of(made) if form == "pdf" else (html_of(made) if form == "html" else text_of(made)).encode()
    write_out(out, data, force)
    page.line(f"Report written to {out}.")
