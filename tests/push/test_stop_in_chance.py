"""The plan's chance knows of a place that held a push though nothing hard is drawn there.

From a trial: a rim at 3.7 m held the slim head and only a guide got it past; the plan after it
proposed a bigger head without one, "likely (99 %), no spot on it is hard". How often gear comes past is by
the rule of succession (Laplace): (times past + 1) of (times there + 2), worked out by hand beside each.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.walk import walk_on
from advisor.plan import Case, plan
from advisor.push.before.shown_so_far import shown_by
from advisor.push.before.stops_counted import on_their_lines
from advisor.push.met_before import counted_of_pushes, met_before, told_of_pushes
from advisor.push.now.seen import Taken
from advisor.push.track.leg import Leg
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.target_model import SeenNote
from advisor.result.told import found_on
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.cases.jobs import rules, tables
from tests.push.machines import cutter
from tests.push.test_report import Told, entries

SITE = """
site: invented
region: britain
built: 1962
map: measured
lines:
  - line: drain
    kind: drain
    size: 100 mm
    material: plastic
    condition: sound
    slope: 1:40
    pieces:
      - opening: yard plug
        kind: rodding eye
        opens: yes
      - pipe: 8 m
      - end: public sewer
task:
  look at: drain
  complaint:
    holding: no
    chemicals: no
"""
KIT = """
kit: van
heads:
  - head: slim head
    like: small reel
  - head: big head
    like: large reel
springs:
  - spring: soft spring
    like: small reel
  - spring: firm spring
    like: large reel
rods:
  - rod: slim reel
    like: small reel
    length: 30 m
  - rod: big reel
    like: large reel
    length: 60 m
guides:
  - guide: ring
    length: 15 mm
    diameter: 50 mm
loadouts:
  - {head: slim head, spring: soft spring, rod: slim reel}
  - {head: slim head, spring: soft spring, rod: slim reel, guide: ring}
  - {head: big head, spring: firm spring, rod: big reel}
"""
SLIM, RING, BIG = "slim head on slim reel", "slim head on slim reel + ring", "big head on big reel"
AT = 3.7
RIM: Told = ("stopped", AT, {"sign": "rim ahead", "feel": "springs back"})
ON: Told = ("sighting", 5.0, {"what": "nothing"})
END: Told = ("end", AT, {"reached": False, "out": True})  # where the head was held, or drawn back to


def begun(gear: str) -> Told:
    return "start", 0.0, {"opening": "yard plug", "direction": "downstream", "loadout": gear}


def tried(technique: str, outcome: str, **more) -> Told:
    return "try", AT, {"technique": technique, "outcome": outcome, "loadout": SLIM, **more}


TURNED, RINGED = tried("turn the rod", "stopped"), tried("guide", "passed", outside=True)
HELD = (begun(SLIM), RIM, TURNED, RINGED, ON, END)


@cache
def case() -> Case:
    kit = kit_of(kit_of_text(KIT, "kit"), tables())
    return Case(site_of_text(SITE, "site", tables()), kit, Units.METRIC, 300)


def shown(*told: Told):
    known = case()
    return shown_by(entries(*told), known.kit, tables(), known.sheet)


@cache
def study(*told_of: int):
    """After HELD, or before any push."""
    return plan(shown(*HELD).known_to(case()) if told_of else case(), tables(), rules())


def chances(*told: Told) -> dict[str, float]:
    """How likely each gear comes past what held pushes; without what is not known to hold it."""
    found = {}
    for stop in shown(*told).stops:
        for gear in case().kit.loadouts:
            met = stop.met_by(gear, study().drawn)
            if met is not None:
                found[gear.name] = met.chance
    return found


def test_the_gear_that_passed_is_likeliest_and_what_never_was_there_is_even():
    # Slim was there once and did not come past: (0 + 1) / (1 + 2); with the ring it did: (1 + 1) / (1 + 2).
    assert chances(*HELD) == pytest.approx({SLIM: 1 / 3, RING: 2 / 3, BIG: 1 / 2})


@pytest.mark.parametrize(
    ("told", "slim"),
    [
        ((begun(SLIM), RIM, END), 1 / 3),
        ((begun(SLIM), RIM, ON, END), 2 / 3),  # it came past, whatever was told of a try
        ((begun(SLIM), RIM, tried("turn the rod", "passed"), ON, END), 2 / 3),
        ((begun(SLIM), RIM, END, begun(SLIM), RIM, END), 1 / 4),  # (0 + 1) / (2 + 2)
        ((begun(SLIM), RIM, END, begun(SLIM), ON, END), 2 / 4),  # (1 + 1) / (2 + 2)
    ],
)
def test_every_push_that_came_there_counts_once(told, slim):
    assert chances(*told)[SLIM] == pytest.approx(slim)


@pytest.mark.parametrize(
    "told",
    [
        # A wall of dirt that a machine was run past since is there no more.
        (begun(SLIM), ("stopped", AT, {"sign": "blocked, roots"}), cutter(8.0, "yard plug", "downstream")),
        # Of a hard spot the plan has a chance of its own.
        (begun(SLIM), RIM, tried("turn the rod", "passed", spot="90° bend"), ON),
        # Held as it was drawn back: no stop of the way in.
        (begun(SLIM), ON, RIM),
    ],
)
def test_what_is_none_on_the_way_in_or_has_its_chance_is_not_counted(told):
    assert chances(*told, END) == {}


def test_held_on_the_way_back_it_came_past_all_the_same():
    # It was held there on its way in and came past, so (1 + 1) / (1 + 2); what held it going home is no stop.
    assert chances(begun(SLIM), RIM, ON, RIM, END)[SLIM] == pytest.approx(2 / 3)


def test_what_stood_at_the_far_end_is_the_end_and_no_stop_before_it():
    at_end: Told = ("stopped", 8.6, {"sign": "wall ahead"})  # the way is about 8.8 m
    so_far = shown(begun(SLIM), at_end, ("end", 8.6, {"reached": True, "out": True}))
    assert so_far.stops
    made = plan(so_far.known_to(case()), tables(), rules())
    assert not any(each.way.stops for each in made.outcomes)


def test_with_open_pipe_ahead_it_was_the_rod_that_was_at_its_end_and_tells_of_no_other():
    soft = ("stopped", AT, {"sign": "open pipe ahead", "feel": "soft"})
    assert chances(begun(SLIM), soft, END) == pytest.approx({SLIM: 1 / 3})


def test_the_way_is_reached_in_so_many_of_the_worlds_and_in_the_fewer_where_in_the_more():
    before, after = ({o.loadout.name: o for o in study(*on).outcomes} for on in ((), (1,)))
    share = {SLIM: 1 / 3, RING: 2 / 3, BIG: 1 / 2}
    for name, outcome in after.items():
        (stop,) = outcome.way.stops
        assert float(np.mean(stop.passes)) == pytest.approx(share[name])  # 300 worlds hold each whole
        assert outcome.walk.arrived == pytest.approx(before[name].walk.arrived * stop.passes)
    slim, big, ring = (after[name].way.stops[0].passes for name in (SLIM, BIG, RING))
    assert np.all(slim <= big)
    assert np.all(big <= ring)


def test_a_head_that_is_past_it_has_it_behind():
    outcome = next(each for each in study(1).outcomes if each.loadout.name == SLIM)
    drawn = study(1).drawn
    beyond, short = (walk_on(outcome.way, outcome.spots, drawn, 0, at).arrived.mean() for at in (4.0, 3.0))
    assert float(short) < float(beyond) / 2


def test_the_push_that_is_open_weighs_its_own_stops_itself():
    so_far = shown(*HELD)
    assert so_far.known_to(case()).stops
    assert not so_far.known_to(case(), going_on=1).stops


@cache
def planned():
    standing = entries(*HELD)
    made = plan_of(study(1), met_before(study(1), standing))
    stopped, counted = told_of_pushes(study(1), standing), counted_of_pushes(made, study(1), standing)
    return made.model_copy(update={"stopped": stopped, "counted": counted})


def test_the_plan_goes_with_what_passed_and_says_nowhere_that_nothing_is_hard(capsys):
    first, before = planned().routes[0], next(o for o in study().outcomes if o.loadout.name == RING)
    assert first.loadout.name == RING
    assert first.chance == pytest.approx(before.chance * 2 / 3, abs=0.01)
    show_plan(planned(), Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split())
    assert "No spot on it is hard" not in told
    assert told.count("Of what pushes met, the chances of getting there count") == 1
    assert "the same way in, the stop at 3.7 m from yard plug" in told
    assert "This gear comes past it: likely (67 %), by what came of it there before (1 of 1 times)" in told
    assert "end because what held a push at 3.7 m before holds them too" in told


def test_gear_that_never_was_there_is_told_so():
    big = replace(case(), kit=replace(case().kit, loadouts=case().kit.loadouts[2:]))
    made = plan_of(plan(shown(*HELD).known_to(big), tables(), rules()))
    (row,) = found_on(made, made.routes[0])
    assert (row.at_m, row.not_past) == (AT, False)
    assert row.do == (
        "Gently to 3.7 m, and look before it. "
        "This gear comes past it: even (50 %). It was never there, so nobody knows."
    )


def test_where_a_push_saw_it_whole_its_earlier_stop_is_told_all_the_same(capsys):
    """A push came through it all, and yet the place that held it may hold the next."""
    whole = SeenNote(told=("Seen whole.",), opening="yard plug", gear=RING)
    show_plan(planned().model_copy(update={"seen": whole}), Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split())
    assert "earlier stop, at 3.7 m" in told.partition("BEST FIRST")[2].partition("ORDER OF")[0]


def went(*lines: str, until: float = 9.0, by_passed: bool = True) -> Taken:
    """A way of 3 m of each of these lines."""
    piece = next(iter(study().network.pieces.values()))
    legs = (Leg(piece, "up", "down", 3.0 * i, 3.0, 0.0, line) for i, line in enumerate(lines))
    return Taken(tuple(legs), until, by_passed, 9.0, "down")


TWO_PUSHES = (begun(SLIM), RIM, END, begun(SLIM), ON, END)  # held in the first, past it in the second
FIRST, SECOND = 1, 4  # the entries that they began with


@pytest.mark.parametrize(
    ("ways", "line", "visits"),
    [
        ((), None, 2),  # nobody knows: it counts on every way from there
        (((FIRST, went("drain", "sink line")),), "sink line", 2),  # 3.7 m in it is past the first 3 m
        (((FIRST, went("drain", "sink line")), (SECOND, went("drain", "drain"))), "sink line", 1),
        (((FIRST, went("drain", "sink line", until=3.0)),), None, 2),  # sure no further than the fork
        (((FIRST, went("drain", "sink line", by_passed=False)),), None, 2),  # nothing was passed that tells
    ],
)
def test_it_counts_in_the_line_in_which_it_surely_was(ways, line, visits):
    (stop,) = on_their_lines(shown(*TWO_PUSHES).stops, ways)
    assert (stop.line, len(stop.visits)) == (line, visits)


@pytest.mark.parametrize(("line", "counts"), [(None, True), ("drain", True), ("sink line", False)])
def test_a_way_that_does_not_go_through_that_line_does_not_come_to_it(line, counts):
    stops = tuple(replace(each, line=line) for each in shown(*HELD).stops)
    made = plan(replace(case(), stops=stops), tables(), rules())
    assert all(bool(each.way.stops) is counts for each in made.outcomes)
