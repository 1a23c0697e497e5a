"""`advisor ask`: where a session begins or goes on, and how it runs where nobody can be asked."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from advisor.archetype import archetypes
from advisor.errors import BadInput, Fault
from advisor.interview.carry import Carried, carried, still_right
from advisor.interview.dialogue import Session
from advisor.interview.merge import Merged, merged
from advisor.interview.question import DONT_KNOW, load_questions
from advisor.interview.sheets import Answers, Known
from advisor.interview.store import Kept, mark_of, read, save
from advisor.interview.subject import JOB
from advisor.interview.total import answers_to
from advisor.job.folder import Job, job_at, job_kit, new_job
from advisor.job.output import keep_beside
from advisor.job.own import own_kit
from advisor.job.units import keep_units, told_units
from advisor.kit.loadouts import default_kit, kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS, Case
from advisor.push.before.looked_at import Looks, looks_of
from advisor.push.before.shown_so_far import shown_by
from advisor.push.log.log import standing_in
from advisor.push.met_before import met_before
from advisor.push.report.taught_jobs import learned_now
from advisor.push.seen_whole import seen_whole
from advisor.rulebase.load import load_rules
from advisor.site.sheet import SiteSheet, read_site, site_of_text, usual_units
from advisor.strict_yaml import read_text
from advisor.strict_yaml.model import Sheet
from advisor.tables.load import Tables, load_tables
from advisor.terminal.ask_offers import offer_card, offer_kit
from advisor.terminal.ask_screen import told
from advisor.terminal.ask_session import AskRun
from advisor.terminal.ask_written import ended, write_sheet
from advisor.terminal.choose import need_terminal, told_at_its_end, type_in
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.ready import make_ready

LONGEST_NAME = 60
_EDITED = "The sheet was edited by hand since it was last asked about: what stands on it holds."
_SHUT = "By the log {name} did not open: it is planned without it, until a push begins there."


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
    """Run a session; raises BadInput, InputEnded. Gives 0, also where somebody left and may go on later."""
    page = Page()
    if wanted.answers is None:
        need_terminal("use --answers FILE where nobody can be asked")
    job, kept, before = _begin(wanted)
    if wanted.answers is not None:
        return _unattended(wanted, job, kept, before, page)
    with told_at_its_end(lambda: _kept_so_far(job)):
        truck = wanted.kit or (job_kit(wanted.site) if wanted.site else None)
        offer_kit(truck, wanted.units, wanted.rules, page)
        if job is None:
            named = _named(kept, page)
            if named is None:
                return 0
            kept = named
            job = new_job(Path(), kept.job)
            page.line(f"Everything is kept in the folder {job.folder}.")
        keep_units(job, wanted.units)
        session = Session(_known(wanted, kept, job))
        for name in session.known.shut:
            page.line(_SHUT.format(name=name))
        if before is not None:
            kept = _carry(job, kept, before, session, page)
            session = Session(replace(session.known, sheet=kept.sheet))
        elif kept.answers:
            kept = _go_on(job, kept, session, page)
        sitting = AskRun(session, job, kept, page)
        if sitting.run() and job.site.is_file() and sitting.may_push:
            ready = make_ready(job.folder, wanted.kit, wanted.units, wanted.worlds, wanted.seed, wanted.rules)
            offer_card(ready, job, page)
    return 0


def _kept_so_far(job: Job | None) -> str:
    """What is kept where the input ends, and how to go on."""
    if job is None:
        return "No job was begun. Begin again with: advisor ask"
    return f"Every answer is kept. Go on with: advisor ask {job.folder}"


def _named(kept: Kept, page: Page) -> Kept | None:
    """With the name of the new job, asked for where no sheet has it; None where somebody left."""
    if kept.sheet is not None:
        return kept
    asked = "What do you call this job? Street and number will do."
    typed = type_in(page, asked, _name, "job", escape="leave")
    return None if typed is None else replace(kept, job=typed or "job")


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
    own = kept is not None and mark_of(text) in (kept.made, kept.edited)
    if kept is not None and (own or (kept.made is None and kept.sheet == text)):
        return job, kept, None  # its own, or cut off before it wrote one of its own
    # Edited by hand since, or written by hand: what stands there holds, and only what is unknown is asked.
    read_site(job.site, load_tables(wanted.rules))
    return job, Kept(job.name, text), kept


def _carry(job: Job, kept: Kept, before: Kept, session: Session, page: Page) -> Kept:
    """Put what was answered before onto the sheet that was edited by hand; what no longer fits is told."""
    page.line(_EDITED)
    found = carried(before, session)
    return _with_what_fits(job, _on_top(kept, found), found, session, page)


def _on_top(kept: Kept, found: Carried) -> Kept:
    """From the edited sheet that `kept` goes on from to what of it the answers stand on."""
    assert kept.sheet is not None
    return replace(kept, sheet=found.sheet, written=found.on_sheet, edited=mark_of(kept.sheet))


def _go_on(job: Job, kept: Kept, session: Session, page: Page) -> Kept:
    """Its own answers as they still hold; what does not fit is told, and the file as it was is kept."""
    found = still_right(kept.answers, session)
    if not found.lost:
        return replace(kept, answers=found.answers)
    return _with_what_fits(job, kept, found, session, page)


def _with_what_fits(job: Job, kept: Kept, found: Carried, session: Session, page: Page) -> Kept:
    page.line(f"The answers so far are kept as {keep_beside(job.answers).name}.")
    _tell_lost(found.lost, found.answers, session, page)
    kept = replace(kept, answers=found.answers)
    save(job.answers, kept)
    return kept


def _tell_lost(lost: Answers, answers: Answers, session: Session, page: Page) -> None:
    for answer in lost:
        known = answer.question in session.known.questions.by_id
        asked = told(answer, session, answers) if known else (answer.question, ", ".join(answer.values))
        question, words = asked
        page.line(f"Does not fit any more and is left out: {question} {words}.")


def _known(wanted: Wanted, kept: Kept, job: Job | None) -> Known:
    tables = load_tables(wanted.rules)
    base = load_rules(wanted.rules, tables.limits, set(tables.sources))
    kit_path = wanted.kit or (job_kit(wanted.site) if wanted.site else None) or own_kit()
    kit = kit_of(read_kit(kit_path), tables) if kit_path else default_kit(tables)
    standing = standing_in(job.log) if job is not None else ()
    sheet = _pushed_with(kept, job, tables)
    shown = shown_by(standing, kit, tables, sheet)
    # By the sheet that they were pushed with: what is answered now moves nothing that was seen.
    asked = Case(sheet, kit, usual_units(sheet.model)) if sheet else None
    looks = looks_of(asked, standing, tables, base) if asked else Looks()
    return Known(
        load_questions(wanted.rules, tables, base),
        archetypes(wanted.rules, tables),
        kit,
        tables,
        base,
        kept.sheet,
        kept.job,
        told_units(wanted.units, job.folder if job is not None else None),
        wanted.worlds or DEFAULT_WORLDS,
        DEFAULT_SEED if wanted.seed is None else wanted.seed,
        wanted.ask_all,
        learned_now(wanted.rules, tables, base),
        shown.shut,
        shown.opened,
        looks.openings,
        lambda case: looks.known_to(shown.known_to(case)),
        lambda study: met_before(study, standing) if standing else (),
        lambda study: seen_whole(study, standing).told,
    )


def _pushed_with(kept: Kept, job: Job | None, tables: Tables) -> Sheet[SiteSheet] | None:
    """The sheet by which pushes of the job went: drawn by hand, or as these questions wrote it; None where
    there is none, or none that can be read: that is told elsewhere."""
    with suppress(BadInput):
        if kept.sheet is not None:
            return site_of_text(kept.sheet, kept.job, tables)
        if job is not None and job.site.is_file():
            return read_site(job.site, tables)
    return None


def _name(text: str) -> str | None:
    if len(text) > LONGEST_NAME:
        return f"it is longer than {LONGEST_NAME} letters"
    return None if text.isprintable() else "letters, numbers and spaces only"


def _unattended(wanted: Wanted, job: Job | None, kept: Kept, before: Kept | None, page: Page) -> int:
    """Put the answers of the file over the job's, say what went unanswered, write the sheet and plan.

    `before` is what was kept of the job before its sheet was edited by hand.
    """
    assert wanted.answers is not None
    sheet, given = read(wanted.answers)
    if kept.sheet is None:
        kept = replace(kept, sheet=given.sheet)
    if job is None:
        kept = replace(kept, job=kept.job if kept.sheet else given.job)
    session = Session(_known(wanted, kept, job))
    over = Carried(kept.answers, ()) if before is None else carried(before, session)
    if before is not None:
        kept = _on_top(kept, over)
        session = Session(replace(session.known, sheet=kept.sheet))
    found = merged(sheet, over.answers, session)
    answers = found.answers
    unanswered = []
    while (question := session.next(answers)) is not None:
        unanswered.append(question)
        answers = (*answers, *answers_to(question, (DONT_KNOW,)))
    if session.sheets.tree(answers) is None:
        raise BadInput([Fault(str(wanted.answers), 0, "nothing in it says what building it is")])
    if job is None:
        job = new_job(Path(), kept.job)
    keep_units(job, wanted.units)
    if before is not None:
        page.line(_EDITED)
    if over.answers:
        _tell_merged(found, len(over.answers), page)
    _tell_lost((*over.lost, *found.lost), answers, session, page)
    if unanswered:
        page.heading("Not answered, taken as not known")
        for question in unanswered:
            page.line(f"{question.question.id}{_about(question.subject.id)}: {question.text}")
    if job.answers.is_file():
        page.line(f"The answers that were there are kept as {keep_beside(job.answers).name}.")
    write_sheet(session, job, replace(kept, answers=answers), page)
    made = ended(session, answers, job)
    if made is not None:
        show_plan(made, session.units(answers), page)
    page.line()
    page.line(f"The sheet: {job.site}")
    return 0


def _tell_merged(found: Merged, earlier: int, page: Page) -> None:
    """One line: how many of the earlier answers stay, and which the file replaced."""
    replaced = [
        f"{now.question}{_about(now.about)} ({', '.join(was.values)}, now {', '.join(now.values)})"
        for was, now in found.replaced
    ]
    stay = earlier - len(found.replaced) - len(found.lost)
    page.line(f"Earlier answers that stay: {stay}. Replaced by the file's: {'; '.join(replaced) or 'none'}.")


def _about(about: str) -> str:
    return "" if about == JOB.id else f" about {about}"
