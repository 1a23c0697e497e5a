"""Questions by their worth against the fixed order: `python -m tests.bench.interview_order [HOUSES]`.

Each plausible house has one hidden truth: a world of the plan made from what is known at the door. Whoever is
asked knows it. Told are the share of houses in which the session by worth ends with the first way that all
questions together lead to, and how many questions about the drain it put. Figures, not a test.
"""

from __future__ import annotations

import sys
from statistics import median

from advisor.archetype import archetypes, plausible_site
from advisor.interview.answers import DONT_KNOW, Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.question import load_questions
from advisor.interview.sheets import Answers, Known
from advisor.interview.subject import answer_in
from advisor.kit.loadouts import default_kit
from advisor.result.study import Study
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables

WORLDS = 400
MOST = 60  # questions of one session


def truth(ask: Ask, study: Study, world: int) -> Answer:
    """What somebody who has seen the whole drain would say."""
    found = answer_in(ask.subject, ask.quantity, study) if ask.quantity else None
    if found is None:
        return Answer(*ask.key, (DONT_KNOW,))
    names, groups = found
    if ask.quantity == "length":
        metres = float(study.drawn.length(study.network.pieces[ask.subject.id])[world])
        return Answer(*ask.key, (f"{metres:.2f} m",))
    value = names[int(groups[world])]
    if value not in {option.value for option in ask.options}:
        return Answer(*ask.key, (DONT_KNOW,))
    return Answer(*ask.key, (value,))


def leader(session: Session, answers: Answers) -> str | None:
    """The opening of the first way once everything that was said is worked through."""
    study = session.study(answers)
    return study.ranked[0].outcome.route.opening.id if study and study.ranked else None


def put(session: Session, study: Study, world: int) -> tuple[Answers, int]:
    """Answer what the session asks until it has enough; and how many questions were about the drain."""
    answers: Answers = ()
    asked = 0
    for _ in range(MOST):
        ask = session.next(answers)
        if ask is None:
            break
        asked += ask.question.block in ("find out", "rest")
        answers = (*answers, truth(ask, study, world))
    return answers, asked


def main(houses: int) -> None:
    """Print the figures."""
    kinds = archetypes(rules_dir(), tables())
    questions = load_questions(rules_dir(), tables(), rules())
    same, by_worth, fixed = 0, [], []
    counted = 0
    for seed in range(houses):
        text = plausible_site(seed, kinds, tables())
        known = Known(questions, kinds, default_kit(tables()), tables(), rules(), sheet=text, worlds=WORLDS)
        session = Session(known)
        study = session.study(())
        if study is None or len(study.ranked) < 2 or session.over(()):
            continue
        counted += 1
        world = seed % WORLDS
        answers, asked = put(session, study, world)
        whole = [truth(ask, study, world) for ask in session.open(()) if ask.question.block == "find out"]
        want = leader(session, tuple(whole))
        same += leader(session, answers) == want
        by_worth.append(asked)
        fixed.append(len(whole))
    print(f"{counted} houses that leave a choice, {WORLDS} worlds")
    print(f"ends with the first way of all questions: {same / counted:.1%} (aim 95 %)")
    print(f"questions about the drain by worth: median {median(by_worth)}, most {max(by_worth)} (aim 8)")
    print(f"in the fixed order, all of them: median {median(fixed)}, most {max(fixed)}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
