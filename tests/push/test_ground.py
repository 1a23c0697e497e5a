"""Where above ground to stand: the counter less all that it ran straight down or up. Worked out by hand.

A cleanout 3 ft above its line, 20 ft of pipe, 2 ft straight down, 10 ft of pipe.
"""

from __future__ import annotations

import pytest

from advisor.card.outside import mark_lines
from advisor.kit.loadouts import default_kit
from advisor.plan import Case
from advisor.push.report.build import report_of
from advisor.push.track.depth import path_length
from advisor.push.track.ground import ground_of
from advisor.quantity import Units
from advisor.result.way_model import FoundNote
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from advisor.terminal.push.here import show_ground
from tests.card.cards import card, made
from tests.cases.jobs import rules, tables
from tests.push.test_report import Told, entries, section
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]  # fixture
FOOT = 0.3048
RISER = """
site: invented
region: north america
built: 1985
map: measured
lines:
  - line: main
    kind: drain
    size: 4 in
    material: pvc
    slope: 2 %
    pieces:
      - opening: plug
        kind: yard cleanout
        depth: 3 ft
      - pipe: 20 ft
      - drop: 2 ft
      - pipe: 10 ft
      - end: public sewer
task: {look at: main, complaint: {holding: no, chemicals: no}}
"""
FLAT = RISER.replace("yard cleanout", "end cleanout").replace("        depth: 3 ft\n", "")
NOT_TOLD = RISER.replace("        depth: 3 ft\n", "")
DEEP = RISER.replace("depth: 3 ft", "depth: 8 ft")
CHAMBER = DEEP.replace("yard cleanout", "inspection chamber")
# Half of a triangle from low to high lies below high less the root of half its width times (high - likely): a
# riser of 0.2 to 1.5 m, likeliest 0.6, and a throat of 0.12 to 0.35 m, likeliest 0.2 (rules/tables): 0.95 m.
ENTRY = 1.5 - (0.5 * 1.3 * 0.9) ** 0.5 + 0.35 - (0.5 * 0.23 * 0.15) ** 0.5


def words(text: str, counter: float, distance: float, line: str = "main", opening: str = "plug") -> str:
    network = network_of(site_of_text(text, "site", tables()), tables())
    found = ground_of(network, tables(), opening, line, distance * FOOT, counter * FOOT)
    assert found is not None
    return found.words(Units.INCH)


@pytest.mark.parametrize(
    ("counter", "distance", "along", "upright"),
    [
        (12, 9, "9 ft", "3 ft"),  # 12 - 3
        (
            13,
            9,
            "10 ft",
            "3 ft",
        ),  # the counter ran a foot more than the sheet: it is the counter that is told
        (24, 21, "20 ft", "4 ft"),  # a foot down the drop: 24 - 3 - 1
        (30, 27, "25 ft", "5 ft"),  # behind it: 30 - 3 - 2
    ],
)
def test_riser_and_drop_are_taken_off(counter, distance, along, upright):
    told = f"above ground {along} along the line ({counter} ft in, less {upright} of upright pipe)"
    assert words(RISER, counter, distance) == told


def test_one_place_by_counter_and_by_sheet_is_told_in_one_count():
    """From a trial: a find was 9.7 m down the drain by the sheet and 3.6 m along from a chamber
    that stood 3.6 m down it; that this is 7.2 m in the count of the other nobody told. Plug: the top."""
    assert words(RISER, 20, 9).endswith(": by the counter that is 17 ft down main")  # 20 - 3
    assert "by the counter" not in words(RISER, 13, 9)  # a foot is no other place


def test_on_the_way_down_one_stands_at_the_opening():
    assert words(RISER, 2, 0) == "above ground at plug itself"


def test_without_upright_pipe_the_counter_says_it_all():
    assert words(FLAT, 12, 12) == ""
    assert "less 2 ft of upright pipe" in words(FLAT, 25, 25)  # the drop alone


def test_a_riser_that_nobody_measured_is_as_long_as_usual():
    """By hand, `ENTRY`: 3.1 ft. A depth that is told has the throat in it, and so has this."""
    assert "(12 ft in, less 3.1 ft of upright pipe, assumed)" in words(NOT_TOLD, 12, 9)
    assert card(NOT_TOLD).sights[0].see == "swept throat"
    assert card(NOT_TOLD).sights[0].reading == "2.4 ft"
    guess = RISER.replace("depth: 3 ft", "depth: assumed 3 ft")
    assert "(12 ft in, less 3 ft of upright pipe, assumed)" in words(guess, 12, 9)


@pytest.mark.parametrize(("text", "down"), [(NOT_TOLD, ENTRY), (RISER, 3 * FOOT)])
def test_a_place_is_as_far_along_above_ground_as_down_the_line(text, down):
    """From a trial: one place at 39.4 ft on one screen and at 39.6 ft on another. A tape from the
    plug measures both: the counter less the way down, before anything stands upright."""
    network = network_of(site_of_text(text, "site", tables()), tables())
    plug = next(piece for piece in network.openings() if piece.name == "plug")
    assert path_length(network, tables(), plug, "main", 10 * FOOT) == pytest.approx(
        down + 10 * FOOT, abs=1e-3
    )
    found = ground_of(network, tables(), "plug", "main", 10 * FOOT, down + 10 * FOOT)
    assert found is not None
    assert found.along == pytest.approx(10 * FOOT, abs=1e-3)


@pytest.mark.parametrize(
    ("text", "down"), [(NOT_TOLD, ENTRY), (RISER, 3 * FOOT), (DEEP, 8 * FOOT), (CHAMBER, 8 * FOOT)]
)
def test_the_plan_counts_the_way_down_as_the_push_does(text, down):
    """10 + 20 ft of level pipe as on the sheet, the 2 ft drop and the way down. The bend of the throat is
    drawn by its radius and not by its length: 3 cm."""
    end = next(note for note in made(text)[0].routes[0].sights if note.sight == "drain end")
    assert end.at_m == pytest.approx(down + 32 * FOOT, abs=0.03)
    assert end.along_m == pytest.approx(30 * FOOT, abs=0.03)


def test_nobody_measured_the_depth_so_the_limit_keeps_to_the_least_of_such_a_riser():
    """What must not be passed may come as early as with the shortest riser of the table, 0.2 m."""
    assumed = made(RISER.replace("depth: 3 ft", "depth: assumed 8 ft"))[0].routes[0].not_past
    assert assumed is not None
    assert assumed.at_low_m < 0.2 + 0.2 + 32 * FOOT


def test_a_drop_that_nobody_measured_is_told_as_assumed_once_one_is_behind_it():
    text = RISER.replace("drop: 2 ft", "drop: assumed 2 ft")
    assert words(text, 12, 9).endswith("less 3 ft of upright pipe)")
    assert words(text, 30, 27).endswith("less 5 ft of upright pipe, assumed)")


def test_out_of_a_branch_up_a_stack_the_rise_counts_as_well():
    text = RISER.replace(
        "task:",
        """  - line: stack
    size: 3 in
    pieces:
      - {opening: roof, kind: roof vent, depth: 1 ft}
      - drop: 15 ft
      - bend: long sweep
      - pipe: 4 ft
task:""",
    ).replace("      - pipe: 20 ft\n", "      - pipe: 8 ft\n      - joined by: stack\n      - pipe: 12 ft\n")
    # From the roof: 1 + 15 down, 4 level, then 6 on: 26 in, of which 10 are level.
    assert words(text, 26, 14, opening="roof").startswith("above ground 10 ft along the line")
    # From the plug up it: 3 down, 8 level, 4 level, 5 up: 20 in, of which 12 are level.
    assert words(text, 20, 10, "stack").startswith("above ground 12 ft along the line")


def case(text: str) -> Case:
    return Case(site_of_text(text, "site", tables()), default_kit(tables()), Units.INCH, 200)


def test_a_mark_in_the_report_says_where_to_stand_and_no_more_is_seen_than_the_line_has():
    start: Told = ("start", 5 * FOOT, {"opening": "plug", "direction": "known"})
    at = {"line": "main", "distance": 9 * FOOT}
    told = entries(
        start, ("find", 17 * FOOT, {"what": "roots", **at}), ("mark", 17 * FOOT, {"name": "x", **at})
    )
    made_ = report_of("a job", told, case(RISER), tables(), rules(), rules_dir())
    above = "above ground 9 ft along the line (12 ft in, less 3 ft of upright pipe)"
    assert above in section(made_, "Marks and sketch")
    assert above in section(made_, "Finds")
    # 17 less the 5 at the opening less the 3 ft of riser.
    assert "Seen: 9 ft of the 32 ft of main" in section(made_, "In short")


def test_beside_the_opening_it_is_told_before_the_depth_is_asked_for(shown):
    now = pushed(RISER, "plug", ("sighting", 12 * FOOT, {"what": "nothing"}))
    # That push is told in m: 12 ft are 3.66 m, less 0.91 m are 2.74 m.
    told = " ".join(shown(lambda page: show_ground(now, page)).split())
    assert told == "Above ground 2.74 m along the line (3.66 m in, less 0.91 m of upright pipe)."


@pytest.mark.parametrize(("sure", "stands"), [(0.89, False), (0.91, True), (None, True)])
def test_a_place_that_is_not_sure_is_told_so_and_nobody_is_sent_to_it(sure, stands):
    """From 0.9 on what was seen settles where the head is (rules/signs/where.yaml)."""
    start: Told = ("start", 0.0, {"opening": "plug", "direction": "known"})
    place = {"line": "main", "distance": 9 * FOOT}
    at = place | ({} if sure is None else {"sure": sure, "low": 8.5 * FOOT, "high": 9.5 * FOOT})
    found = ("find", 12 * FOOT, {"what": "roots", **at})
    mark = ("mark", 12 * FOOT, {"name": "x", **at})
    made_ = report_of("a job", entries(start, found, mark), case(RISER), tables(), rules(), rules_dir())
    for heading in ("Marks and sketch", "Finds"):
        told = section(made_, heading)
        assert ("above ground 9 ft" in told) is stands
        assert ("89 % sure of the pipe" in told) is not stands
    assert ("LOCATE IT ABOVE GROUND BEFORE DIGGING" in section(made_, "Finds")) is not stands


def test_beside_the_opening_nobody_is_sent_to_a_pipe_that_is_not_sure(shown):
    """Two pipes lead on alike from a plug of which nobody knows where it leads."""
    text = RISER.replace(
        "    pieces:\n      - opening: plug\n",
        "    pieces:\n      - capped: yes\n      - pipe: 20 ft\n      - opening: plug\n",
    ).replace("yard cleanout", "two-way cleanout")
    assert text.count("capped") == 1
    now = pushed(text, "plug", ("sighting", 12 * FOOT, {"what": "nothing"}), direction="unknown")
    assert now.ground is None
    assert "locate it before anybody digs" in shown(lambda page: show_ground(now, page))


def test_the_card_tells_where_to_stand_beside_the_reading():
    plan, _ = made(FLAT)
    end = next(note for note in plan.routes[0].sights if note.sight == "drain end")
    assert end.at_m - end.along_m == pytest.approx(2 * FOOT, abs=1e-3)
    marks = next(block for block in card(FLAT).blocks if block.title == "Marking it above ground")
    # 0.1 m of open end, 20 + 2 + 10 ft: 32 ft 4 in on the counter, told as 32; two feet of it straight down.
    assert "Mark 32 ft: city sewer, 30 ft along the line above ground." in [line.text for line in marks.lines]
    head_of_drop = next(note for note in plan.routes[0].sights if note.sight == "fall")
    assert head_of_drop.along_m == pytest.approx(head_of_drop.at_m)


def test_what_is_upright_on_the_card_is_what_is_in_a_push_however_long_the_pipe_may_be():
    """A riser with its throat and a drop of 2 ft, as above: no length of pipe is in it."""
    long = NOT_TOLD.replace("pipe: 20 ft", "pipe: assumed 15 to 60 ft")
    plan, _ = made(long)
    end = next(note for note in plan.routes[0].sights if note.sight == "drain end")
    assert end.at_m - end.along_m == pytest.approx(ENTRY + 2 * FOOT, abs=0.01)


def test_the_mark_over_a_stop_is_told_as_the_push_tells_it_and_not_rounded_to_the_limit():
    """From a trial: stopped at 42 ft, `no further than 40 ft`, `40 ft along the line` and in the
    report 39.6 ft. At 15.2 ft, less 3.1 ft of riser with its throat, one stands at 12.1 ft."""
    plan, _ = made(NOT_TOLD)
    bar = FoundNote(
        opening="plug",
        ports=("down",),
        at_m=15.2 * FOOT,
        at_low_m=14 * FOOT,
        what="an earlier stop",
        see="",
        do="",
        missed="",
        not_past=True,
        left="",
    )
    lines = [line.text for line in mark_lines(plan.routes[0], bar, Units.INCH, tables().card)]
    told = next(line for line in lines if "an earlier stop" in line)
    assert "12.1 ft along the line above ground" in told
    assert told.endswith("The head stays before it: no further than 14 ft."), "the limit is that of the card"
