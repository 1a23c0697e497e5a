"""What pushes have taught, on the screen: each figure with how many tries stand behind it."""

from __future__ import annotations

from math import exp, log
from pathlib import Path

from advisor.errors import BadInput
from advisor.push.learn.learn import Lessons
from advisor.push.learn.turn_words import turn_words
from advisor.push.report.taught_jobs import lessons_now, listed
from advisor.rulebase.load import load_rules
from advisor.tables.load import load_tables
from advisor.terminal.page import Page
from advisor.terminal.plain_line import complain


def show_lessons(rules: Path, page: Page) -> int:
    """Show everything; 2 where a job on the list cannot be read."""
    tables = load_tables(rules)
    base = load_rules(rules, tables.limits, set(tables.sources))
    lessons, faults = lessons_now(rules, tables, base)
    page.heading("Learned from pushes")
    if not listed():
        page.line("Nothing yet: the plan goes by the book. `advisor learn JOB` learns from the log of a job.")
        return 0
    page.line(
        f"Jobs: {lessons.jobs}. Pushes whose way is known: {lessons.pushes}. Planned tries: {lessons.tries}."
    )
    much = tables.limits["learn_most_times"].likely
    _friction(lessons, much, page)
    _pairs(lessons, much, page)
    page.line()
    page.line("Cautions are those of the book, whatever was learned. Batches are planned by the book.")
    page.line("`advisor learn --forget JOB` takes a job's pushes out again.")
    page.heading("Learned from")
    for path in listed():
        page.line(str(path))
    if faults:
        complain(str(BadInput(list(faults))))
        return 2
    return 0


def _friction(lessons: Lessons, much: float, page: Page) -> None:
    page.heading("Friction")
    if not lessons.pushes:
        page.line("No push yet whose way is known: book value.")
        return
    factor = lessons.factor
    mostly = " Mostly book value." if lessons.pushes < lessons.few else ""
    page.line(
        f"{factor.value:.2f} times the book; 80 of 100 cases lie "
        f"between {factor.low:.2f} and {factor.high:.2f} (n = {lessons.pushes} pushes).{mostly}"
    )
    page.line(_use(lessons.friction_used, lessons.friction_gain, much))


def _pairs(lessons: Lessons, much: float, page: Page) -> None:
    page.heading("Techniques, chance of one try")
    if not lessons.pairs:
        page.line("No planned try yet: book values.")
        return
    rows = [
        [
            f"{pair.technique}, {turn_words(pair.way)}",
            f"{pair.passed} of {pair.tries}",
            f"{pair.book:.0%}",
            f"{pair.learned:.0%}",
            f"{pair.low:.0%} to {pair.high:.0%}",
        ]
        for pair in lessons.pairs
    ]
    page.table(["technique, fitting", "passed", "book", "learned", "80 of 100"], rows)
    for pair in lessons.pairs:
        if pair.tries < lessons.few:
            page.line(
                f"{pair.technique}, {turn_words(pair.way)}: under {lessons.few} tries, mostly book value."
            )
    page.line(_use(lessons.pairs_used, lessons.pairs_gain, much))


def _use(used: bool, gain: float, much: float) -> str:
    """Whether it is used, by how well each job is foretold from the others."""
    return (
        f"{'Used' if used else 'Not used'}. With each job foretold from the others, {_likelier(gain, much)}."
    )


def _likelier(gain: float, much: float) -> str:
    """How much likelier what happened was thought by what was learned, from the log score won.

    A log score won is the logarithm of the ratio of the two chances; beyond `much` times no figure is told.
    """
    if abs(gain) < 0.005:  # layout: it would read "1.00 times"
        return "what happened is foretold as well as by the book: no change"
    if gain > log(much):
        return f"what happened is foretold better: more than {much:.0f} times as likely as by the book"
    times = max(exp(gain), 1 / much)
    better = "better" if gain > 0 else "worse"
    return f"what happened is foretold {better}: {times:.2f} times as likely as by the book"
