"""What passed at a place in a push of the job leads in its next plan, card and push; what failed comes last.

From a trial: at 2.6 ft a quick push failed and turning the rod passed. Plan, card and the next
push led with the quick push all the same, and none told what it had come past by. Rule of the trade: begin
with what worked there.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.push.held_now import held_now
from advisor.push.stop_ahead import stop_ahead
from advisor.quantity import Units
from advisor.result.model import Plan
from advisor.result.spots import passage_note
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import tables
from tests.push.test_wedged_before import BEGUN, planned_after, technique
from tests.terminal.test_now_shown import TEE_PLUG, Told, pushed, tee, tried

BLOW, TURN = "quick push", "turn the rod"
STOP: Told = ("stopped", 2.0, {"sign": "wall ahead", "feel": "springs back"})
FAILED = tried("stopped")


def of(technique: str, outcome: str) -> Told:
    kind, counter, data = FAILED
    return kind, counter, {**data, "technique": technique, "outcome": outcome}


def order(plan: Plan) -> list[str]:
    return [each.name for each in plan.routes[0].passages[0].techniques if each.tries]


@pytest.fixture(scope="module")
def plain(tmp_path_factory) -> Plan:
    return planned_after(tmp_path_factory.mktemp("plain"), BEGUN)


@pytest.fixture(scope="module")
def begun(plain) -> Told:
    kind, counter, data = BEGUN
    return kind, counter, {**data, "loadout": plain.routes[0].loadout.name}


@pytest.fixture(scope="module")
def after(tmp_path_factory, plain, begun) -> Plan:
    first, last = order(plain)[0], order(plain)[-1]
    assert first != last
    folder = tmp_path_factory.mktemp("after")
    return planned_after(folder, begun, STOP, of(first, "stopped"), of(last, "passed"))


def test_what_passed_leads_what_failed_comes_last_and_no_chance_is_claimed_of_either(plain, after):
    first, last = order(plain)[0], order(plain)[-1]
    assert order(after) == [last, *order(plain)[1:-1], first]
    assert (technique(after, last).before, technique(after, last).chance) == ("passed here before", None)
    assert (technique(after, first).before, technique(after, first).chance) == ("failed here before", None)


def test_no_chance_foreseen_is_the_reason_of_what_failed_there(tmp_path, plain, begun):
    """The plan after it gave a stroke that had failed: a stuck rod end is likely (over 99 %)."""
    after = planned_after(tmp_path, begun, STOP, of(BLOW, "stopped"), of(TURN, "passed"))
    before, then, turn = technique(plain, BLOW), technique(after, BLOW), technique(after, TURN)
    assert before.because.startswith("If it holds here, ")
    assert (then.before, then.because, then.steps) == ("failed here before", "", before.steps)
    assert "breaks it" in turn.because, "what a turn may do stays told"


def test_plan_and_card_tell_by_what_it_came_past(plain, after, capsys):
    first, last = order(plain)[0], order(plain)[-1]
    assert f"came past by this: {last}. Slowly" in after.stopped[0]
    show_plan(after, Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    assert f"Do: {last}, twice at most, passed here before." in shown
    words = card_text(card_of(after, after.routes[0], tables().card, Units.METRIC, "", False))
    assert f"Then {last} (passed here before), {first} (failed here before)." in " ".join(words.split())


@pytest.mark.parametrize("changed", [{"loadout": "another reel"}, {"direction": "upstream"}])
def test_with_other_gear_or_the_other_way_it_tells_nothing(tmp_path, plain, begun, changed):
    kind, counter, data = begun
    told = (kind, counter, {**data, **changed})
    assert order(planned_after(tmp_path, told, of(order(plain)[-1], "passed"))) == order(plain)


def test_in_the_same_push_too_it_leads_once_the_head_is_drawn_back():
    on: Told = ("sighting", 4.0, {"what": "nothing"})
    told = (STOP, of(BLOW, "stopped"), of(TURN, "passed"), on, ("pulled back", 1.0, {}))
    now = pushed(tee(), TEE_PLUG, *told)
    again = stop_ahead(now)
    assert again is not None
    assert again.by == " by this: turn the rod"
    assert again.found.tries[0].technique == TURN
    assert again.found.tries[0].told(str) == "passed here before"
    held = held_now(pushed(tee(), TEE_PLUG, *told, STOP))
    assert held is not None
    assert [each.technique for each in held.tries] == [TURN, *(t.technique for t in held.tries[1:])]


def test_held_here_with_nothing_told_its_chance_is_that_which_the_plan_told_of_it(plain):
    """One throat with nothing told between stood at 76 % ahead of it and at 81 % held at it."""
    held = held_now(pushed(tee(), TEE_PLUG, ("stopped", 2.0, {})))
    now = pushed(tee(), TEE_PLUG)
    spot = next(met for met in now.push.course.spots if met.name in held.spot)
    note = {
        each.name: each for each in passage_note(spot.hard, spot.outcome, now.push.study.reader).techniques
    }
    for each in held.tries:
        assert each.chance == pytest.approx(note[each.technique].chance, abs=1e-6)
    failed = held_now(pushed(tee(), TEE_PLUG, STOP, of(held.tries[0].technique, "stopped")))
    assert " a try after what failed here" in failed.tries[0].told(str)


def test_what_a_try_that_failed_would_have_cured_is_less_likely_by_its_chance():
    """By Bayes: of a cause against which a stroke may be tried 1 - q is left, of another all of it. Held
    with 47 % for the rod end, the screen told 47 % again after the stroke had failed."""
    before, after = (held_now(pushed(tee(), TEE_PLUG, STOP, *each)) for each in ((), (of(BLOW, "stopped"),)))
    q = next(each.chance for each in before.tries if each.technique == BLOW)
    one, two = ({cause.name: cause.chance for cause in each.causes} for each in (before, after))
    far, bows = "far wall", "rod bows at the hand"  # a stroke drives a head on, and folds a free rod
    assert two[far] / two[bows] == pytest.approx((1 - q) * one[far] / one[bows], rel=0.05)
    assert two[far] < one[far]
