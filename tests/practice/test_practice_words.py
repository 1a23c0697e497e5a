"""What helps a beginner at a drill: the drain drawn, the trade words explained, a caution by its own word."""

from __future__ import annotations

from itertools import islice

import pytest

from advisor.practice.drill import Ask, Option, harmful
from advisor.practice.drills import KINDS, make
from advisor.practice.glossary import words_in
from advisor.practice.place import in_a_hundred
from advisor.practice.teach import explained, worked
from advisor.rulebase.rule import Caution
from tests.cases.jobs import tables
from tests.practice.school import MARKS, school

pytestmark = pytest.mark.slow  # many whole houses planned and pushed through


def test_every_fitting_and_opening_has_a_meaning_of_one_short_breath():
    named = tables()
    kinds = {*named.junctions, *named.bends, *named.openings}
    assert kinds <= set(named.meanings)
    # Sentences of at most 15 words: the average that the Australian Style Manual asks for.
    for meaning in named.meanings.values():
        assert all(len(sentence.split()) <= 15 for sentence in meaning.split(". ")), meaning


@pytest.mark.parametrize("kind", KINDS)
def test_the_techniques_that_a_drill_speaks_of_are_explained(kind):
    drill = make(kind, school(), 3)
    told = dict(drill.words)
    said = " ".join(option.words for ask in drill.asks for option in ask.options)
    for name, meaning in school().base.matrix.techniques.items():
        if name in said:
            assert told[name] == meaning


def test_a_word_is_found_as_a_word_and_in_the_plural():
    study = next(iter(school().sites(3)))
    assert "guide" in dict(words_in(study, "two guides"))
    assert "guide" not in dict(words_in(study, "it misguided us"))
    assert "string" not in dict(words_in(study, "a stringy root"))


@pytest.mark.parametrize("kind", KINDS)
def test_the_drain_of_a_drill_can_be_drawn_on_a_narrow_screen(kind):
    rows = make(kind, school(), 3).drain.rows(36)
    assert rows
    assert all(len(row) <= 36 for row in rows)


def test_gear_and_people_are_told_apart():
    """ANSI Z535.4: a notice is for damage without injury."""
    options = [Option("gently", 0.0, why=("It passes.",)), Option("not at all", 5.0, why=("It stays.",))]
    for word, says in (("notice", "That can cost you the head."), ("warning", "That can hurt somebody.")):
        bad = harmful("hard", "It wedges.", Caution("x", word, "Never."), options)
        ask = Ask("How?", (*options, bad), "")
        assert explained(ask, bad, MARKS)[0].startswith(f"{says} It fails")
        assert f"Not hard: {says}" in worked(ask, MARKS)


def test_what_comes_next_lies_past_the_counter_and_clear_of_what_was_seen():
    every = (make("signs", school(), seed) for seed in range(1, 9))
    asking = list(islice((drill for drill in every if len(drill.asks) >= 3), 3))
    assert asking
    for drill in asking:
        counter = float(next(r for r in drill.story if r.startswith("The counter")).split()[3])
        words = [option.words for option in drill.asks[2].options]
        assert len(set(words)) == len(words), "two choices alike are no question"
        told = float(drill.asks[2].best.words.partition("by the map at about ")[2].split()[0])
        # The hidden lengths differ from the likely ones by what the map leaves open.
        assert told > 0.7 * counter
    assert max(row.spread.value for row in tables().where.seen.values()) < tables().limits["drill_gap"].likely


@pytest.mark.parametrize("kind", KINDS)
def test_the_best_answer_costs_nothing_against_itself(kind):
    """Right answers and `10 min over the best` together taught nobody anything."""
    for seed in (2, 3, 5):
        for ask in make(kind, school(), seed).asks:
            assert ask.best.regret == pytest.approx(0, abs=1e-6)


def test_as_good_as_the_best_is_said_with_what_lies_between():
    best, alike = Option("one", 0.0, why=("It passes.",)), Option("two", 4.0, doubt=9.0, why=("It too.",))
    ask = Ask("How?", (best, alike, Option("three", 40.0, why=("It ends most often because.",))), "")
    assert explained(ask, alike, MARKS)[0] == "As good as the best, as far as can be told (4 min apart)."
    assert "As good, as far as can be told (4 min apart): two." in worked(ask, MARKS)
    assert "Not three: it costs, on average, 40 min more. It ends most often because." in worked(ask, MARKS)


def test_which_cannot_work_is_answered_as_asked_and_recommends_nothing():
    """`Best: water.` under `Which of these cannot work here?` read as advice to use water."""
    ask = make("technique", school(), 2).asks[1]
    assert ask.question == "Which of these cannot work here?"
    wrong = max(ask.options, key=lambda option: option.regret)
    told = explained(ask, wrong, MARKS)
    assert told[0].startswith(f"Yours ({wrong.words}) can work here: to give it up costs, on average,")
    assert f"What cannot work here: {ask.best.words}." in told
    assert not [line for line in told if line.startswith("Best")]
    assert [line for line in worked(ask, MARKS) if line.startswith(f"Not {wrong.words}: it can work here:")]


def test_nothing_is_told_to_pass_always_or_never():
    told = [in_a_hundred(share) for share in (0.0, 0.001, 0.01, 0.994, 0.999, 1.0)]
    assert told == [
        "less than once in 100", "less than once in 100", "once in 100",
        "99 times in 100", "more than 99 times in 100", "100 times in 100",
    ]  # fmt: skip


def test_no_try_of_an_order_is_told_as_nothing():
    """`water: 0% a try` was told where the push with it passes as the push alone does."""
    told = [line for option in make("technique", school(), 2).asks[0].options for line in option.why]
    shares = [line for line in told if line.startswith("A try of ")]
    assert any("less than once in 100" in line for line in shares)
    assert not [line for line in told if " 0%" in line]
