"""Where all that a plan goes for was seen, plan, card and the start of a push begin with what comes next.

From a trial: the plan said that the part was seen whole, and its card began "Open ..." all the same. Readings
by hand, as in the trial's own test: the sink line joins 3 m in, the part ends at 7 m, the trap that ends
what is to be seen is 9 m in. Common practice, no source: no head goes through a trap, and none is "taken
out"; what plugs a pipe is cleaned out before anything is pushed past it.
"""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.push.met_before import met_before
from advisor.push.seen_whole import seen_whole, with_seen
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.result.told import first_told
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import tables
from tests.push.test_report import Told
from tests.push.test_seen_part import FLAG, ROOTS, TIE_IN, log, look, said, study
from tests.push.test_seen_whole import after, end

WAD: Told = ("find", 8.0, {"what": "wad of wipes, pipe 3/4 shut"})


@cache
def planned(*held: str) -> Plan:
    """The plan after a push that was held in roots and marked that, or met nothing."""
    standing = log(TIE_IN, ROOTS, FLAG) if held else log(TIE_IN)
    made = plan_of(study(), met_before(study(), standing))
    return with_seen(made, seen_whole(study(), standing), study())


def card(made: Plan) -> str:
    return " ".join(card_text(card_of(made, made.routes[0], tables().card, Units.METRIC, "", False)).split())


def test_the_card_begins_with_what_comes_next_and_opens_only_to_look_again():
    told = card(planned("held"))
    first = told.index("First have taken out what holds a head at counter 8 m.")
    assert told.index("Seen whole on 2026-") < first < told.index("Again: open floor plug")
    assert "Open floor plug" not in told


def test_without_such_a_push_it_opens():
    told = card(planned())
    assert "Open floor plug" in told
    assert "look again" not in told


def test_ranking_order_and_way_are_told_as_ways_to_look_again(capsys):
    show_plan(planned("held"), Units.METRIC, Page())
    told = capsys.readouterr().out
    for heading in ("OPENINGS", "ORDER OF ATTEMPTS", "THE WAY IN FROM FLOOR PLUG"):
        assert f"{heading}, TO LOOK AGAIN" in told
    show_plan(planned(), Units.METRIC, Page())
    assert "LOOK AGAIN" not in capsys.readouterr().out


def test_nobody_is_kept_from_what_comes_before_any_push():
    """That the building is left, or the line cleared, comes before what was seen."""
    made = planned("held")
    told = first_told(made)
    assert told.index(made.seen.told[0]) < told.index(made.first_step)
    barred = made.model_copy(update={"until": "the gas utility has been here", "first_step": "Leave."})
    told = first_told(barred)
    assert told.index("Leave.") < told.index(made.seen.told[0])


def test_what_plugs_the_pipe_comes_before_a_look_on():
    told = said(TIE_IN, WAD)
    assert "8 m in from floor plug (seen before: wad of wipes, pipe 3/4 shut) comes first" in told
    assert "Have it cleaned out and see the line drain" in told
    assert "slowly on" not in told


def test_a_trap_is_not_taken_out():
    told = said(TIE_IN, ("sighting", 8.0, {"what": "trap"}))
    assert "A trap is next, 8 m in from floor plug: no head goes past it." in told
    assert "taken out" not in told


def test_nothing_met_is_looked_on_past():
    assert "slowly on" in said(TIE_IN, look(8.0))


@pytest.mark.parametrize(
    ("what", "then"),
    [
        ("wad of wipes, pipe 3/4 shut", "Have it cleaned out and see the line drain, then look there again."),
        ("roots", "comes first. The report tells what to do about it. After that look there again."),
    ],
)
def test_of_a_run_that_was_seen_whole_what_was_found_comes_next(what, then):
    _, note = after(("find", 5.0, {"what": what}), *end(9.0, "trap", reached=True))
    whole, first, _ = note.told
    assert whole.startswith("Seen whole by ")
    assert f"What was seen 5 m in from floor plug (seen before: {what}) comes first." in first
    assert first.endswith(then)


def test_what_is_one_place_by_two_counts_is_told_as_one():
    """A floor plug stands above its drain: the counter has more than lies along the drain."""
    told = said(TIE_IN, ROOTS)
    along = told.partition("have been seen: ")[2].partition(" to 9 m")[0]
    assert along != "8 m"
    assert f"{along} along it is 8 m on the counter." in told


@pytest.mark.parametrize("what", ["roots", "wad of wipes, pipe 3/4 shut"])
def test_what_was_cut_or_cleaned_since_is_seen_to_already(what):
    way = {"opening": "floor plug", "direction": "downstream", "to": 12.0, "outside": True}
    found: tuple[Told, ...] = (("find", 5.0, {"what": what}), *end(9.0, "trap", reached=True))
    _, before = after(*found)
    _, since = after(*found, ("machine run", None, {"what": "cutter", **way}))
    assert "comes first" in " ".join(before.told)
    assert since.told
    assert "comes first" not in " ".join(since.told)
