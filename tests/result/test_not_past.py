"""A trap, a tank or the sewer at or behind the end of a way is told as a stop; nobody is sent on into it."""

from __future__ import annotations

from functools import cache

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Dimension, Units, show, show_reading
from advisor.result.beyond import turn_before
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.hazards import run, site
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


# By hand: 4 to 12 m to the bend, then 2 to 4 m to the sewer, so all in all from 6 m on.
FAR_BEND = site(
    run(
        "kind: end cleanout, opens: yes",
        "pipe: assumed 4 to 12 m",
        "bend: 1/8 bend",
        "pipe: assumed 2 to 4 m",
    ),
    "run",
)


def test_behind_a_turn_that_may_come_late_the_limit_is_told_from_the_turn(capsys):
    """A reading at which the bend may not have come yet is of no use to whoever has seen it later."""
    made = plan_text(FAR_BEND)
    route = made.routes[0]
    (bend,) = (each for each in route.sights if each.to_stop_m is not None)
    assert bend.at_high_m > route.not_past.at_low_m, "the bend may come behind the first reading of the sewer"
    assert bend.to_stop_m == pytest.approx(2), "the least of 2 to 4 m"
    rows = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False).sights
    (row,) = (each for each in rows if "NOT PAST HERE unless seen open: " in each.see)
    assert f"Past {bend.name}: at most {show(bend.to_stop_m, Dimension.LENGTH, Units.METRIC)} more" in row.see
    # Whoever is told to count from it must see it coming: its row goes after steps that the plan tells too.
    (seen,) = (each for each in rows if each.see == bend.name)
    assert not seen.hard
    assert seen.worth > worth.FIRST_STEP
    show_plan(made, Units.METRIC, Page())
    assert f"Once the {bend.name} was passed: at most" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("told", [("4 to 12 m", "8 m"), ("2 to 4 m", "0.1 m")])
def test_a_turn_that_comes_before_it_for_sure_or_right_before_it_needs_no_word(told):
    route = plan_text(FAR_BEND.replace(*told)).routes[0]
    assert turn_before(route.sights, route.not_past.at_low_m) is None


# By hand: 5 to 15 m to the front chamber, 8 m on to the sewer at the least. Told from the opening it may
# begin at 13 m, where the chamber itself may not have come yet.
FAR_CHAMBER = """
site: invented
region: britain
built: 2005
map: guess
lines:
  - line: house drain
    size: 110 mm
    material: plastic
    pieces:
      - opening: side chamber
        kind: inspection chamber
      - pipe: assumed 5 to 15 m
      - opening: front chamber
        kind: inspection chamber
      - pipe: 8 to 10 m
      - end: public sewer
task:
  look at: "house drain, from side chamber to front chamber"
  complaint: {gas smell: no, holding: no, chemicals: no}
"""


def test_behind_a_chamber_that_may_come_late_it_is_told_from_the_chamber(capsys):
    made = plan_text(FAR_CHAMBER)
    route = next(each for each in made.routes if each.opening == "side chamber")
    (chamber,) = (each for each in route.sights if each.to_stop_m is not None)
    assert (chamber.name, chamber.sight) == ("front chamber", "end")
    assert chamber.to_stop_m == pytest.approx(8)
    rows = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False).sights
    (row,) = (each for each in rows if "NOT PAST HERE" in each.see)
    assert "Past front chamber: at most 8 m more" in row.see


@pytest.mark.parametrize("behind", [TRAP, TANK])
def test_the_limit_is_the_least_by_the_sheets_own_lengths(behind):
    """By hand: 5 m to the chamber at the least. What catches a head is dug out: no rare case is left out."""
    made = planned(behind)
    note = next(each for each in made.routes if each.opening == "yard chamber").not_past
    entry = 0.4  # the way from the rim of a chamber to its channel, at the most
    assert 5 <= note.at_low_m <= 5 + entry
    assert note.unless == "unless the lens shows open pipe ahead"


def test_a_limit_whose_place_is_known_is_passed_by_nobody():
    made = plan_text(FAR_BEND.replace("assumed 4 to 12 m", "4 m").replace("assumed 2 to 4 m", "3 m"))
    (route,) = made.routes
    assert route.not_past.unless == ""
    assert "unless" not in made.first_step
    card = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)
    assert f"no further: {route.not_past.name}" in [what for _, what in card.keys]
    assert not [row for row in card.sights if "unless" in row.see]


# By hand: 4 to 16 m to the tight turn, then 2 to 4 m to the sewer, so that this may begin from 6 m on.
TURN_IN_IT = FAR_BEND.replace("4 to 12 m", "4 to 16 m").replace("1/8 bend", "1/4 bend")
TURN_BEFORE = TURN_IN_IT.replace("assumed 4 to 16 m", "4 m")


@pytest.mark.parametrize(("text", "may_be"), [(TURN_IN_IT, True), (TURN_BEFORE, False)])
def test_where_it_may_begin_no_try_at_a_hard_place_is_offered_plainly(text, may_be, capsys):
    made = plan_text(text)
    route = made.routes[0]
    (turn,) = route.passages
    only = f"No push here unless the lens shows open pipe ahead: it may be the {route.not_past.name}."
    assert turn.only_if.startswith(only) is may_be
    card = card_of(made, route, tables().card, Units.METRIC, "2026-11-26", False)
    (row,) = (each for each in card.sights if each.hard)
    assert (row.do.startswith(only), row.heed.startswith(only)) == (may_be, may_be)
    assert ("Seen open? Push gently" in row.do) is may_be
    rows = [each.see for each in card.sights]
    begin = next(n for n, see in enumerate(rows) if "NOT PAST HERE" in see)
    assert (begin < card.sights.index(row)) is may_be, "in the order in which they may be met"
    assert card.sights[begin].reading == show_reading(route.not_past.at_low_m, Units.METRIC)
    held = [block for block in card.stuck if any(only in line.text for line in block.lines[:1])]
    assert len(held) == may_be
    show_plan(made, Units.METRIC, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert (only in said.partition("1/4 bend, with the flow")[2].partition("Do:")[0]) is may_be
