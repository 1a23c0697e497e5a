"""A place that held a push counts on every way that goes through it the same way, from wherever it comes.

From a trial: a bend 8.5 ft past a tie-in held the rod from one toilet; the plan after it sent him
to the other toilet, "hardest spot: none", 40 min to take it off, to meet the same bend. The reading there is
arithmetic on the lengths of the sheet; the chance is by the rule of succession as from its own opening.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.outcome.assess import RouteOutcome
from advisor.plan import plan
from advisor.push.before.stops_counted import came_through, on_their_lines
from advisor.push.met_before import counted_of_pushes, met_before
from advisor.push.now.seen import Taken, runs_of
from advisor.push.track.leg import Leg
from advisor.result.build import plan_of
from advisor.result.stopped_before import StoppedBefore, Visit, by_stops
from advisor.result.told import found_on
from advisor.site.sheet import site_of_text
from advisor.worlds.spread import middle
from tests.cases.jobs import rules, tables
from tests.push.test_report import entries
from tests.push.test_stop_in_chance import AT, END, HELD, RIM, SITE, SLIM, begun, case, shown

# Five metres above the yard plug stands another that leads the same way: 3.7 m from the yard plug is 8.7 m
# from that, and 5 + 3.7 = 8.7 m down the line.
ABOVE = SITE.replace("      - opening: yard plug", "      - opening: top plug\n        kind: rodding eye\n"
                     "        opens: yes\n      - pipe: 5 m\n      - opening: yard plug")  # fmt: skip
PLACE = 5 + AT


@cache
def both():
    return plan(replace(case(), sheet=site_of_text(ABOVE, "site", tables())), tables(), rules())


def from_top() -> RouteOutcome:
    return next(
        each
        for each in both().outcomes
        if (each.route.opening.name, each.loadout.name) == ("top plug", SLIM) and each.route.covers >= 1
    )


def held_at(place: float | None = PLACE, fall: float = 1.0, line: str = "drain") -> StoppedBefore:
    (stop,) = shown(begun(SLIM), RIM, END).stops
    return replace(stop, line=line, place=place, fall=fall)


def met_on(*stops: StoppedBefore):
    made = both()
    return by_stops(from_top(), stops, made.drawn, made.network).way.stops


def test_the_way_from_another_opening_knows_of_it_at_its_own_reading():
    (stop,) = met_on(held_at())
    end = middle(from_top().march.end.at)  # the line is 13 m long
    assert stop.at == pytest.approx(end - (13 - PLACE), abs=0.01)
    assert stop.chance == pytest.approx(1 / 3)  # there once, never past: (0 + 1) / (1 + 2)
    assert stop.told == ("yard plug", AT)


@pytest.mark.parametrize(
    "stop",
    [
        held_at(place=None),  # nobody knows surely where it lies
        held_at(fall=-1.0),  # met from its other side: a rim seen from there is none from here
        held_at(line="sink line"),
        held_at(place=0.3),  # at the very place where this one comes in: it may lie behind it
        replace(held_at(), gear=frozenset()),  # the rod was at its end: no place that another comes to
    ],
)
def test_where_that_is_not_sure_it_does_not_count(stop):
    assert not met_on(stop)


def test_held_from_both_it_is_one_place_with_what_came_of_it_in_both():
    own = replace(held_at(), opening="top plug", at=PLACE, visits=(Visit(held_at().visits[0].gear, True, 9),))
    (stop,) = met_on(held_at(), own)
    assert (stop.came, stop.times) == (1, 2)
    assert stop.told is None, "it has a reading of its own"


def test_the_plan_tells_from_where_it_is_known_and_goes_slowly_from_where_it_may_begin():
    sheet = site_of_text(ABOVE, "site", tables())
    made = plan(replace(case(), sheet=sheet, stops=(held_at(),)), tables(), rules())
    told = plan_of(made, met_before(made, entries(*HELD)))
    way = next(each for each in told.routes if each.opening == "top plug")
    (row,) = found_on(told, way)
    assert "in from yard plug at 3.7 m" in row.see
    assert row.at_low_m == pytest.approx(0.9 * row.at_m), (
        "counter and sheet may part by a tenth of so much rod"
    )
    said = counted_of_pushes(told, made, entries(*HELD))
    assert "the stop at 3.7 m from yard plug" in said
    assert "Ways in from top plug go through the same place the same way" in said


def way_of(until: float = 20.0, first: float = 0.0) -> Taken:
    """A way of 20 m down the drain, that comes into it after `first` m of another line."""
    piece = next(iter(both().network.pieces.values()))
    legs = (
        Leg(piece, "up", "down", 0.0, first, 0.0, "sink line"),
        Leg(piece, "up", "down", first, 20.0 - first, 5.0, "drain"),
    )
    return Taken(legs if first else legs[1:], until, True, 20.0, "down")


def placed(taken: Taken) -> StoppedBefore:
    told = (begun(SLIM), RIM, END)
    (run,) = runs_of(entries(*told))
    stops = on_their_lines(shown(*told).stops, [(run.started.number, taken)])
    return came_through(stops, [(run, taken)], case().kit, tables().where)[0]


def test_its_place_is_told_where_the_way_is_sure():
    assert placed(way_of()).place == pytest.approx(PLACE)
    assert placed(way_of(until=3.8)).place is None
    assert placed(way_of(first=3.5)).place is None  # it may lie in the sink line


def test_a_push_from_elsewhere_that_came_through_it_counts_as_come_past():
    beyond = ("sighting", 9.5, {"what": "nothing"})  # by the sheet it lies at 3.7 m there too, in `way_of`
    told = (begun(SLIM), RIM, END, begun(SLIM), beyond, END)
    first, second = runs_of(entries(*told))
    second = replace(second, opening="top plug")
    held = replace(placed(way_of()), push=first.started.number)

    def visits(until: float) -> list[bool]:
        ways = [(first, way_of()), (second, way_of(until))]
        (stop,) = came_through((held,), ways, case().kit, tables().where)
        return [each.passed for each in stop.visits]

    assert visits(20.0) == [False, True]
    assert visits(3.9) == [False], "nobody knows whether it came so far in that line"
