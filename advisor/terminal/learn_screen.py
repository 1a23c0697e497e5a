"""What pushes have taught, on the screen: each figure with how many tries stand behind it."""

from __future__ import annotations

import sys
from math import exp, log
from pathlib import Path

from advisor.errors import BadInput
from advisor.push.learn import FEW, Lessons
from advisor.push.taught_jobs import lessons_now, listed
from advisor.push.turn_words import turn_words
from advisor.rulebase.load import load_rules
from advisor.tables.load import load_tables
from advisor.terminal.page import Page

_MUCH = 100  # times: beyond this a figure says no more


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
    _friction(lessons, page)
    _pairs(lessons, page)
    page.line()
    page.line("Cautions are those of the book, whatever was learned. Batches are planned by the book.")
    page.line("`advisor learn --forget JOB` takes a job's pushes out again.")
    page.heading("Learned from")
    for path in listed():
        page.line(str(path))
    if faults:
        print(BadInput(list(faults)), file=sys.stderr)
        return 2
    return 0


def _friction(lessons: Lessons, page: Page) -> None:
    page.heading("Friction")
    if not lessons.pushes:
        page.line("No push yet whose way is known: book value.")
        return
    factor = lessons.factor
    mostly = " Mostly book value." if lessons.pushes < FEW else ""
    page.line(
        f"{factor.value:.2f} times the book; 80 of 100 cases lie "
        f"between {factor.low:.2f} and {factor.high:.2f} (n = {lessons.pushes} pushes).{mostly}"
    )
    page.line(_use(lessons.friction_used, lessons.friction_gain))


def _pairs(lessons: Lessons, page: Page) -> None:
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
        if pair.tries < FEW:
            page.line(f"{pair.technique}, {turn_words(pair.way)}: under {FEW} tries, mostly book value.")
    page.line(_use(lessons.pairs_used, lessons.pairs_gain))


def _use(used: bool, gain: float) -> str:
    """Whether it is used, by how well each job is foretold from the others."""
    return f"{'Used' if used else 'Not used'}. With each job foretold from the others, {_likelier(gain)}."


def _likelier(gain: float) -> str:
    """How much likelier what happened was thought by what was learned, from the log score won.

    A log score won is the logarithm of the ratio of the two chances.
    """
    if abs(gain) < 0.005:
        return "what happened is foretold as well as by the book: no change"
    if gain > log(_MUCH):
        return f"what happened is foretold better: more than {_MUCH} times as likely as by the book"
    times = max(exp(gain), 1 / _MUCH)
    better = "better" if gain > 0 else "worse"
    return f"what happened is foretold {better}: {times:.2f} times as likely as by the book"
