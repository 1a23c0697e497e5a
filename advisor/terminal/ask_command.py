"""`advisor ask`: where a session begins or goes on, and how it runs where nobody can be asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from advisor.archetype import archetypes
from advisor.errors import BadInput, Fault
from advisor.interview.answers import DONT_KNOW, Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import load_questions
from advisor.interview.sheets import Known
from advisor.interview.store import Kept, checked, mark_of, read
from advisor.job.folder import Job, job_at, job_kit, new_job
from advisor.job.own import own_kit
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS
from advisor.push.taught_jobs import learned_now
from advisor.quantity import Units
from advisor.rulebase.load import load_rules
from advisor.site.sheet import read_site
from advisor.strict_yaml import read_text
from advisor.tables.load import load_tables
from advisor.terminal.ask_offers import offer_card, offer_kit
from advisor.terminal.ask_session import AskRun, ended, write_sheet
from advisor.terminal.choose import need_terminal, type_in
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.ready import make_ready

LONGEST_NAME = 60


@dataclass(frozen=True)
class Wanted:
    """What the command was given."""

    site: Path | None
    answers: Path | None
    ask_all: bool
    kit: Path | None
    units: str | None
    worlds: int | None
    seed: int | None
    rules: Path


def ask(wanted: Wanted) -> int:
    """Run a session; raises BadInput. Gives 0, also where somebody left and may go on later."""
    page = Page()
    if wanted.answers is None:
        need_terminal("use --answers FILE where nobody can be asked")
    job, kept = _begin(wanted)
    if wanted.answers is not None:
        return _unattended(wanted, job, kept, page)
    offer_kit(wanted.kit or (job_kit(wanted.site) if wanted.site else None), wanted.rules, page)
    if job is None:
        name = kept.job
        if kept.sheet is None:
            asked = "What do you call this job? Street and number will do."
            typed = type_in(page, asked, _name, "job", escape="leave")
            if typed is None:
                return 0
            name = typed or "job"
        job = new_job(Path(), name)
        kept = replace(kept, job=name)
        page.line(f"Everything is kept in the folder {job.folder}.")
    session = Session(_known(wanted, kept))
    if kept.answers:
        kept = replace(kept, answers=_still_right(job, session))
    sitting = AskRun(session, job, kept, page)
    if sitting.run() and job.site.is_file() and sitting.may_push:
        ready = make_ready(job.folder, wanted.kit, wanted.units, wanted.worlds, wanted.seed, wanted.rules)
        offer_card(ready, job, page)
    return 0


def _begin(wanted: Wanted) -> tuple[Job | None, Kept]:
    """The job's folder, where there is one yet, and what was kept of it."""
    if wanted.site is None:
        return None, Kept("job", None)
    if not wanted.site.is_dir():
        tables = load_tables(wanted.rules)
        sheet = read_site(wanted.site, tables)
        return None, Kept(sheet.model.site, read_text(wanted.site))
    job = job_at(wanted.site)
    kept = read(job.answers)[1] if job.answers.is_file() else None
    if not job.site.is_file():
        return job, kept or Kept(job.name, None)
    text = read_text(job.site)
    if kept is not None and kept.made == mark_of(text):
        return job, kept
    if kept is not None and kept.made is None:
        return job, kept  # cut off before it wrote a sheet of its own
    # Edited by hand since, or written by hand: what stands there holds, and only what is unknown is asked.
    read_site(job.site, load_tables(wanted.rules))
    return job, Kept(job.name, text)


def _known(wanted: Wanted, kept: Kept) -> Known:
    tables = load_tables(wanted.rules)
    base = load_rules(wanted.rules, tables.limits, set(tables.sources))
    kit_path = wanted.kit or (job_kit(wanted.site) if wanted.site else None) or own_kit()
    return Known(
        load_questions(wanted.rules, tables, base),
        archetypes(wanted.rules, tables),
        kit_of(read_kit(kit_path), tables) if kit_path else default_kit(tables),
        tables,
        base,
        kept.sheet,
        kept.job,
        Units(wanted.units) if wanted.units else None,
        wanted.worlds or DEFAULT_WORLDS,
        DEFAULT_SEED if wanted.seed is None else wanted.seed,
        wanted.ask_all,
        learned_now(wanted.rules, tables, base),
    )


def _still_right(job: Job, session: Session) -> tuple[Answer, ...]:
    """The answers of the job's own file in the order in which they were given; raises BadInput."""
    sheet, kept = read(job.answers)
    right = {(a.question, a.about): a for a in checked(sheet, session)}
    return tuple(right[a.question, a.about] for a in kept.answers)


def _name(text: str) -> str | None:
    if len(text) > LONGEST_NAME:
        return f"it is longer than {LONGEST_NAME} letters"
    return None if text.isprintable() else "letters, numbers and spaces only"


def _unattended(wanted: Wanted, job: Job | None, kept: Kept, page: Page) -> int:
    """Take the answers from the file, say what went unanswered, write the sheet and plan."""
    assert wanted.answers is not None
    sheet, given = read(wanted.answers)
    if kept.sheet is None:
        kept = replace(kept, sheet=given.sheet)
    if job is None:
        kept = replace(kept, job=kept.job if kept.sheet else given.job)
    session = Session(_known(wanted, kept))
    answers = checked(sheet, session)
    unanswered = []
    while (question := session.next(answers)) is not None:
        unanswered.append(question)
        answers = (*answers, Answer(*question.key, (DONT_KNOW,)))
    if session.sheets.text(answers) is None:
        raise BadInput([Fault(str(wanted.answers), 0, "nothing in it says what building it is")])
    if job is None:
        job = new_job(Path(), kept.job)
    if unanswered:
        page.heading("Not answered, taken as not known")
        for question in unanswered:
            about = "" if question.subject.id == "job" else f" about {question.subject.id}"
            page.line(f"{question.question.id}{about}: {question.text}")
    write_sheet(session, job, replace(kept, answers=answers), page)
    made = ended(session, answers)
    if made is not None:
        show_plan(made, session.units(answers), page)
    page.line()
    page.line(f"The sheet: {job.site}")
    return 0
