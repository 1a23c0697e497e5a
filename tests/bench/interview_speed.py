"""From an answer to the next question, on the benchmark site: `python -m tests.bench.interview_speed`.

The plan of the answers is worked out anew, for what stands is its word.
Figures, not a test.
"""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter

import numpy as np

from advisor.archetype import archetypes
from advisor.interview.answers import Answer
from advisor.interview.dialogue import Session
from advisor.interview.question import DONT_KNOW, load_questions
from advisor.interview.sheets import Answers, Known
from advisor.interview.total import answers_to
from advisor.kit.loadouts import default_kit
from advisor.tables.place import rules_dir
from tests.bench.generated_site import generated_site
from tests.cases.jobs import rules, tables

ASKED = 24


def main(pieces: int = 150) -> None:
    """Answer questions about the drain one after the other, whether or not they pay, and time each."""
    known = Known(
        load_questions(rules_dir(), tables(), rules()),
        archetypes(rules_dir(), tables()),
        default_kit(tables()),
        tables(),
        rules(),
        sheet=generated_site(pieces),
    )
    session, answers = Session(known), begin()
    session.next(answers)
    # Every kind of question and both ways of answering: known, and not known.
    open_ones = [ask for ask in session.open(answers) if ask.question.block == "find out"]
    picked = open_ones[:: max(len(open_ones) // ASKED, 1)][:ASKED]
    times = []
    for number, ask in enumerate(picked):
        value = DONT_KNOW if number % 3 == 2 or not ask.options else ask.options[0].value
        start = perf_counter()
        answers = (*answers, *answers_to(ask, (value,)))
        now = session.standing(answers)
        assert now is not None
        now.words()
        session.next(answers)
        times.append(perf_counter() - start)
    ms = 1000 * np.array(times)
    print(f"{pieces} pieces, {len(open_ones)} open questions, {known.worlds} worlds, {len(times)} answers")
    print(
        f"answer to next question: median {np.median(ms):.0f} ms, "
        f"90 % {np.quantile(ms, 0.9):.0f}, most {ms.max():.0f}"
    )
    screens = Session(replace(known, sheet=generated_site(pieces)))
    times = []
    answers = ()
    while (ask := screens.next(answers)) is not None and ask.question.block == "safety":
        start = perf_counter()
        answers = (*answers, *answers_to(ask, (DONT_KNOW,)))
        screens.sheets.drain(answers)
        screens.next(answers)
        times.append(perf_counter() - start)
    print(f"safety screen: median {1000 * np.median(times):.0f} ms")


def begin() -> Answers:
    """The screens before, with nothing wrong."""
    calm = {"gas-smell": "no", "chemicals": "no", "pumps": "no", "roof": "yes", "deep": "no", "septic": "no"}
    rest = ("backs-up", "slow", "history", "fine")
    return tuple(Answer(q, "job", (calm.get(q, DONT_KNOW),)) for q in (*calm, *rest))


if __name__ == "__main__":
    main()
