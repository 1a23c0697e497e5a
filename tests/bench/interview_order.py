"""Questions by their worth against all of them: `python -m tests.bench.interview_order [HOUSES]`.

Each plausible house has one hidden truth: a world of the plan made from what is known at the door. Whoever is
asked knows it; whether there is a safe way onto the roof is drawn besides, and other safety questions are
answered by don't know. Told are the share of houses in which the session by worth ends with the decision that
the whole interview leads to (the opening that comes first, or leaving it where none is worth opening), how
many questions about the drain were answered, and the minutes lost where it differs. Figures, not a test.
"""

from __future__ import annotations

import random
import sys
from dataclasses import dataclass, replace
from statistics import mean, median

from advisor.archetype import archetypes, plausible_site
from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.dialogue import Session
from advisor.interview.leading import Standing, standing
from advisor.interview.question import DONT_KNOW, load_questions
from advisor.interview.sheets import Answers, Known
from advisor.interview.subject import answer_in
from advisor.interview.total import answers_to
from advisor.kit.loadouts import default_kit
from advisor.result.study import Study
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables

WORLDS = 400
LEFT = "left undone"


@dataclass(frozen=True)
class House:
    """What came of one house: questions about the drain, and whether the decision is that of all answers."""

    seed: int
    by_worth: int
    all_of_them: int
    same: bool
    unasked_same: bool
    minutes_lost: float


def truth(ask: Ask, study: Study, world: int, roof: str) -> Answer:
    """What somebody who has seen the whole drain would say."""
    if ask.question.id == "roof":
        return Answer(*ask.key, (roof,))
    found = answer_in(ask.subject, ask.quantity, study) if ask.quantity else None
    if found is None:
        return Answer(*ask.key, (DONT_KNOW,))
    names, groups = found
    if ask.quantity == "length":
        # Of a stretch of several pipes all that lies between, with what is told of it already.
        open_ = sum(float(study.drawn.length(piece)[world]) for piece in ask.subject.pieces)
        metres = open_ + ask.subject.told
        return Answer(*ask.key, (f"{metres:.2f} m",))
    value = names[int(groups[world])]
    known = value in {option.value for option in ask.options}
    return Answer(*ask.key, (value if known else DONT_KNOW,))


def put(session: Session, study: Study, world: int, roof: str) -> tuple[Answers, int]:
    """Answer what the session asks until it has enough; and how many questions were about the drain."""
    answers: Answers = ()
    asked = 0
    while (ask := session.next(answers)) is not None:
        answer = truth(ask, study, world, roof)
        asked += ask.question.block == "find out" or (ask.question.block == "rest" and answer.known)
        answers = (*answers, *answers_to(ask, answer.values))
    return answers, asked


def decided(now: Standing) -> str:
    """The opening of the decision with the least expected minutes."""
    ways = now.study.ranked
    return ways[now.leader].outcome.route.opening.id if now.leader < len(ways) else LEFT


def lost(chosen: str, whole: Standing) -> float:
    """Minutes lost by a decision, by the plan that knows every answer."""
    means = whole.costs.mean(axis=1)
    named = [*(r.outcome.route.opening.id for r in whole.study.ranked), LEFT]
    # An opening to which no way leads any more costs what leaving it costs, and the time to find that out.
    return float(
        min((m for m, name in zip(means, named, strict=True) if name == chosen), default=means[-1])
    ) - float(means.min())


def house(seed: int, known: Known) -> House | None:
    """One house; nothing where it leaves no choice."""
    session = Session(known)
    study = session.study(())
    if study is None or len(study.ranked) < 2 or session.over(()):
        return None
    world, roof = seed % WORLDS, random.Random(seed).choice(["yes", "no"])
    answers, by_worth = put(session, study, world, roof)
    every, all_of_them = put(Session(replace(known, ask_all=True)), study, world, roof)
    whole = standing(session.study(every))
    door = tuple(a for a in every if known.questions.by_id[a.question].block not in ("find out", "rest"))
    chosen, unasked = (decided(standing(session.study(said))) for said in (answers, door))
    want = decided(whole)
    return House(seed, by_worth, all_of_them, chosen == want, unasked == want, lost(chosen, whole))


def main(houses: int) -> None:
    """Print the figures."""
    kinds = archetypes(rules_dir(), tables())
    questions = load_questions(rules_dir(), tables(), rules())
    found = []
    for seed in range(houses):
        text = plausible_site(seed, kinds, tables())
        known = Known(questions, kinds, default_kit(tables()), tables(), rules(), sheet=text, worlds=WORLDS)
        one = house(seed, known)
        if one is not None:
            found.append(one)
    by_worth = sorted(each.by_worth for each in found)
    print(f"{len(found)} houses that leave a choice, {WORLDS} worlds")
    print(f"ends with the decision of all answers: {mean(h.same for h in found):.1%} (aim 95 %)")
    print(f"the same with no question about the drain: {mean(h.unasked_same for h in found):.1%}")
    print(
        f"questions about the drain by worth: median {median(by_worth)}, "
        f"nine of ten at most {by_worth[int(0.9 * len(by_worth))]}, most {by_worth[-1]} (aim: median 8)"
    )
    print(f"in the fixed order, all of them: median {median(h.all_of_them for h in found)}")
    print(f"minutes lost by the decision, mean: {mean(h.minutes_lost for h in found):.2f}")
    print(f"houses that differ: {[h.seed for h in found if not h.same]}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
