"""`advisor report`: the report into a file, or as text on the screen."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from advisor.job.folder import Job
from advisor.job.output import write_out
from advisor.paper.sizes import usual_paper
from advisor.push.log.log import standing
from advisor.push.report.build import report_of
from advisor.push.report.pages import html_of, pdf_of, text_of
from advisor.terminal.log_screen import entries_of
from advisor.terminal.page import Page
from advisor.terminal.ready import Ready


@dataclass(frozen=True)
class Wanted:
    """What is asked for: which file (`-`: text on the screen), form and paper, and whether to write over."""

    out: Path | None  # None: the screen
    form: str
    paper: str | None  # None: that of the region
    force: bool


def write_report(job: Job, ready: Ready, rules: Path, wanted: Wanted, page: Page) -> None:
    """Write the report in one form. Raises BadInput.

    Without a log there is a report too: it says that nothing was examined.
    """
    entries = standing(entries_of(job)) if job.log.exists() else ()
    made = report_of(job.name, entries, ready.case, ready.tables, ready.base, rules)
    if wanted.out is None:
        sys.stdout.write(text_of(made))
        return
    if wanted.form == "pdf":
        data = pdf_of(made, wanted.paper or usual_paper(ready.case.sheet.model.region))
    else:
        data = (html_of(made) if wanted.form == "html" else text_of(made)).encode()
    write_out(wanted.out, data, wanted.force)
    page.line(f"Report written to {wanted.out}.")
