"""A chamber, standing water and a trap are told as what they are, and each tells where the head is.

By hand, from the yard chamber of the case: 0.6 m down, 2 and 9.5 m of pipe to the next chamber with its trap:
12.1 m in. In the belly's case 3 m to the belly and 2 m of it.
"""

from __future__ import annotations

import pytest

import tests.terminal.test_push_session as sitting
from advisor.push.log.kinds import SIGHTING
from advisor.push.log.sighting import LANDMARKS, Seen
from advisor.push.now.now import Now
from advisor.push.report.words import SEEN
from advisor.push.track.fix import named
from tests.push.sites import CHAIN, tracker_on
from tests.push.test_same_footing import STACK, YARD, rain
from tests.terminal.test_now_shown import pushed
from tests.terminal.test_push_answers import standing
from tests.terminal.test_push_session import BEGIN

job, push = sitting.job, sitting.push  # fixtures
TRAPPED = YARD.replace("      - pipe: 7 m\n", "      - trap: disconnecting trap\n      - pipe: 7 m\n")
AT = 0.6 + 2 + 9.5


def told(what: str, text: str = TRAPPED, **more: object) -> Now:
    seen = (SIGHTING, 11.0, {"what": what, **more})
    return pushed(text, "yard chamber", STACK, rain(2.7), seen, direction="downstream")


@pytest.mark.parametrize(
    ("what", "more", "name"),
    [
        ("chamber", {}, "front chamber"),
        ("trap", {}, "disconnecting trap"),
        ("tie-in", {"clock": 12.0}, "front chamber"),  # as older logs and habit have it
    ],
)
def test_what_is_seen_is_called_by_its_name_and_ties_the_head_to_its_place(what, more, name):
    now = told(what, **more)
    found = named(now.push.tracker, now.belief, now.sightings[-1])[0]
    assert name in (found.landmark.piece.name, found.landmark.piece.stopper)
    assert found.chance > 0.6
    assert now.along == pytest.approx(AT, abs=0.4)


def test_a_chamber_told_as_one_says_more_than_a_tie_in_at_the_top():
    assert told("chamber").fix.best.chance >= told("tie-in", clock=12.0).fix.best.chance


def test_standing_water_is_seen_anywhere_in_its_belly():
    """Water seen 1.5 m into a belly of 2 m: 0.2 m of opening, 4 and 3 m of pipe lie before it."""
    sunk = CHAIN.replace("      - pipe: 5 m\n", "      - belly: 2 m\n      - pipe: 3 m\n", 1)
    assert sunk != CHAIN
    tracker = tracker_on(sunk, "top plug", 60.0)
    seen = Seen(8.5, "standing water")
    before = [Seen(4.2, "bend"), Seen(7.2, "tie-in", 9.0)]
    belief = tracker.replay([*before, seen])
    (found,) = named(tracker, belief, seen)
    assert found.landmark.piece.kind == "belly"
    assert found.chance > 0.5


def test_a_trap_is_not_passed_unseen_more_easily_than_before():
    """It bars the way as it did, and to have run past it with nothing to tell is rarer still."""
    plain = pushed(YARD, "yard chamber", STACK, rain(2.7), direction="downstream").push.tracker.chart
    chart = told("trap").push.tracker.chart
    row = max(range(len(chart.ways)), key=lambda r: chart.ways[r].prior)
    past = round((AT + 3) / chart.cell)
    assert chart.unlogged[row, past] < 0.2 * plain.unlogged[row, past]


@pytest.mark.parametrize(("key", "what"), [("h", "chamber"), ("w", "standing water"), ("i", "trap")])
def test_each_is_offered_and_kept(job, push, key, what):
    push(BEGIN + f"r9\r{key}" + "q")
    assert standing(job)[-1].data == {"what": what}


def test_every_landmark_has_words_in_the_report():
    assert set(LANDMARKS) < set(SEEN)
