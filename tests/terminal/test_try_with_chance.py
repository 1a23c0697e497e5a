"""A try is told with its chance: what the plan calls unlikely reads so on the push screen and on the card.

The case: turning the rod at a long sweep, 5 % a try in the plan and plainly `turn the rod` at the opening.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.card.build import card_of
from advisor.outcome.at_door import AtDoor
from advisor.plan import plan
from advisor.push.log.kinds import SIGHTING
from advisor.push.now.one_push import Push
from advisor.quantity import Units
from advisor.result.spots import passage_note
from advisor.terminal.push.here import show_now
from tests.card.cards import DATE, DEMOS, made
from tests.cases.jobs import rules, tables
from tests.terminal import test_now_shown as beside
from tests.terminal.test_now_shown import TEE_PLUG, case_of, pushed, tee

shown = beside.shown  # fixture


def test_before_a_hard_place_the_first_try_is_told_with_the_plans_chance(shown):
    now = pushed(tee(), TEE_PLUG, (SIGHTING, 1.7, {"what": "nothing"}))
    met = next(each for each in now.push.course.hard if "sanitary tee" in each.name)
    notes = passage_note(met.hard, met.outcome, now.push.study.reader).techniques
    first = next(each for each in notes if each.verdict in ("try", "required") and each.name != "steady push")
    assert first.chance is not None
    said = shown(show_now, now)
    told = said.partition(f"If it holds: {first.name}, ")[2]
    assert f"({100 * min(first.chance, 0.99):.0f} %) a try." in told[:40]


@pytest.mark.parametrize(("chance", "told"), [(0.05, True), (0.85, False)])
def test_an_unlikely_try_is_unlikely_on_the_card(chance, told):
    plan_ = made(DEMOS[0])[0]
    leader = plan_.routes[0]
    note = next(each for each in leader.passages if any(t.verdict == "try" for t in each.techniques))
    turn = next(t for t in note.techniques if t.verdict == "try" and t.chance is not None)
    changed = turn.model_copy(update={"name": "turn the rod", "chance": chance})
    passages = tuple(
        each.model_copy(update={"techniques": (changed,)}) if each == note else each
        for each in leader.passages
    )
    card = card_of(
        plan_, leader.model_copy(update={"passages": passages}), tables().card, Units.INCH, DATE, log=True
    )
    heads = [
        line.text for block in card.stuck for line in block.lines if line.text.startswith("Turn the rod")
    ]
    assert any("unlikely (5 %)" in head for head in heads) == told
    assert any("turn the rod, unlikely (5 %)" in sight.do for sight in card.sights) == told
    assert heads


def test_a_line_only_seen_to_drain_as_the_push_begins_is_not_counted_as_wetted():
    """One throat stood at 71 % on plan and card, at 84 % in the push: that of a pipe rinsed before, where
    nobody had told that it was, all were to hold off water, and each try was told to be without any."""
    case = case_of(tee(holding="holding: unknown, chemicals: no"))
    start = pushed(tee(), TEE_PLUG).push.began
    known = case_of(tee(holding="holding: no, chemicals: no"))
    unseen, at_door, rinsed = (
        float(Push(plan(each, tables(), rules()), start).course.spots[0].hard.spot.plain.passes.mean())
        for each in (case, replace(case, told=AtDoor(drains=True)), known)
    )
    assert at_door == unseen
    assert rinsed > unseen  # as the sheet has it, its plan has it rinsed first
