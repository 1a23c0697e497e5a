"""What is told at a clean rim in a run that the plan marks for roots is true of the place as it was seen.

From a trial: a rim held the head, no root was in sight, and the screen was headed by roots and
gave them for the reason of what not to do; plan and card barred a turn of the rod that the screen asked for.
What may be done at a rim, and what a blow on one does, is common practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.push.disagree import disagree
from advisor.push.log.kinds import STOPPED
from advisor.quantity import Units
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.push.stuck import show_stuck
from tests.cases.jobs import tables
from tests.push.test_rim_seen import DEAD, SEEN_ROOTS, TURN
from tests.push.test_wedged_before import planned_after
from tests.push.test_which_spot import CLAY, RIM, ROOTED, found, in_clay

BLOW, STRING = "quick push", "string"


def heading(capsys, *told, text: str = CLAY) -> str:
    now = in_clay(*told, text=text)
    capsys.readouterr()
    show_stuck(found(now), now, Page())
    return capsys.readouterr().out.strip().splitlines()[0]


@pytest.mark.parametrize("text", [CLAY, ROOTED])
def test_a_rim_that_was_seen_to_hold_it_heads_the_screen_and_the_run_is_named(text, capsys):
    rim = "HELD AT A RIM OR STEP, IN THE RUN MARKED FOR ROOTS IN REAR DRAIN"
    assert heading(capsys, (STOPPED, 6.0, RIM), text=text) == rim
    told = disagree(in_clay((STOPPED, 6.0, RIM), text=text))
    assert "It is held at a rim or step, in the run marked for roots in rear drain." in told
    assert not any("held along the roots" in each for each in told)


@pytest.mark.parametrize("signs", [{"feel": "dead"}, {"sign": "open pipe ahead"}])
def test_without_a_rim_in_sight_the_run_heads_it_as_before(signs, capsys):
    assert heading(capsys, (STOPPED, 6.0, signs)) == "HELD WHERE THE PLAN HAS ROOTS IN REAR DRAIN"


@pytest.mark.parametrize("before", [(), (SEEN_ROOTS,)], ids=["none seen", "seen further back"])
def test_the_blow_is_barred_by_the_rim_not_by_roots_that_nobody_saw_there(before):
    assert (
        dict(found(in_clay(*before, (STOPPED, 6.0, DEAD))).not_now)[BLOW]
        == "A blow on a rim breaks the lens."
    )


def test_a_rim_with_something_before_it_may_hide_roots_and_they_stay_the_reason():
    barred = dict(found(in_clay((STOPPED, 6.0, {"sign": "rim ahead, blocked"}))).not_now)
    assert barred[BLOW] == "A blow drives the head into the roots. There it stays."


def test_what_only_the_run_bars_is_told_of_the_run():
    barred = dict(found(in_clay((STOPPED, 6.0, DEAD), text=ROOTED)).not_now)
    assert barred[TURN] == (
        "No roots were seen at this rim. They may stand at any joint of this run. "
        "Turning winds the roots round spring and rod."
    )
    assert barred[STRING].startswith("The opening lies 1 m down"), "that is no matter of roots"


@pytest.mark.parametrize(
    ("text", "free"),
    [
        (CLAY, True),
        (ROOTED, False),
        (CLAY.replace("complaint:", "history: {came back: [roots]}, complaint:"), False),
    ],
    ids=["not likely", "on the sheet", "came back"],
)
def test_plan_and_card_bar_the_turn_but_where_the_push_will_ask_for_it(text, free, tmp_path, capsys):
    """In the same runs as on the screen beside the opening: roots not likely there, none seen."""
    plan = planned_after(tmp_path, text=text)
    show_plan(plan, Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    built = card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", False)
    card = " ".join(card_text(built).split())
    assert f"Not {TURN}: Turning winds the roots round spring and rod." in shown
    assert ("But at a clean rim that holds it, with no root seen in any push here: turn it" in shown) is free
    assert (f"Not {TURN} here, but at a clean rim with no root seen: gently." in card) is free
    assert (f"Not {TURN} here." in card) is not free
    assert (found(in_clay((STOPPED, 6.0, DEAD), text=text)).tries[0].technique == TURN) is free
