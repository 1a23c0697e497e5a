"""Drills of every kind: made the same twice, each with a best answer, what can hurt somebody always fails."""

from __future__ import annotations

from itertools import islice

import pytest

from advisor.practice.drill import grade
from advisor.practice.drills import KINDS, make, opening, technique
from advisor.practice.scene import SIGNS, drains, open_to_push, pick
from tests.practice.school import MARKS, school

pytestmark = pytest.mark.slow  # many whole houses planned and pushed through


@pytest.mark.parametrize("kind", KINDS)
def test_a_drill_has_a_best_answer_a_worse_one_and_reasons(kind):
    drill = make(kind, school(), 3)
    assert drill == make(kind, school(), 3)
    best = tuple(ask.options.index(ask.best) for ask in drill.asks)
    assert grade(drill, best, MARKS).credit == 1
    assert grade(drill, best, MARKS).regret == pytest.approx(0, abs=1e-6)
    for ask in drill.asks:
        assert len(ask.options) >= 3
        assert len({option.words for option in ask.options}) == len(ask.options)
        assert all(option.why for option in ask.options if option is not ask.best)
        assert min(option.regret for option in ask.options) >= -1e-6


@pytest.mark.parametrize("kind", ["technique", "hands", "signs", "stop"])
def test_what_can_hurt_somebody_fails_with_its_caution(kind):
    drill = make(kind, school(), 3)
    for number, ask in enumerate(drill.asks):
        for index, option in enumerate(ask.options):
            if not option.unsafe:
                continue
            answers = [each.options.index(each.best) for each in drill.asks]
            answers[number] = index
            graded = grade(drill, tuple(answers), MARKS)
            assert graded.credit == 0
            assert not MARKS.passed(graded.credit, bool(graded.unsafe))
            assert graded.unsafe == (option.unsafe,)
            break
    assert any(option.unsafe for ask in drill.asks for option in ask.options)


@pytest.mark.parametrize("kind", ["stop", "hands"])
def test_nobody_is_in_a_line_that_was_not_seen_to_drain(kind):
    """As beside the opening, where nothing is begun before; of seed 5 the first house is such a line."""
    drill = make(kind, school(), 5)
    assert "The line drains." in " ".join(drill.story)


@pytest.mark.parametrize("sign", SIGNS)
def test_where_no_camera_goes_in_every_opening_is_unsafe(sign):
    study = next(s for s in school().sites(3) if open_to_push(s) and len(opening.ways_in(s)) > 1)
    options = opening.of_site(school().forbidden(study, sign), 3).asks[0].options
    safe = [option for option in options if not option.unsafe]
    assert [option.regret for option in safe] == [0]
    assert safe[0].words.startswith("none yet")
    assert len(options) > 2


@pytest.mark.parametrize(
    ("sign", "told", "first"),
    [
        ("holding", "Nobody has seen whether it drains", "see that the line is not holding"),
        ("chemicals", "Nobody has asked whether a drain cleaner", "ask everybody whether a drain cleaner"),
        ("gas smell", "Nobody has smelled for gas", "smell at the door"),
    ],
)
def test_not_known_is_not_no(sign, told, first):
    """As the plan has it: first smell, ask, look; hands off until then (docs/safety.md)."""
    study = next(s for s in school().sites(3, drains) if open_to_push(s) and len(opening.ways_in(s)) > 1)
    drill = opening.of_site(school().forbidden(study, sign, "unknown"), 3)
    assert told in " ".join(drill.story)
    options = drill.asks[0].options
    safe = [option for option in options if not option.unsafe]
    assert [option.regret for option in safe] == [0]
    assert safe[0].words.startswith("none yet")
    assert "Not known is not no" in safe[0].why[0]
    assert first in safe[0].why[0]


def test_a_drill_in_which_a_push_is_right_tells_that_nothing_forbids_it():
    seed = next(seed for seed in range(99) if pick(seed, "verdict", opening.WITH_VERDICT) != 0)
    drill = make("opening", school(), seed)
    assert not drill.asks[0].best.words.startswith("none yet")
    told = " ".join(drill.story)
    for known in ("No smell of gas.", "nobody poured in a drain cleaner", "The line drains."):
        assert known in told


def test_one_opening_drill_in_five_is_of_a_site_where_nobody_pushes():
    share = sum(pick(seed, "verdict", opening.WITH_VERDICT) == 0 for seed in range(1000)) / 1000
    assert share == pytest.approx(1 / 5, abs=0.05)


# A drill of techniques plans several houses: with the slow checks.
VARIED = [pytest.param("technique", marks=pytest.mark.slow), "stop", "bring", "fitting", "signs"]


@pytest.mark.parametrize("kind", VARIED)
def test_the_next_drill_of_a_kind_is_about_another_thing(kind):
    first = make(kind, school(), 3)
    assert make(kind, school(), 3, first.about).about != first.about


@pytest.mark.parametrize("kind", VARIED)
def test_where_there_is_nothing_else_the_same_is_asked_again(kind, monkeypatch):
    """One house at a time: where it holds one thing only, that is asked about however often it was."""
    houses = [study for study in islice(school().sites(3), 12) if open_to_push(study)]
    for house in houses:
        monkeypatch.setattr(type(school()), "sites", lambda *_, only=house: iter([only]), raising=False)
        try:
            first = make(kind, school(), 3)
        except AssertionError:
            continue  # nothing of the kind in this house
        if make(kind, school(), 3, first.about) == first:
            return
    pytest.fail("no house in which there is one thing of the kind only")


def test_each_question_wants_its_answer():
    drill = make("technique", school(), 3)
    with pytest.raises(ValueError, match=f"0 answers to {len(drill.asks)} questions"):
        grade(drill, (), MARKS)


def test_a_drill_about_an_opening_may_be_of_a_site_where_nobody_pushes():
    seed = next(seed for seed in range(99) if pick(seed, "verdict", opening.WITH_VERDICT) == 0)
    asked = make("opening", school(), seed).asks[0]
    assert asked.best.words.startswith("none yet")
    assert asked.hint == "Read what is told of the line before you look at the openings."


def test_what_works_is_not_explained_by_the_rule_that_rejects_it_elsewhere():
    """A fitting that may be two things: what is ruled out in one of them is still told by what it does."""
    told = 0
    for study in islice(school().sites(3), 12):
        for outcome in study.settled.attempts:
            for spot in outcome.spots:
                for name in spot.tries:
                    mean = float(spot.chance(name).mean())
                    rejected = [r.rejected[name] for r in spot.rulings if name in r.rejected]
                    lines = technique.why(spot, study, name)
                    if mean > study.drawn.likely("worth_trying") and rejected:
                        told += 1
                        assert f"Cause: {rejected[0].rule.mechanism}" not in lines
                    elif rejected and len(rejected) == len(spot.rulings):
                        assert any(f"Cause: {f.rule.mechanism}" in lines for f in rejected)
    assert told


@pytest.mark.parametrize("seed", [1, 3, 5])
def test_leaving_is_no_try_that_passes_or_not(seed):
    (ask,) = make("stop", school(), seed).asks
    leave = next(option for option in ask.options if option.words.startswith("stop:"))
    assert not [line for line in leave.why if line.startswith("After what failed it passes")]
