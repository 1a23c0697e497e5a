"""The simulated push key by key: what is typed is what is done, and what was done is told."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.practice import acts
from advisor.practice.acts import Act, State
from advisor.practice.drill import Grade
from advisor.practice.policies import hint
from advisor.practice.simulate import Push
from advisor.practice.skill import ALONE, HINTS
from advisor.terminal.page import Page
from advisor.terminal.practice.drill_screen import Left
from advisor.terminal.practice.push_screen import _KEYS, _LETTERS, run_push
from tests.practice.rivals import always_push, play
from tests.practice.school import scene_of
from tests.practice.test_push_by_luck import lucky
from tests.terminal.test_choose import typed

FEEL_KEYS = {acts.SPRINGY: "1", acts.DEAD: "2", acts.GRITTY: "3", acts.SLACK: "4"}


def keys_of(push: Push, state: State, act: Act) -> str:
    """What is pressed for one action."""
    if act.kind == acts.GIVE_UP:
        return "0"
    if act.way is not None:
        ways = [each.way for each in push.legal(state) if each.way is not None]
        routes = list(dict.fromkeys(way[0] for way in ways))
        same = [way for way in ways if way[0] == act.way[0]]
        return _LETTERS[routes.index(act.way[0])] + _LETTERS[same.index(act.way)]
    key = next(key for key, kind, _ in _KEYS if kind == act.kind)
    if act.kind == acts.WATER:
        fixtures = [each.fixture for each in push.legal(state) if each.kind == acts.WATER]
        return key + _LETTERS[fixtures.index(act.fixture)]
    return key + (FEEL_KEYS[act.expects] if act.expects else "")


def all_keys(push: Push, end: State, before: str = "") -> str:
    """A whole push, with the same keys before each of its actions."""
    keys, state = "", push.start
    for step in end.steps:
        keys += before + keys_of(push, state, step.act)
        state = push.act(state, step.act)
    return keys


@pytest.fixture
def run(capsys):
    def told(push: Push, keys: str, step: str = HINTS) -> tuple[str, Grade]:
        capsys.readouterr()
        with typed(keys + "m"):  # where the debrief is long, all of it
            graded = run_push(push, step, Page())
        return " ".join(capsys.readouterr().out.split()), graded

    return told


@pytest.mark.parametrize("seed", [1, 3, 4])
def test_who_follows_every_hint_does_as_well_as_can_be(seed, run):
    """Each hint names the action that follows it, and the debrief has nothing against any of them."""
    _, push = scene_of(seed)
    end = play(push, hint)
    said, graded = run(push, all_keys(push, end, before="hh"))
    hints = [each.split(" > ")[0] for each in said.split("Hint: ")[1:]]
    assert len(hints) == 2 * len(end.steps)
    for look, words, step in zip(hints[::2], hints[1::2], end.steps, strict=True):
        look = look.split(" Where do you go in?")[0].split(" What do you do?")[0]
        # The first says where to look and gives nothing away: no key's words, no opening, no chance.
        assert not any(told.split(":")[0].split(" (")[0] in look for _, _, told in _KEYS if told != "look")
        assert not any(place.name in look for place in push.study.network.openings())
        assert "in 100" not in look
        act = step.act
        if act.way is not None:
            way = push.truth.believed(act.way)
            assert words.startswith(f"{way.route.opening.name}, with {way.loadout.name}.")
        elif act.kind == acts.GIVE_UP:
            assert words.startswith("give up.")
            assert "What is left costs more minutes, on average, than leaving the job undone." in words
        else:
            assert words.startswith(next(told for _, kind, told in _KEYS if kind == act.kind))
        assert ("The free rod bows" in words) == (act.kind == acts.CLOSER)
    assert "Yours costs" not in said
    assert graded.credit == pytest.approx(0.5), "as good as can be, and told each time what to do"
    assert "you were told what to do" in said


def test_the_hint_where_it_is_held_gives_its_chance_and_its_minutes(run):
    _, push = scene_of(0)
    said, _ = run(push, all_keys(push, play(push, hint), before="hh"))
    at_spot = said.split("Hint: quick push", 1)[1].split("What do you do?", 1)[0]
    assert "It passes" in at_spot
    assert "min on average, failing counted in." in at_spot


def _bowed(push: Push, end: State) -> int:
    """Pushes with the hands so far out that the rod bows."""
    return sum(
        state.way is not None and step.act.kind in acts.TRY_OF and push.truth.bows(state.way, state.hands)
        for state, step in zip(_after(push, end), end.steps, strict=True)
    )


def test_hands_too_far_out_are_told_when_pushing_and_again_at_the_end(run):
    ends = ((push, play(push, always_push)) for _, push in map(scene_of, range(12)))
    push, end = next((p, e) for p, e in ends if e.ended == acts.KINKED and _bowed(p, e))
    said, graded = run(push, all_keys(push, end))
    bowed = _bowed(push, end)
    assert said.count("The rod bows between your hand and the opening.") == bowed
    assert said.count("Better: hands closer before pushing.") == 1, "a remark is made once"
    assert "The rod is done for." in said
    assert graded.credit < 1


def _after(push: Push, end: State) -> list[State]:
    states, state = [], push.start
    for step in end.steps:
        state = push.act(state, step.act)
        states.append(state)
    return states


def _firm_by_turns(push: Push, state: State) -> Act:
    """Always pushing, each firm push expected to feel otherwise than the one before."""
    act = always_push(push, state)
    return replace(act, expects=acts.FEELS[len(state.steps) % len(acts.FEELS)]) if act.expects else act


def test_whether_it_felt_as_expected_is_told(run):
    _, push = scene_of(3)
    end = play(push, _firm_by_turns)
    said, _ = run(push, all_keys(push, end))
    foretold = [step for step in end.steps if step.act.expects]
    right = sum(step.seen.feel == step.act.expects for step in foretold)
    assert 0 < right < len(foretold)
    played = said.split("WALKING IT BACK")[0]  # there what was wrong is told once more
    assert played.count("As you expected.") == right
    assert played.count("You expected ") == len(foretold) - right


def test_where_leaving_is_best_the_hint_says_so_and_promises_no_try(run):
    pushes = (lucky(seed, False) for seed in range(12))  # nothing ever passes
    ends = ((push, play(push, hint)) for push in pushes)
    push, end = next((p, e) for p, e in ends if any(step.act.kind == acts.CHANGE for step in e.steps))
    leave = sum(step.act.kind == acts.CHANGE for step in end.steps)
    said, _ = run(push, all_keys(push, end, before="hh"))
    told = [each.split("What do you do?")[0] for each in said.split("Hint: stop here, other opening")[1:]]
    assert len(told) == leave
    assert not any("It passes" in each for each in told)


def test_a_firm_push_that_fails_warns_of_wedging(run):
    _, push = scene_of(3)
    end = play(push, always_push)
    said, _ = run(push, all_keys(push, end))
    played = said.split("WALKING IT BACK")[0]
    failed = sum(
        step.act.kind == acts.FIRM and step.index is not None and not step.passed for step in end.steps
    )
    assert failed
    assert played.count("WARNING") + played.count("CAUTION") + played.count("NOTICE") >= failed


def _with_water(push: Push, state: State) -> Act:
    """By the hints, but at the first stop water from the last fixture."""
    watered = any(step.act.kind == acts.WATER for step in state.steps)
    flows = [act for act in push.legal(state) if act.kind == acts.WATER]
    return flows[-1] if flows and not watered else hint(push, state)


def test_water_is_run_at_the_fixture_that_is_chosen(run):
    ends = ((push, play(push, _with_water)) for _, push in map(scene_of, range(12)))
    push, end = next((p, e) for p, e in ends if any(step.act.kind == acts.WATER for step in e.steps))
    (wanted,) = [step.act for step in end.steps if step.act.kind == acts.WATER]
    said, _ = run(push, all_keys(push, end))
    assert "Water where?" in said
    assert f"> {wanted.fixture}" in said
    assert "ran water and pushed" in said.split("WALKING IT BACK")[1]


def _look_then_give_up(push: Push, state: State) -> Act:
    if state.way is None:
        return hint(push, state)
    return Act(acts.LOOK) if state.steps[-1].act.kind == acts.OPEN else Act(acts.GIVE_UP)


def test_the_drain_and_the_words_can_be_looked_at_and_cost_no_time(run):
    _, push = scene_of(1)
    keys = all_keys(push, play(push, _look_then_give_up))
    plain, graded = run(push, keys)
    looked, same = run(push, "sw" + keys[:2] + "sw" + keys[2:])
    assert graded == same
    assert (
        looked.count("Distances count from the top of each line.") == 3
    )  # at the start, and twice asked for
    assert plain.count("Distances count from the top of each line.") == 1
    assert plain.split("WALKING IT BACK")[1] == looked.split("WALKING IT BACK")[1]
    # A mere look says nothing happened, so nothing but what the lens shows is told.
    assert "You gave up." in plain


def test_there_is_no_hint_for_who_is_alone(run):
    _, push = scene_of(1)
    said, _ = run(push, "h0", ALONE)
    assert "h hint" not in said
    assert "Hint:" not in said
    assert "You gave up." in said


def test_back_from_the_gear_is_the_openings_again(run):
    _, push = scene_of(1)
    said, _ = run(push, "1b" + "0")
    assert said.count("Where do you go in?") == 2
    assert "0 minutes, and 1 actions." in said


@pytest.mark.parametrize("keys", ["q", "1q", "11q"])
def test_a_push_can_be_left_wherever_something_is_asked(keys):
    _, push = scene_of(1)
    with typed(keys), pytest.raises(Left):
        run_push(push, HINTS, Page())
