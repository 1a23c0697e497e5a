"""What a question session leaves behind: the job's sheet, and the plan that the answers come to."""

from __future__ import annotations

from dataclasses import replace

from advisor.interview.clean import clean_sheet
from advisor.interview.dialogue import Session
from advisor.interview.sheets import Answers
from advisor.interview.store import Kept, mark_of, save
from advisor.job.folder import Job
from advisor.job.output import keep_beside, write_out
from advisor.result.model import Plan
from advisor.terminal.page import Page
from advisor.terminal.ready import with_log


def write_sheet(session: Session, job: Job, kept: Kept, page: Page) -> None:
    """Write the job's sheet; one that was there and edited by hand is kept beside it."""
    text, drain = session.sheets.text(kept.answers), session.sheets.drain(kept.answers)
    if text is None or drain is None:
        page.line("No sheet is written: nobody said what building it is.")
        return
    made = clean_sheet(text, drain.network, kept.answers, session.known.questions)
    if job.site.is_file() and mark_of(job.site.read_text(encoding="utf-8")) not in (kept.made, mark_of(made)):
        page.line(f"The sheet that was there is kept as {keep_beside(job.site).name}.")
    write_out(job.site, made.encode(), force=True)
    save(job.answers, replace(kept, made=mark_of(made), written=kept.answers, edited=None))


def ended(session: Session, answers: Answers, job: Job) -> Plan | None:
    """The whole plan that the answers come to, with what pushes of the job met."""
    study = session.study(answers, whole=True)
    return with_log(study, job.log) if study is not None else None
