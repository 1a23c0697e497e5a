"""What practice teaches agrees with itself: cause, reason and answer, what was seen, what earns marks."""

from __future__ import annotations

import re
from itertools import islice

import pytest

from advisor.practice import acts
from advisor.practice.acts import Act
from advisor.practice.debrief import Decision, debrief
from advisor.practice.drill import Option
from advisor.practice.drills import make
from advisor.practice.less import Less
from advisor.practice.place import how_it_ends
from advisor.practice.policies import hint, moves_ahead
from advisor.practice.signs import view
from advisor.practice.simulate import Push
from advisor.terminal.practice.drill_screen import in_all
from advisor.terminal.practice.push_screen import grade_of
from tests.cases.hazards import run, site
from tests.practice.school import MARKS, scene_of, school

pytestmark = pytest.mark.slow  # many whole houses planned and pushed through

GREASE = site(run("kind: end cleanout", "pipe: 6 m", "tank: grease tank", "pipe: 2 m"), "run")
SAG = site(run("kind: end cleanout, opens: yes", "pipe: 1 m", "belly: 6 m", "pipe: 1 m"), "run")


# -- causes -----------------------------------------------------------------------------------


def test_a_tank_that_ends_the_way_is_the_cause_that_is_told():
    study = school().studied(GREASE, "site", 1)
    ways = [outcome for outcome in study.outcomes if any(s.passage.piece.stopper for s in outcome.spots)]
    assert ways
    for outcome in ways:
        told = " ".join(how_it_ends(study, outcome))
        assert "because of the grease" in told
        assert "rim" not in told
        assert "tank" in told.split("Cause:")[1] or "baffle" in told.split("Cause:")[1]


def test_how_to_make_a_quick_push_gives_the_reason_whose_number_is_the_higher():
    """Of the two numbers that it tells, the higher is that of the cause it names."""
    seen = set()
    for study in islice(school().sites(3), 3):
        for spot in (spot for outcome in study.outcomes for spot in outcome.spots):
            for ruling in spot.rulings:
                for firing in ruling.firings:
                    if not firing.outcome or "quick push" not in firing.rule.conclusion.steps:
                        continue
                    wall, rod = (
                        float(ruling.facts[f"passage.{name}"] or 0.0)  # type: ignore[arg-type]
                        for name in ("runs_at_far_wall", "rod_end_sticks")
                    )
                    by_wall = "leans on the wall" in firing.rule.mechanism
                    by_rod = "rod end round" in firing.rule.mechanism
                    assert by_wall != by_rod
                    assert by_rod == (rod > wall), (wall, rod, firing.because)
                    named = "a stuck rod end" if by_rod else "a stop at the far wall"
                    assert firing.because.startswith(f"If it holds here, {named} is ")
                    seen.add(by_rod)
    assert seen == {True, False}


# -- techniques -------------------------------------------------------------------------------


def _tries(option: Option) -> list[int]:
    """Of 100 tries of each of two those that pass; one in words is a single one, or none."""
    told = next(line for line in option.why if line.startswith("A try of "))
    shares = re.findall(r"(\d+) times in 100|(once) in 100", told)
    assert len(shares) == told.count(" in 100")
    return [int(number or 1) for number, _ in shares]


@pytest.mark.parametrize("seed", [1, 2, 500_000])
def test_a_technique_that_wins_nothing_is_no_part_of_an_answer(seed):
    """Three in a hundred is what the plan calls worth trying; told in whole per cent."""
    ask = make("technique", school(), seed, "").asks[0]
    assert min(_tries(ask.best)) >= 3, ask.best


@pytest.mark.parametrize("seed", [1, 2, 500_000])
def test_no_technique_helps_that_does_nothing_against_the_cause_that_is_told(seed):
    """By the matrix a string turns the head, not the rod end: where that holds, it is not asked for."""
    drill = make("technique", school(), seed, "")
    cannot = drill.asks[1].best
    if "stiff end of the rod" in " ".join(cannot.why):
        others = [o.words for ask in drill.asks for o in ask.options if o is not cannot]
        assert not [words for words in others if "string" in words]


# -- signs ------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", [1, 2, 3, 5, 7])
def test_what_is_run_is_what_was_best_run_and_the_cause_is_of_what_was_seen(seed):
    drill = make("signs", school(), seed, "")
    first, second = drill.asks[:2]
    assert second.question.startswith(f"Say {first.best.words.removeprefix('run ')} is run")
    seen = next(
        words
        for sign, words in (
            ("no water comes", "none of it comes by"),
            ("water comes toward you", "comes toward a lens"),
            ("water comes past you", "overtakes a lens"),
        )
        if sign in second.question
    )
    assert all(seen in option.why[0] for option in second.options)
    assert sum(seen_of(option) in second.question for option in second.options[:]) >= 1


def seen_of(option: Option) -> str:
    """The sign that would have been seen had the head gone the way of the choice."""
    return (
        next(line for line in option.why if line.startswith("Had the head gone")).split(": ")[1].rstrip(".")
    )


# -- marks of a simulated push ----------------------------------------------------------------


def _at_stops():
    """A push and each state at a stop that a plan knows."""
    for seed in range(30):
        _, push = scene_of(seed)
        for way in push.ways()[:6]:
            state = push.act(push.start, Act(acts.OPEN, way))
            for _ in range(6):
                if state.way is None or state.ended:
                    break
                if state.shown == state.index:
                    yield push, state
                state = push.act(state, Act(acts.SLOW))


def _judged(push, state, act: Act, hints: int = 0) -> Decision | None:
    after = push.act(state, act)
    made = [d for d in debrief(push, after, {len(state.steps): hints}) if d.graded]
    without = [d for d in debrief(push, state) if d.graded]
    return made[-1] if len(made) > len(without) else None


def test_a_firm_push_with_the_lens_under_water_never_passes():
    push = Push(school().studied(SAG, "site", 1), 0)
    (way,) = (way for way in push.ways() if way[1] == "small reel")
    state = push.act(push.start, Act(acts.OPEN, way))
    while view(push.truth, state) != "water" or state.shown != state.index:
        state = push.act(state, Act(acts.SLOW))
    made = _judged(push, state, Act(acts.FIRM, expects=acts.SLACK))
    assert made is not None
    assert made.unsafe is not None
    assert made.unsafe.id == "wedged-head"
    assert grade_of([made], MARKS).credit == 0
    assert any("under water" in line or "Slowly" in line for line in made.why)
    slow = _judged(push, state, Act(acts.SLOW))
    assert slow is None or slow.unsafe is None


def _where_a_stroke_alone_takes_fewer_minutes():
    """And the best begins gently all the same."""
    for seed in (10, 12):
        study, _ = scene_of(seed)
        for outcome in study.settled.attempts:
            push = Push(study, 0)
            state = push.act(push.start, Act(acts.OPEN, (outcome.route.id, outcome.loadout.name)))
            if state.way is None or state.ended:
                continue  # it does not open
            state = push.act(state, Act(acts.SLOW))
            while Act(acts.CLOSER) in push.legal(state):
                state = push.act(state, Act(acts.CLOSER))
            moves = moves_ahead(push, state)
            quickest = min(moves.moves, key=lambda move: move.minutes).name if moves else ""
            if moves and (quickest, moves.best.name) == ("quick push", "steady push"):
                yield push, state


def test_a_first_gentle_push_costs_nothing_where_the_place_is_worth_a_try():
    """The plan always begins a hard spot with one, and practice that marks it down would teach to strike."""
    met = 0
    for push, state in _where_a_stroke_alone_takes_fewer_minutes():
        assert hint(push, state).kind == acts.SLOW
        gentle, struck = (_judged(push, state, Act(kind)) for kind in (acts.SLOW, acts.QUICK))
        assert gentle is not None
        assert struck is not None
        assert (gentle.regret, struck.regret) == (0, 0)
        held = push.act(state, Act(acts.SLOW))
        after = moves_ahead(push, held) if held.index == state.index else None
        if after is not None:  # it was the first that came before what takes fewer minutes, and no later one
            met += 1
            assert after.best == min(after.moves, key=lambda move: move.minutes)
    assert met


def test_force_where_a_gentle_push_is_the_best_earns_half():
    for push, state in _at_stops():
        moves = moves_ahead(push, state)
        if moves is None or moves.best.name != "steady push" or view(push.truth, state) == "water":
            continue
        firm = next(
            made
            for feel in acts.FEELS
            if (made := _judged(push, state, Act(acts.FIRM, expects=feel))) and not _felt(made)
        )
        assert grade_of([firm], MARKS).credit == pytest.approx(0.5)
        gentle = _judged(push, state, Act(acts.SLOW))
        assert gentle is not None
        assert grade_of([gentle], MARKS).credit == 1
        return
    raise AssertionError("no such stop")


def _felt(made: Decision) -> bool:
    return any("expected it to feel" in less.words for less in made.less)


@pytest.mark.parametrize(("hints", "credit"), [(0, 1.0), (1, 0.75), (2, 0.5), (3, 0.5)])
def test_hints_count(hints, credit):
    """A quarter less for being told where to look, half for being told what to do: then it is not passed."""
    for push, state in _at_stops():
        moves = moves_ahead(push, state)
        if moves is not None and moves.best.name == "steady push":
            made = _judged(push, state, Act(acts.SLOW), hints)
            assert made is not None
            assert grade_of([made], MARKS).credit == pytest.approx(credit)
            return
    raise AssertionError("no such stop")


def test_a_wrong_expectation_counts_and_a_right_one_does_not():
    for push, state in _at_stops():
        after = push.act(state, Act(acts.FIRM, expects=acts.SLACK))
        if after.steps[-1].passed or after.ended or moves_ahead(push, state) is None:
            continue
        felt = after.steps[-1].seen.feel
        for feel in acts.FEELS:
            made = _judged(push, state, Act(acts.FIRM, expects=feel))
            assert made is not None
            assert _felt(made) is (feel != felt)
        return
    raise AssertionError("no such stop")


def test_the_marks_say_what_they_are_less_for():
    # By hand: of two decisions one earns three quarters: 7/8 of the whole.
    full = Decision("there", "did it", 0.0, 0.0, "it", ())
    helped = Decision(
        "there", "did it", 0.0, 0.0, "it", (), less=(Less(0.25, "you were told where to look"),)
    )
    graded = grade_of([full, helped], MARKS)
    assert graded.credit == pytest.approx(0.875)
    assert in_all(graded, MARKS) == (
        "In all: none is better, but you were told where to look; 88% of full marks, passed."
    )
