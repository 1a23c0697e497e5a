"""Nobody paces from an opening that nobody has looked for: whether it is there is asked first, then how far.

The house is a technician's: on a slab, the length between yard cleanout and sewer was worth most, and was
asked for before anybody had looked for the cleanout (common practice, no source: one paces from what one
stands at).
"""

from __future__ import annotations

from functools import cache

from advisor.archetype import typical
from advisor.interview import dialogue
from advisor.interview.answers import Answer
from advisor.interview.openings import found_first
from tests.interview.small_session import known, session

CLEANOUT = "house drain/opening:yard cleanout"
TO_SEWER = ("run", "house drain/after yard cleanout/pipe 1")
THERE = ("opening-there", CLEANOUT)
CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "roof", "deep", "septic"), "no")
SAID = tuple(Answer(name, "job", (word,)) for name, word in CALM.items())


@cache
def slab():
    return session(sheet=typical(next(b for b in known().buildings if b.id == "slab-one-storey"), 1973))


def test_a_length_from_an_opening_in_doubt_waits_until_somebody_has_looked_for_it():
    asks = {ask.key: ask for ask in slab().open(SAID)}
    assert found_first(asks[TO_SEWER], list(asks.values())).key == THERE
    beyond = asks["run", "house drain/after bathroom stack/pipe 1"]
    assert found_first(beyond, list(asks.values())) is beyond, "it lies between what is not in doubt"


def test_once_it_is_found_its_length_is_asked_for():
    asks = {ask.key: ask for ask in slab().open((*SAID, Answer(*THERE, ("yes",))))}
    left = [ask for key, ask in asks.items() if key != THERE]
    assert found_first(asks[TO_SEWER], left) is asks[TO_SEWER]


def test_the_session_puts_it_first_whatever_the_length_is_worth(monkeypatch):
    of = slab()
    monkeypatch.setattr(dialogue, "next_at_openings", lambda asks, study: None)
    for put in ("next_to_ask", "more_to_ask"):
        monkeypatch.setattr(dialogue, put, lambda asks, now: next(a for a in asks if a.key == TO_SEWER))
    answers = SAID
    while (ask := of.next(answers)) is not None and ask.question.block != "find out":
        answers = (*answers, Answer(*ask.key, ("none of these" if ask.many else "don't know",)))
    assert ask.key == THERE
    assert of.more(answers).key == THERE
