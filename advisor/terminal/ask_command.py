"""`advisor ask`: where a session begins or goes on, and how it runs where nobody can be asked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from advisor.archetype import archetypes
from advisor.errors import BadInput, Fault
from advisor.interview.answers import DONT_KNOW, Answer
from advisor.interview.carry import carried
from advisor.interview.dialogue import Session
from advisor.interview.question import load_questions
from advisor.interview.sheets import Known
from advisor.interview.store import Kept, checked, mark_of, read, save
from advisor.job.folder import Job, job_at, job_kit, new_job
from advisor.job.output import keep_beside
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
from advisor.terminal.ask_screen import told
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
    job, kept, before = _begin(wanted)
    if wanted.answers is not None:
        return _unattended(wanted, job, kept, page)
    truck = wanted.kit or (job_kit(wanted.site) if wanted.site else None)
    offer_kit(truck, wanted.units, wanted.rules, page)
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
    if before is not None:
        kept = _carry(job, kept, before, session, page)
    elif kept.answers:
        kept = replace(kept, answers=_still_right(job, session))
    sitting = AskRun(session, job, kept, page)
    if sitting.run() and job.site.is_file() and sitting.may_push:
        ready = make_ready(job.folder, wanted.kit, wanted.units, wanted.worlds, wanted.seed, wanted.rules)
        offer_card(ready, job, page)
    return 0


def _begin(wanted: Wanted) -> tuple[Job | None, Kept, Kept | None]:
    """The job's folder, where there is one yet, what it continues from, and what was kept of it before its
    sheet was edited by hand."""
    if wanted.site is None:
        return None, Kept("job", None), None
    if not wanted.site.is_dir():
        tables = load_tables(wanted.rules)
        sheet = read_site(wanted.site, tables)
        return None, Kept(sheet.model.site, read_text(wanted.site)), None
    job = job_at(wanted.site)
    kept = read(job.answers)[1] if job.answers.is_file() else None
    if not job.site.is_file():
        return job, kept or Kept(job.name, None), None
    text = read_text(job.site)
    if kept is not None and (kept.made == mark_of(text) or (kept.made is None and kept.sheet == text)):
        return job, kept, None  # its own, or cut off before it wrote one of its own
    # Edited by hand since, or written by hand: what stands there holds, and only what is unknown is asked.
    read_site(job.site, load_tables(wanted.rules))
    return job, Kept(job.name, text), kept


def _carry(job: Job, kept: Kept, before: Kept, session: Session, page: Page) -> Kept:
    """Put what was answered before onto the sheet that was edited by hand; what no longer fits is told."""
    found = carried(before, session)
    page.line("The sheet was edited by hand since it was last asked about: what stands on it holds.")
    page.line(f"The answers so far are kept as {keep_beside(job.answers).name}.")
    for answer in found.lost:
        known = answer.question in session.known.questions.by_id
        asked = told(answer, session, found.answers) if known else (answer.question, ", ".join(answer.values))
        question, words = asked
        page.line(f"Does not fit the sheet any more and is left out: {question} {words}.")
    kept = replace(kept, answers=found.answers)
    save(job.answers, kept)
    return kept


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
    if job.answers.is_file():
        page.line(f"The answers that were there are kept as {keep_beside(job.answers).name}.")
    write_sheet(session, job, replace(kept, answers=answers), page)
    made = ended(session, answers)
    if made is not None:
        show_plan(made, session.units(answers), page)
    page.line()
    page.line(f"The sheet: {job.site}")
    return 0
