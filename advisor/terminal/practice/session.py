"""A sitting: what is due comes first, one drill after another, each answer kept before the next."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

from advisor.job.folder import Job
from advisor.practice import review as reviews
from advisor.practice.drill import Drill, Grade
from advisor.practice.drills import TITLES, make
from advisor.practice.from_job import from_job
from advisor.practice.left import add_left
from advisor.practice.review import PUSH, review_of
from advisor.practice.scene import School
from advisor.practice.skill import WORKED, Skill, next_skill, replay
from advisor.practice.solvable import scene
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.practice.drill_screen import Left, run_drill, show_example
from advisor.terminal.practice.push_screen import run_push

EXAMPLE_OFF = 500_000  # seeds of examples do not meet those of drills
AGAIN = (Choice("1", "another"),)
LEAVE = (Choice("q", "leave"),)

Clock = Callable[[], datetime]


def sitting(
    school: School, log: Path, clock: Clock, kind: str | None, seeds: Iterator[int], page: Page
) -> None:
    """Drills until whoever practises has had enough; `kind` stays with one skill. Raises BadInput."""
    last, about, marks = "", "", school.marks
    for seed in seeds:
        skills = replay(reviews.read(log), marks)
        name = kind or next_skill(skills, clock(), last)
        try:
            page.line("One moment, a house is being drawn.")
            graded, about = _one(school, skills[name], seed, about if name == last else "", page)
        except Left:
            add_left(log, clock())
            page.line("Left; this one does not count and does not come again.")
            return
        except (KeyboardInterrupt, EOFError) as end:
            add_left(log, clock())
            if isinstance(end, KeyboardInterrupt):
                page.line("Broken off; this one does not count. All before it is kept.")
            raise
        kept = review_of(graded, name, seed, about, skills[name].step, clock())
        reviews.add(log, kept)
        _told(skills[name], replay(reviews.read(log), marks)[name], clock(), page)
        if choose(page, "Go on?", AGAIN, LEAVE) != "1":
            return
        last = name


def job_drill(school: School, job: Job, seed: int, page: Page) -> None:
    """The drill of a real job, with its reasons; it is asked for itself and not kept."""
    drill = from_job(job, school, seed)
    try:
        run_drill(drill, "hints", f"From a job: {TITLES[drill.kind]}", school.marks, page)
    except Left:
        page.line("Left.")


def _one(school: School, skill: Skill, seed: int, after: str, page: Page) -> tuple[Grade, str]:
    if skill.name == PUSH:
        _, push = scene(school, seed)
        return run_push(push, skill.step, page), push.study.target.line
    drill: Drill = make(skill.name, school, seed, after)
    if skill.step == WORKED and not skill.cases:
        show_example(make(skill.name, school, seed + EXAMPLE_OFF, drill.about), school.marks, page)
    return run_drill(drill, skill.step, TITLES[skill.name], school.marks, page), drill.about


def _told(before: Skill, after: Skill, now: datetime, page: Page) -> None:
    """Where the skill stands now, and when it comes back."""
    if after.step != before.step:
        page.line(f"From here on: {after.step}.")
    if after.due is not None:
        wait = after.due - now
        when = f"in {wait.days} days" if wait.days > 1 else "tomorrow" if wait.days == 1 else "today"
        page.line(f"This comes back {when}.")
