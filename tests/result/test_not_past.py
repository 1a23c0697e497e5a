"""A trap, a tank or the sewer at or behind the end of a way is told as a stop; nobody is sent on into it."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units, show_reading
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables

# A row of invented houses: the old trap between house and street lies in or just behind the front chamber,
# which nobody has looked for. No pipe length in it is known.
ROW = """
site: invented row
region: britain
built: 1931
map: guess
lines:
  - line: rear drain
    kind: drain
    size: 100 mm
    material: clay
    pieces:
      - opening: yard chamber
        kind: inspection chamber
        depth: 600 mm
      - pipe: assumed 5 to 14 m
      - opening: front chamber
        kind: inspection chamber
        there: 65 %
      BEHIND
      - pipe: 7 m
      - end: public sewer
task:
  look at: rear drain, from yard chamber to front chamber
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
TRAP = "- trap: assumed disconnecting trap"
TANK = "- tank: septic tank"


@cache
def plan_text(text: str) -> Plan:
    case = Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.METRIC, 200)
    return plan_of(plan(case, tables(), rules()))


def planned(behind: str) -> Plan:
    return plan_text(ROW.replace("BEHIND", behind))


def front(behind: str) -> Card:
    made = planned(behind)
    route = next(each for each in made.routes if each.opening == "yard chamber")
    return card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)


@pytest.mark.parametrize(
    ("behind", "name"),
    [(TRAP, "interceptor trap"), (TANK, "septic tank"), (f"- pipe: 3 m\n      {TRAP}", "interceptor trap")],
)
def test_what_holds_the_head_behind_the_end_has_a_row_where_it_may_begin(behind, name):
    """Our table of stoppers: a deep water-filled U in the line; a baffle that catches.

    Nobody has measured the way to the chamber, so it may come before the middle of where that one may be.
    """
    rows = front(behind).sights
    (limit,) = (each for each in rows if "not past here" in each.see.lower())
    (end,) = (each for each in rows if "front chamber" in each.see.partition(". Past")[0])
    assert name in limit.see
    assert {rows.index(limit), rows.index(end)} == {len(rows) - 2, len(rows) - 1}
    first, second = (float(each.reading.removesuffix(" m")) for each in rows[-2:])
    assert first <= second


@pytest.mark.parametrize("behind", [TRAP, TANK, "- joint: open"])
def test_nobody_who_misses_the_end_is_told_to_go_on_into_it(behind):
    rows = front(behind).sights
    low = planned(behind).routes[0].not_past.at_low_m
    for note in planned(behind).routes[0].sights:
        if note.at_high_m >= low:
            (row,) = (each for each in rows if note.name in each.see.partition(". Past")[0])
            assert not row.missed.startswith("Go on"), row
    if behind != "- joint: open":
        assert rows[-1].missed.startswith("Stop")


def test_far_off_it_bounds_how_far_to_go_on():
    """12 m of pipe behind the chamber: the end may lie further on, and the trap bounds it."""
    *_, end, last = front(f"- pipe: 12 m\n      {TRAP}").sights
    assert "at most" in end.missed
    assert "interceptor trap" in end.missed
    assert "interceptor trap" in last.see


def test_the_plan_tells_it_with_what_to_do_instead(capsys):
    show_plan(planned(TRAP), Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    assert "Not past" in shown
    assert "interceptor trap" in shown.partition("Not past")[2][:80]
    assert tables().stoppers["disconnecting trap"].instead in shown


@pytest.mark.parametrize("told", ["opens: no", "there: no"])
def test_nobody_is_sent_to_an_opening_that_is_told_shut_or_not_there(told):
    """The chamber from which the stopper would be drawn; behind a drawn stopper sewage may stand."""
    instead = "draw the stopper"
    assert instead in planned(TRAP).routes[0].not_past.instead
    assert "WARNING: sewage and gas" in planned(TRAP).routes[0].not_past.instead
    shut = plan_text(ROW.replace("BEHIND", TRAP).replace("there: 65 %", told))
    route = next(each for each in shut.routes if each.opening == "yard chamber")
    assert route.not_past.name == "interceptor trap"
    assert instead not in route.not_past.instead
    tank = plan_text(ROW.replace("BEHIND", TANK).replace("there: 65 %", "opens: no"))
    assert "stop at the baffle" in tank.routes[0].not_past.instead, "that opens nothing"


def test_an_opening_that_a_push_found_shut_is_known_to_the_trap_beside_it():
    network = network_of(site_of_text(ROW.replace("BEHIND", TRAP), "site", tables()), tables())
    (trap,) = (each for each in network.pieces.values() if each.kind == "stopper")
    assert not trap.shut_beside
    assert network.tried((), ("front chamber",)).pieces[trap.id].shut_beside
    assert not network.tried((), ("yard chamber",)).pieces[trap.id].shut_beside, "far from it"


def test_it_is_marked_where_it_may_begin(capsys):
    """Nobody has measured the 5 to 14 m before the front chamber: the middle of them may be too late."""
    made_ = planned(TANK)
    note = next(each for each in made_.routes if each.opening == "yard chamber").not_past
    assert 5 <= note.at_low_m < 8 < note.at_high_m <= 14.5
    assert front(TANK).sights[-2].reading == show_reading(note.at_low_m, Units.METRIC)
    show_plan(made_, Units.METRIC, Page())
    shown = " ".join(capsys.readouterr().out.split())
    assert f"Not past {show_reading(note.at_low_m, Units.METRIC)}: septic tank, from there to" in shown


@pytest.mark.parametrize("behind", [TRAP, TANK])
def test_how_far_to_push_is_where_it_may_begin(behind):
    """By hand: 5 to 14 m to the chamber, so in the middle 9.5 m; what lies there may begin metres before."""
    made = planned(behind)
    route = next(each for each in made.routes if each.opening == "yard chamber")
    low = show_reading(route.not_past.at_low_m, Units.METRIC)
    assert float(low.split()[0]) < 8
    assert (low, f"no further unless seen open: {route.not_past.name}") in front(behind).keys
    (row,) = (each for each in front(behind).sights if "NOT PAST HERE" in each.see)
    assert row.see.startswith("NOT PAST HERE unless seen open"), "a row says no other than the number"
    assert not any(what == "to the far end" for _, what in front(behind).keys)
    assert f"no further than {low} ({route.not_past.name}) unless the lens shows open" in made.first_step
    assert "far end" not in made.first_step


def test_far_behind_the_end_it_is_no_limit():
    assert any(what == "to the far end" for _, what in front(f"- pipe: 12 m\n      {TRAP}").keys)


def test_what_lies_behind_the_end_is_neither_drawn_nor_marked_above_ground():
    """The drawing is to the scale of the way, and no head is to stand there to be located."""
    card = front(f"- pipe: 3 m\n      {TRAP}")
    marks = [line.text for block in card.blocks for line in block.lines if line.text.startswith("Mark ")]
    assert marks
    assert not any("trap" in text for text in marks)


def test_a_way_that_ends_in_plain_pipe_is_called_after_what_comes_next():
    """`The end: pipe` is nothing that comes into view."""
    text = ROW.replace("look at: rear drain, from yard chamber to front chamber", "look at: rear drain")
    text = text.replace("BEHIND", "- joined by: side drain\n        fitting: 45 degree branch").replace(
        "task:",
        "  - line: side drain\n    size: 100 mm\n    pieces:\n      - opening: gully\n        kind: gully\n"
        "      - pipe: 3 m\ntask:",
    )
    text = text.replace("look at: rear drain", "look at: side drain")
    made = plan_text(text)
    ends = [note.name for note in made.routes[0].sights if note.sight == "end"]
    assert ends == ["where side drain joins rear drain"]
