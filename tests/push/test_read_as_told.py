"""What a push read is told in plan and card as it was read: from a trial.

He was held at 38.5 ft and saw a wad at 47.5 ft: the plan had 38 and 48 ft, one short of it, the other past
it, and the report 47.5. In metric a counter is read to the centimetre.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.text import card_text
from advisor.push.before.left_stops import left_stops
from advisor.push.log.kinds import FIND, PASSED, STOPPED, TRY
from advisor.push.met_before import met_before
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT, read
from tests.push.test_found_plan import card_of_first
from tests.terminal.test_now_shown import Told, study_of, tee

WAD: Told = (FIND, 4.75, {"what": "wad of wipes"})
HELD: Told = (STOPPED, 3.25, {"sign": "wall ahead", "feel": "springs back"})
BY: Told = (TRY, 3.25, {"technique": "quick push", "outcome": PASSED})
STANDING = tuple(numbered(BEGUN, HELD, BY, read(4.0), WAD, OUT))


@cache
def plan() -> Plan:
    study = study_of(tee())
    return plan_of(study, met_before(study, STANDING))


def test_a_stop_is_told_at_its_reading():
    (held,) = left_stops(study_of(tee()), STANDING)
    assert "3.25 m" in held


@pytest.mark.parametrize("where", ["sentence", "way", "card"])
def test_a_find_is_told_at_its_reading(where, capsys):
    if where == "way":
        show_plan(plan(), Units.METRIC, Page())
    told = {
        "sentence": lambda: " ".join(note.left for note in plan().found),
        "way": lambda: capsys.readouterr().out,
        "card": lambda: card_text(card_of_first(plan())),
    }[where]()
    assert "4.75 m" in told
    assert "4.8 m" not in told
