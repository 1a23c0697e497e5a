"""A stop of which more push does harm or wins nothing ends the way on plan and card, as a hole does.

From a trial: an object, dead and hard, wedged the head at 9.2 m, and the push screen said "Do not
go past 9.2 m". The plan printed next sent the head to the far end at 10.5 m, the card's large number with it.
Rule of the trade: what wedged a head is come to from the other side, or located and taken out.
"""

from __future__ import annotations

import re

import pytest

from advisor.card.build import card_of
from advisor.card.content import KEPT
from advisor.card.text import card_text
from advisor.push.log.kinds import BACK, END, FIND, SIGHTING, STOPPED
from advisor.push.met_before import met_before
from advisor.quantity import Units, show_reading
from advisor.result.beyond import limit_of
from advisor.result.build import plan_of
from advisor.result.model import Plan
from advisor.terminal.explain_command import _story
from advisor.terminal.explain_screen import show_story
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.push.asks import Asks
from advisor.terminal.push.begin import begin
from advisor.terminal.push.gates import Gates
from tests.cases.jobs import tables
from tests.push.machines import cutter
from tests.push.test_earlier_stop import numbered
from tests.push.test_wedged_before import BEGUN, planned_after
from tests.push.test_which_spot import CLAY
from tests.terminal.test_now_shown import TEE_PLUG, Told, study_of, tee, tried
from tests.terminal.test_push_session import typed

AT = 4.0
OBJECT: Told = (STOPPED, AT, {"sign": "blocked, object", "feel": "dead"})
BLOW: Told = ("try", AT, {**tried("wedged", spot="")[2], "technique": "quick push"})
OUT: tuple[Told, Told] = ((BACK, 1.0, {}), (END, 1.0, {"reached": False, "out": True}))


@pytest.fixture(scope="module")
def after(tmp_path_factory) -> Plan:
    return planned_after(tmp_path_factory.mktemp("after"), BEGUN, OBJECT, BLOW, *OUT)


def test_the_first_step_goes_no_further_than_the_stop(after, capsys):
    limit = limit_of(after.routes[0])
    assert limit is not None
    assert 3.0 < limit.at_low_m < AT < limit.at_high_m < 5.0
    assert f"no further than {limit.at_low_m:.1f} m (an earlier stop)" in after.first_step
    assert "to the far end" not in after.first_step
    show_plan(after, Units.METRIC, Page())
    told = " ".join(capsys.readouterr().out.split())
    row = r"4 m \([\d.]+ m to [\d.]+ m\): stopped before: an object; it feels dead and hard; "
    assert re.search(row, told)
    assert "Look from before it. Do not go past 4 m." in told


def test_the_card_has_its_number_and_a_row_that_goes_from_no_paper(after):
    card = card_of(after, after.routes[0], tables().card, Units.METRIC, "", False)
    keys = [what for _, what in card.keys]
    assert "no further: an earlier stop" in keys
    assert "to the far end" not in keys
    (row,) = [row for row in card.sights if row.see.startswith("stopped before")]
    assert (row.reading, row.worth, row.missed) == ("4 m", KEPT, "No further. It may lie just ahead.")
    words = " ".join(card_text(card).split())
    assert words.count("stopped before: an object; it feels dead and hard") == 1
    assert "a push was stopped at 4 m" not in words, "its row tells it whole, so that it is no remark as well"


@pytest.mark.parametrize(
    ("told", "ends"),
    [
        ((OBJECT, *OUT), True),
        (((STOPPED, AT, {"sign": "blocked, roots", "feel": "soft"}), *OUT), True),
        (((STOPPED, AT, {"sign": "open pipe ahead", "feel": "soft"}), *OUT), False),  # tried gently again
        ((OBJECT, (SIGHTING, 6.0, {"what": "nothing"}), *OUT), False),
        ((OBJECT, *OUT, cutter(6.0, BEGUN[2]["opening"], BEGUN[2]["direction"])), False),
        (((BEGUN[0], 0.0, {**BEGUN[2], "direction": "upstream"}), OBJECT, *OUT), False),
    ],
)
def test_only_what_stands_on_that_way_and_wins_nothing(told, ends):
    begun = () if told[0][0] == BEGUN[0] else (BEGUN,)
    notes = met_before(study_of(tee()), numbered(*begun, *told))
    on_it = [note.at_m for note in notes if note.not_past and note.lies_on(TEE_PLUG, "down", "", "any")]
    assert on_it == ([pytest.approx(AT)] if ends else [])


def test_what_was_tried_in_vain_counts_for_the_gear_it_was_tried_with():
    """A wall at a fitting: with other gear all of it may be tried anew."""
    study = study_of(tee())
    begun = (BEGUN[0], 0.0, {**BEGUN[2], "loadout": study.kit.loadouts[0].name})
    wall = (STOPPED, 2.0, {"sign": "wall ahead"})
    failed = [
        ("try", 2.0, {**tried("stopped")[2], "technique": name, "loadout": begun[2]["loadout"]})
        for name in study.base.matrix.techniques
        for _ in range(4)
    ]
    (note,) = met_before(study, numbered(begun, wall, *failed, *OUT))
    assert note.gear == begun[2]["loadout"]
    met = met_before(study, numbered(begun, wall, *OUT))
    assert all(each.counted for each in met), "only told where a chance counts it"


# -- the other side first ---------------------------------------------------------------------------

EYE_ABOVE = 3.5  # m of pipe from the eye to the yard chamber
EYE = CLAY.replace(
    "      - pipe: 3.5 m", "      - opening: top eye\n        kind: rodding eye\n      - pipe: 3.5 m"
)
DOWN: Told = (BEGUN[0], 0.0, {"opening": "yard chamber", "direction": "downstream"})
UP: Told = (BEGUN[0], 0.0, {"opening": "front chamber", "direction": "upstream"})
HOLE: Told = (FIND, AT, {"what": "crack with a hole, soil comes in"})


def plan_after(*told: Told) -> Plan:
    study = study_of(EYE)
    return plan_of(study, met_before(study, numbered(*told)))


@pytest.mark.parametrize("what", [OBJECT, HOLE])
@pytest.mark.parametrize(("begun", "other"), [(DOWN, "front chamber"), (UP, "yard chamber")])
def test_the_same_pipe_from_its_other_end_comes_first(what, begun, other):
    """From the top eye, too, it is come to from the side on which it was met from the yard chamber."""
    made = plan_after(begun, what, *OUT)
    assert f"open {other} and push" in made.first_step.lower()
    assert "slowly from the start, look before it, and, if it comes into view, not past it" in made.first_step
    assert made.attempts[0].opening == other
    assert [way.rank for way in made.routes] == [1, 2, 3], "none is lost"
    if begun is DOWN:
        ends = {way.opening: way.ended for way in made.routes}
        assert ends["front chamber"] is None
        eye = ends["top eye"]
        assert eye is not None, "no chance is told of it either"
        assert eye.at_m == pytest.approx(AT + EYE_ABOVE, abs=0.3)
        own = ends["yard chamber"]
        assert eye.at_m - eye.at_low_m > own.at_m - own.at_low_m, "it hangs on a length of the sheet besides"
        assert [way.opening for way in made.routes][1:] == ["yard chamber", "top eye"]


def test_stopped_from_both_ends_it_is_located_and_taken_out():
    made = plan_after(DOWN, OBJECT, *OUT, UP, OBJECT, *OUT)
    assert "(an earlier stop)" in made.first_step
    assert "locate what holds there and mark it" in made.first_step
    assert "slowly from the start" not in made.first_step
    assert [each for each in made.routes[0].sights if each.to_stop_m is not None] == []


def test_with_no_such_thing_the_order_stands():
    soft: Told = (STOPPED, AT, {"feel": "soft"})
    assert plan_after(DOWN, soft, *OUT).routes == plan_after(DOWN).routes


@pytest.mark.parametrize(("begun", "other"), [(DOWN, "front chamber"), (UP, "yard chamber")])
def test_a_push_offers_the_openings_in_the_order_of_that_plan(begun, other, capsys):
    study, page = study_of(EYE), Page()
    log, told = numbered(begun, OBJECT, *OUT), Gates(None, None)
    with typed("b"):
        begin(study, page, Asks(page, Units.METRIC), log, told, lambda _: study)
    offered = capsys.readouterr().out.partition("Where does the rod go in?")[2].split("\n")
    assert next(line.split() for line in offered if line.strip()) == ["1", *other.split()]


# -- what ends a way before that --------------------------------------------------------------------

FAR = """
site: invented
region: north america
roof safe: no
map: measured
lines:
  - line: main
    size: 4 in
    material: pvc
    pieces:
      - opening: roof hole
        kind: roof vent
      - drop: 3 m
      - bend: long sweep
      - pipe: 5 m
      - opening: far plug
        kind: end cleanout
      - pipe: 270 m
      - opening: near plug
        kind: yard cleanout
      - pipe: 10 m
      - end: public sewer
task: {look at: "main, from near plug to public sewer", complaint: {holding: no, chemicals: no}}
"""


@pytest.mark.parametrize(
    ("opening", "reaches", "hardest", "why"),
    [
        ("roof hole", "left out", "ends: nobody goes", "no safe way onto the roof"),
        ("far plug", "; not", "ends: the push", "the push dies on the way at"),
    ],
)
def test_what_ends_a_way_before_the_stop_stays_its_reason(opening, reaches, hardest, why, capsys):
    """From a trial: a roof on which nobody goes, and a toilet from which the rod dies at 9 m, both
    read "an earlier stop" that lies far behind that."""
    study = study_of(FAR)
    met = met_before(study, numbered((BEGUN[0], 0.0, {"opening": "near plug"}), OBJECT, *OUT))
    made = plan_of(study, met)
    show_plan(made, Units.METRIC, Page())
    shown = capsys.readouterr().out.partition("OPENINGS, BEST FIRST")[2]
    row = next(line for line in shown.split("\n") if opening in line)
    assert reaches in row
    assert hardest in row
    show_story(_story(study, "why-not", [opening], met), False, Page())
    told = " ".join(capsys.readouterr().out.split())
    assert why in told
    route = next(each for each in made.routes if each.opening == opening)
    if route.ended is None:
        assert "earlier stop" not in row + told
    else:
        assert f"hardly past {show_reading(route.reach_m, Units.METRIC)}; not" in row
        assert told.index(why) < told.index("an earlier stop")
