"""While a push is open, what held it counts on every other way that comes to that place the same way.

From a trial: held 6.2 m up the drain from the front chamber, the push told "other chamber: likely (87 %)",
the chamber below, whose rod goes through the front chamber and up the same pipe to the same rim; once the
push was over the plan had it last. Places are arithmetic on the sheet; chances are by the rule of succession.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.push.before.shown_so_far import shown_by
from advisor.push.now.evidence import planned_anew
from advisor.push.onward import onward
from advisor.result.stopped_before import StoppedBefore, Visit
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.cases.jobs import rules, tables
from tests.push.test_report import entries
from tests.push.test_spent_no_first import DRAIN, RIM
from tests.terminal.test_now_shown import Told, case_of, pushed, shown

__all__ = ["shown"]  # fixture
FRONT, OTHER, YARD = "front chamber", "other chamber", "yard chamber"
LOWER = "      - opening: other chamber\n        kind: inspection chamber\n        depth: 0.9 m\n"
SITE = DRAIN.replace("      - pipe: 10 m\n", f"      - pipe: 10 m\n{LOWER}      - pipe: 14 m\n")
SEEN: Told = ("sighting", 2.0, {"what": "nothing"})


def gear() -> str:
    return case_of(SITE).kit.loadouts[0].name


def held(text: str = SITE, going_on: int = 1, elsewhere: bool = True) -> Case:
    """The case as it stands while the push from the front chamber is held: nothing was recognized."""
    start: Told = ("start", 0.0, {"opening": FRONT, "direction": "upstream", "loadout": gear()})
    case = replace(case_of(text), sheet=site_of_text(text, "site", tables()), worlds=200)
    so_far = shown_by(entries(start, SEEN, RIM), case.kit, tables(), case.sheet)
    return so_far.known_to(case, going_on, elsewhere)


@cache
def made(text: str = SITE, elsewhere: bool = True) -> Study:
    return plan(held(text, elsewhere=elsewhere), tables(), rules())


def way(opening: str, study: Study) -> RouteOutcome:
    return next(
        each
        for each in study.outcomes
        if (each.route.opening.name, each.loadout.name) == (opening, gear()) and each.route.covers >= 1
    )


def test_the_way_through_that_opening_comes_to_the_same_place():
    (stop,) = way(OTHER, made()).way.stops
    # 0.9 m down, 10 m to the front chamber; the 7.1 m from there begin 0.9 m above its channel.
    assert stop.at == pytest.approx(
        0.9 + 10 + 7.1 - 0.9, abs=0.3
    )  # the rod lies a little longer than the pipe
    assert stop.chance == pytest.approx(1 / 3)  # there once, never past: (0 + 1) / (1 + 2)
    assert stop.told == (FRONT, 7.1)


def test_the_push_weighs_it_itself_on_its_own_way_and_the_other_side_does_not_know_of_it():
    assert not way(FRONT, made()).way.stops
    assert not way(YARD, made()).way.stops


def test_the_plan_that_the_push_goes_by_does_not_change_under_its_hands():
    assert not held(elsewhere=False).stops
    assert not way(OTHER, made(elsewhere=False)).way.stops


def test_once_it_is_over_it_counts_on_both():
    over = plan(held(going_on=0), tables(), rules())
    assert way(FRONT, over).way.stops
    assert way(OTHER, over).way.stops


def test_past_what_joins_on_the_way_it_may_be_in_another_pipe():
    branch = "  - line: sink line\n    pieces:\n      - fixture: basin\n      - pipe: 2 m\n"
    joined = "      - pipe: 4 m\n      - joined by: sink line\n        fitting: wye\n      - pipe: 4 m\n"
    text = SITE.replace("      - pipe: 8 m\n", joined).replace("task:", f"{branch}task:")
    assert not way(OTHER, made(text)).way.stops


def test_where_nobody_knows_which_way_it_led_nothing_is_counted_elsewhere():
    (stop,) = held().stops
    unknown = replace(held(), stops=(replace(stop, ports=("down", "up")),))
    assert not way(OTHER, plan(unknown, tables(), rules())).way.stops


def test_what_comes_after_is_told_with_what_its_chances_know(shown):
    now = pushed(SITE, FRONT, SEEN, RIM, direction="upstream")
    parts = case_of(SITE).kit.parts(now.push.loadout.name)
    stop = StoppedBefore(FRONT, ("up",), 7.1, (Visit(parts, False, 1),), 1, under_way=1)

    def after(*stops: StoppedBefore) -> str:
        case = replace(case_of(SITE), stops=stops)
        anew = planned_anew(case, now.push.course, now.tries, now.wrong_port)
        return shown(lambda page: show_plan_anew(now, anew, replace(found(anew), after=ways(anew)), page))

    def found(anew: Study):
        ahead = onward(anew, now)
        assert ahead is not None
        return ahead

    def ways(anew: Study):
        return tuple((way(name, anew), 0.5) for name in (YARD, OTHER))

    told = after(stop)
    assert (
        "The way from other chamber comes to the stop at 7.1 m the same way: its chance knows of it." in told
    )
    assert "The other chances know nothing of it" in told
    assert "These chances know nothing of the stop at 7.1 m" in after()


def test_the_place_is_at_the_lead_of_its_own_opening():
    deep = SITE.replace("depth: 0.9 m\n      - pipe: 10 m", "depth: 1.9 m\n      - pipe: 10 m")
    (stop,) = way(OTHER, made(deep)).way.stops
    # 1.9 m of the 7.1 m hang in the front chamber: 5.2 m up the drain.
    assert stop.at == pytest.approx(0.9 + 10 + 5.2, abs=0.3)  # the rod lies a little longer than the pipe
