"""Where a trainee stands in each skill, worked out again from the review log: help that fades, and when next.

Help fades forward: a worked example first, then hints, then alone. Up at four fifths over three different
cases, back below half. When a skill comes back is the fsrs library's own schedule for its reviews.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from fsrs import Card, Rating, Scheduler

from advisor.practice.drills import KINDS
from advisor.practice.marks import Marks
from advisor.practice.review import PUSH, Review

WORKED, HINTS, ALONE = "worked example", "hints", "alone"
STEPS = (WORKED, HINTS, ALONE)
SKILLS = (*KINDS, PUSH)


@dataclass(frozen=True)
class Skill:
    """One skill: the step, the library's card, and the credit of the cases since the step was reached."""

    name: str
    step: str = WORKED
    card: Card | None = None
    cases: tuple[tuple[int, float], ...] = ()  # (seed, credit), the last of each seed

    @property
    def due(self) -> datetime | None:
        """When it comes back; None where it was never practised."""
        return None if self.card is None else self.card.due


def scheduler(marks: Marks) -> Scheduler:
    """The library's schedule, without its random fuzz, nothing further off than the longest time away."""
    return Scheduler(
        desired_retention=marks.recall, maximum_interval=marks.longest_away, enable_fuzzing=False
    )


def rating(review: Review, marks: Marks) -> Rating:
    """How the schedule is told of a credit: what hurt somebody is forgotten, whatever it saved."""
    if review.unsafe or review.credit < marks.back_below:
        return Rating.Again
    return Rating.Hard if review.credit < marks.passed_from else Rating.Good


def after(skill: Skill, review: Review, marks: Marks) -> Skill:
    """The skill once a review has come in."""
    card = skill.card or Card(card_id=SKILLS.index(skill.name) + 1, due=review.at)
    card, _ = scheduler(marks).review_card(card, rating(review, marks), review_datetime=review.at)
    credit = 0.0 if review.unsafe else review.credit
    kept = tuple(case for case in skill.cases if case[0] != review.seed)
    cases = (*kept, (review.seed, credit))[-marks.step_cases :]
    moved = replace(skill, card=card, cases=cases)
    if len(cases) < marks.step_cases:
        return moved
    mean, place = sum(credit for _, credit in cases) / len(cases), STEPS.index(skill.step)
    if mean >= marks.passed_from and place + 1 < len(STEPS):
        return replace(moved, step=STEPS[place + 1], cases=())
    if mean < marks.back_below and place > 0:
        return replace(moved, step=STEPS[place - 1], cases=())
    return moved


def replay(reviews: Sequence[Review], marks: Marks) -> dict[str, Skill]:
    """Every skill as the log leaves it; reviews of a skill that there is no more are left out."""
    skills = {name: Skill(name) for name in SKILLS}
    for review in sorted(reviews, key=lambda each: each.at):
        if review.skill in skills:
            skills[review.skill] = after(skills[review.skill], review, marks)
    return skills


def next_skill(skills: dict[str, Skill], now: datetime, last: str = "") -> str:
    """What to practise now: what is due, longest first; else something new; never one kind twice running.

    Where nothing is due and nothing new, what comes back soonest.
    """
    seen = [skill for skill in skills.values() if skill.due is not None and skill.name != last]
    due = sorted((skill for skill in seen if skill.due and skill.due <= now), key=_due)
    if due:
        return due[0].name
    new = [name for name, skill in skills.items() if skill.due is None and name != last]
    return new[0] if new else min(seen, key=_due).name


def _due(skill: Skill) -> datetime:
    assert skill.due is not None
    return skill.due
