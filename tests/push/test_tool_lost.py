"""A tool or cable end told to be lost in there, and what stopped a machine: told wherever a head goes in.

A first-time user ticked it, and it stood on no card, in no screen of the push and not in the report.
"""

from __future__ import annotations

import re

import pytest

from advisor.card.content import KEPT
from advisor.push.before.limit import limit_of
from advisor.push.held_now import found_of
from advisor.push.log.kinds import BACK, SIGHTING, STOPPED
from advisor.result.build import plan_of
from advisor.terminal.page import Page
from advisor.terminal.push.hard import show_hard, show_way_out
from advisor.terminal.push.remind import remind
from advisor.terminal.push.stuck import show_stuck
from advisor.terminal.push.words import Words
from tests.card.cards import card
from tests.push.test_machine_run import RUN, sheet
from tests.push.test_report import HOUSE, START, TASK, report, section
from tests.push.test_since import FT
from tests.terminal.test_now_shown import pushed, study_of

LOST = HOUSE + TASK + "  history: {tool lost: yes}\n"
NEVER_PULL = "never pull against a catch"


def shown(page: Page, show) -> str:
    with page.console.capture() as told:
        show()
    return " ".join(re.sub("[─-╿]", " ", told.get()).split())


def test_it_goes_from_no_paper():
    whole, says = card(LOST), "lost tool"
    for less in (whole, whole.short()):
        left = less.without(less.parts())  # all gone that may go
        told = [line for block in left.blocks for line in block.lines if says in line.text]
        assert [line.worth for line in told] == [KEPT]


def test_what_stopped_a_machine_is_named_where_it_finds_no_room():
    """Nobody saw it there: what a push met and what keeps people safe outlasts it."""
    whole = card(sheet(RUN))
    left = whole.without(whole.parts())
    assert not any("What stopped it may be there" in ln.text for block in left.blocks for ln in block.lines)
    assert "what stopped a machine" in left.untold
    assert "what stopped a machine" not in whole.untold


def test_notices_that_hold_a_head_have_few_words_for_paper():
    """Without these they went from it before a mark above ground did (worth NOTICE)."""
    for text in (sheet(RUN), LOST):
        notes = {note.id: note for note in plan_of(study_of(text)).cautions}
        kept = [notes[name] for name in ("lost-tool", "machine-run", "roots-back") if name in notes]
        assert kept
        assert all(note.short for note in kept)


@pytest.mark.parametrize(
    ("text", "says"), [(LOST, NEVER_PULL), (sheet(RUN), "What stopped it may be there still.")]
)
def test_it_is_told_as_a_push_begins_and_is_gone_on_with(text, says):
    study, page = study_of(text), Page()
    gear = study.kit.loadouts[0].name
    told = shown(page, lambda: remind(study, "yard cleanout", gear, (), False, page))
    assert says in told.partition("IN THE PIPE")[2]


def test_nobody_knows_where_it_lies_so_it_is_told_all_the_way():
    for text, there in ((LOST, True), (HOUSE + TASK, False)):
        now = pushed(text, "yard cleanout", (SIGHTING, 10 * FT, {"what": "nothing"}))
        page = Page()
        told = shown(page, lambda now=now, page=page: show_hard(limit_of(now), now, page, Words(now)))
        assert ("A lost tool or cable end may lie anywhere ahead: look before each push." in told) is there


@pytest.mark.parametrize("back", [(), ((BACK, 5 * FT, {}), (STOPPED, 5 * FT, {"sign": "dead"}))])
def test_where_the_head_is_held_nobody_pulls_against_a_catch(back):
    now = pushed(LOST, "yard cleanout", (STOPPED, 10 * FT, {"sign": "dead"}), *back)
    found, page = found_of(now, now, None, now.signs, now.belief.rod), Page()
    assert NEVER_PULL in shown(page, lambda: show_stuck(found, now, page))
    assert NEVER_PULL in shown(page, lambda: show_way_out(found, now, page))


def test_the_report_tells_it_before_it_sends_a_tool_in():
    made = report(START, ("stopped", 9.0, {"sign": "blocked, roots"}), text=LOST)
    assert "what goes in next can hook on it" in section(made, "Task")
    assert section(made, "Recommended").startswith("Look before any tool goes in: a lost tool")
    assert "lost" not in section(report(START), "Task")
