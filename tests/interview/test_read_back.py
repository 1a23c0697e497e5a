"""Whatever was asked and answered in a session stands in its file and is read back, in whatever order."""

from __future__ import annotations

import random

import pytest

from advisor.interview.answers import Answer
from advisor.interview.ask import Ask
from advisor.interview.carry import still_right
from advisor.interview.question import DONT_KNOW
from advisor.interview.store import Kept, checked, read, save
from tests.interview.small_session import HOUSE, answered, session

START = {"region": "north america", "building": "basement", "built": "1962"}
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")


def said(ask: Ask, luck: random.Random) -> Answer:
    """Whatever somebody may answer; nothing that ends the session at once."""
    word = {**START, **CALM}.get(ask.question.id)
    if word is None and ask.question.type_in is not None and luck.random() < 0.5:
        word = {"length": f"{luck.randint(40, 90)} ft", "size": "4 in", "year": "1995"}[ask.question.type_in]
    if word is None and ask.question.id == "opening-there" and luck.random() < 0.6:
        word = "yes"  # else there is little more to ask
    if word is None:
        word = luck.choice([*(option.value for option in ask.options), DONT_KNOW])
    return answered(ask, word)


@pytest.mark.parametrize("house", [None, HOUSE])
@pytest.mark.parametrize("seed", [0, 1, *(pytest.param(n, marks=pytest.mark.slow) for n in (2, 3))])
def test_what_was_asked_in_any_order_reads_back(tmp_path, house, seed):
    """What is open is asked as behind "the drain is drawn wrong": in the order in which somebody likes it."""
    luck, of = random.Random(seed), session(sheet=house, ask_all=True)
    answers: tuple[Answer, ...] = ()
    for question in (*START, *CALM):
        if of.known.questions.by_id[question].block != "start" or house is None:
            answers = (*answers, said(of.ask(answers, question), luck))
    for _ in range(25):
        done = {(each.question, each.about) for each in answers}
        asks = [ask for ask in of.open(answers) if ask.key not in done]
        if not asks:
            break
        at_openings = [ask for ask in asks if "opening" in ask.subject.about]
        ask = luck.choice(at_openings or asks)
        answers = (*answers, said(ask, luck))
    assert sum("opening" in each.question for each in answers) > 1
    save(tmp_path / "answers.yaml", Kept("job", house, answers))
    _, kept = read(tmp_path / "answers.yaml")
    again = still_right(kept.answers, session(sheet=house))
    assert again.lost == ()
    assert again.answers == answers


def test_an_answer_that_fits_no_question_any_more_loses_none_of_the_others():
    """Questions change: another word, one that is not asked any more, and one about what is not drawn."""
    of, about = session(sheet=HOUSE), "house drain/opening:floor cleanout"
    unfit = (
        Answer("holding", "job", ("a word of old",)),
        Answer("no longer asked", "job", ("yes",)),
        Answer("opening-there", "house drain/opening:no such plug", ("yes",)),
        Answer("pipe-material", "wall house drain", ("a stuff of old",)),
    )
    fit = (Answer("opening-there", about, ("yes",)), Answer("gas-smell", "job", ("no",)))
    found = still_right((*unfit[:2], *fit, *unfit[2:]), of)
    assert found.answers == fit
    assert set(found.lost) == set(unfit)


def test_what_was_seen_of_an_opening_before_it_was_found_shut_stays_told(tmp_path):
    """In the order of the questions it is found shut first; a file of answers may say both as well."""
    foot = "house drain/opening:stack foot cleanout"
    answers = tuple(Answer(question, "job", (word,)) for question, word in {**START, **CALM}.items())
    answers += (
        Answer("opening-there", foot, ("yes",)),
        Answer("indoor-opening-kind", foot, ("stack-base cleanout",)),
        Answer("opening-opens", foot, ("no",)),
    )
    save(tmp_path / "answers.yaml", Kept("job", None, answers))
    of = session(ask_all=True)
    assert set(checked(read(tmp_path / "answers.yaml")[0], of)) == set(answers)
    assert still_right(answers, of).answers == answers
    # Nothing more is asked of it all the same: it is of no use.
    assert not [ask for ask in of.open(answers) if ask.subject.id == foot]
