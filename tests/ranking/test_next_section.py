"""What is gone for where no head gets to the likeliest section, and a trap as a section of its own."""

from __future__ import annotations

import pytest

from advisor.card.build import card_of
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import kit_text, studied, tables

# A row house: all its water comes in at the top, so of what lies below only the length and the trap count.
SITE = """
site: row house
region: britain
built: 1995
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: pvc
    pieces:
      - {{opening: gully, kind: gully, there: yes, opens: no}}
      - {{opening: yard chamber, kind: inspection chamber, depth: 1 m, there: yes, opens: yes}}
      - pipe: 9 m
      - {{opening: front chamber, kind: inspection chamber, depth: 1 m, there: yes, opens: yes}}
      - trap: disconnecting trap
      - pipe: {beyond} m
      - end: public sewer
task: {{look at: suspect section, complaint: {{backs up: [yard chamber], gas smell: no, chemicals: no}}}}
"""
BEFORE, TRAP = "drain, from yard chamber to front chamber", "drain, from front chamber to disconnecting trap"
BEYOND = "drain, from disconnecting trap to public sewer"


@pytest.fixture(scope="module")
def study():
    return studied(SITE.format(beyond=12), kit_text(), worlds=60)


def test_a_trap_is_a_suspect_of_its_own_and_no_weight_of_what_lies_beyond(study):
    """By hand: 9 m of pipe, a trap that counts for 5 m of it (rules/tables/signs.yaml), 12 m beyond it."""
    shares = {each.words: each.share for each in study.suspects}
    assert shares[BEFORE] == pytest.approx(9 / 26)
    assert shares[TRAP] == pytest.approx(5 / 26)
    assert shares[BEYOND] == pytest.approx(12 / 26)


def test_where_no_head_gets_to_the_likeliest_the_plan_goes_for_one_nearly_as_likely(study, capsys):
    """It said that leaving the job undone costs less, and nearly as much lay straight before a chamber."""
    told = plan_of(study)
    assert told.suspects[0].section == BEYOND
    assert told.target.words == BEFORE
    assert told.attempts
    card = card_of(told, told.routes[0], tables().card, Units.METRIC, "2026-11-25", log=False)
    # 9 and 12 of 26 m: whoever has only the card must know that it is not the likeliest place.
    assert card.target == f"{BEFORE} (35%). The trouble is likelier in {BEYOND} (46%)"
    show_plan(told, Units.METRIC, Page())
    assert "To the likeliest section no opening is worth its minutes: this plan" in capsys.readouterr().out


def test_one_that_is_far_less_likely_is_not_gone_for_instead():
    """30 m beyond: 9 m and 5 m are less than half as likely, and whoever looks there mostly finds nothing."""
    told = plan_of(studied(SITE.format(beyond=30), kit_text(), worlds=60))
    assert told.target.words == BEYOND
    assert not told.attempts
