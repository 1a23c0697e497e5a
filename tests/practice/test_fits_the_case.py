"""What a drill explains fits its own case: the way the head moves, the gear that is in, what a push shows."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.held import held_by
from advisor.practice.cause import variant_of, what_stops
from advisor.practice.debrief import why_better
from advisor.practice.drills import make, technique
from advisor.practice.scene import School
from advisor.practice.values import LEAVE, Move
from advisor.push.log.sighting import Read, Water
from advisor.push.track.chart import Chart
from advisor.push.track.fix import fix_of
from advisor.push.track.track import Tracker
from advisor.push.track.ways import Intent, ways_from
from advisor.result.spots import by_share
from tests.cases.hazards import DOWN, FIRM, JOBS, LONG_HEAD, SMALL, branch, run, site
from tests.cases.jobs import rules, tables
from tests.practice.school import scene_of, school

pytestmark = pytest.mark.slow  # whole houses or many solutions: seconds each

TO_THE_SEWER = site(
    run("kind: end cleanout", "pipe: 1 m", "joint: offset, step: 25 mm", "pipe: 9 m", size="4 in"), "run"
)
TEE = """
site: a tee on its side
region: north america
built: 1970
lines:
  - line: main
    size: 6 in
    material: PVC
    condition: sound
    pieces:
      - {opening: top cleanout, kind: end cleanout, opens: yes}
      - pipe: 8 m
      - {joined by: branch, fitting: sanitary tee, lies: on its side}
      - pipe: 8 m
      - {end: far sewer}
  - line: branch
    size: 3 in
    material: PVC
    condition: sound
    pieces:
      - {opening: branch cleanout, kind: end cleanout, opens: yes}
      - pipe: 2 m
task: {look at: main}
"""
GEAR = """
kit: one reel
heads: [{head: head, diameter: 25 mm, length: 40 mm}]
springs: [{spring: firm spring, like: small reel, feel: firm}]
rods: [{rod: rod, like: small reel}]
"""


def _school(kit: str) -> School:
    return School(tables(), rules(), school().buildings, kit_of(kit_of_text(kit, "kit"), tables()))


def _spots(study):
    return [(outcome, spot) for outcome in study.outcomes for spot in outcome.spots]


def test_a_rim_that_stops_a_pushed_head_is_not_told_by_what_it_does_to_one_drawn_back():
    """Both rules fire at an offset joint: it faces the head both ways. The head is on its way in."""
    study = _school(SMALL).studied(TO_THE_SEWER, "site", 1)
    rims = [spot for _, spot in _spots(study) if spot.passage.piece.kind == "joint"]
    assert rims
    for spot in rims:
        fired = {f.rule_id for f in spot.rulings[0].firings if f.outcome}
        assert {"rim-faces-head", "rim-catches-on-way-out"} <= fired
        told = " ".join(variant_of(spot, study))
        assert "faces the head." in told
        assert "drawn back" not in told


# What holds a head in each of these is common practice, no source: the one thing that is wrong there. The
# words are those that tell a reader of just that, and of none of the others.
HELD_BY = {
    "out of a tee on its side the wall leads nowhere, the curl decides": (
        site(branch("sanitary tee", extra=", lies: on its side"), DOWN), FIRM, "junction", "natural curl",
    ),
    "an inch of step stands before the nose": (TO_THE_SEWER, SMALL, "joint", "over an edge"),
    "a stiff head of 160 mm does not turn in a 2 in bend": (
        site(run("kind: end cleanout", "pipe: 2 m", "bend: 1/4 bend", "pipe: 5 m", size="2 in"), "run"),
        LONG_HEAD, "bend", "rigid head",
    ),
    "a head of 40 mm is wider than what scale leaves of 1-1/2 in": (
        site(run("kind: end cleanout", "pipe: 9 m", size="1-1/2 in", material="galvanised steel",
                 condition="heavy scale"), "run"),
        LONG_HEAD, "opening", "narrow the bore",
    ),
    "a side leg is missed by keeping to the straight": (
        site(branch("wye", "fixture: basin", "pipe: 4 m"), "side"), SMALL, "junction", "off the straight",
    ),
    "a trap ends the way": (JOBS["stopper"][0], SMALL, "stopper", "Traps turn"),
}  # fmt: skip


@pytest.mark.parametrize("name", HELD_BY)
def test_the_cause_that_is_told_is_what_holds_a_head_there_by_common_practice(name):
    """By the rule about it, never by another trouble's rule that fires there as well."""
    text, kit, kind, words = HELD_BY[name]
    study = _school(kit).studied(text, "site", 1)
    spots = [spot for _, spot in _spots(study) if spot.passage.piece.kind == kind]
    assert spots
    others = {other for *_, other in HELD_BY.values()} - {words}
    for ruling in by_share(spots[0]):
        told = " ".join(what_stops(spots[0], ruling, study))
        assert words in told
        assert not [other for other in others if other in told]


def test_ends_of_a_push_add_up_to_what_does_not_pass():
    """What holds a head in a bend with nothing else against it is what the planner says does not pass."""
    for study in school().sites(3):
        for _, spot in _spots(study):
            held, plain = held_by(spot.spot), spot.spot.plain
            if spot.passage.piece.kind == "bend" and not held["jams"].any() and not held["bore"].any():
                assert float(np.sum([each.mean() for each in held.values()])) == pytest.approx(
                    1 - float(plain.passes.mean()), abs=1e-4
                )
                return
    raise AssertionError("no such bend")


def test_up_the_main_is_not_told_as_down():
    study = _school(SMALL).studied(TEE, "site", 1)
    seen = set()
    for _, spot in _spots(study):
        for ruling in spot.rulings:
            for firing in ruling.firings:
                if firing.outcome and firing.rule_id == "head-takes-wrong-way":
                    seen.add(spot.passage.leaves)
                    assert f"You want it {spot.passage.leaves};" in firing.because
                if firing.outcome and spot.passage.leaves == "up":
                    assert firing.rule_id != "tee-on-its-side"
    assert seen == {"up", "down"}


def test_no_soft_spring_is_spoken_of_where_a_firm_one_is_in():
    study = _school(GEAR).studied(TEE, "site", 1)
    spots = [(outcome, i) for outcome in study.outcomes for i in range(len(outcome.spots))]
    said = [
        line
        for outcome, index in spots
        for name in technique.TRIES
        for line in (
            *variant_of(outcome.spots[index], study),
            *technique.why(outcome.spots[index], study, name),
            *(f.rule.mechanism for r in outcome.spots[index].rulings for f in r.firings if f.outcome),
        )
    ]
    assert any("rolls over" in line for line in said)
    assert not [line for line in said if "soft spring" in line.lower()]


@pytest.mark.parametrize("seed", [1, 2, 5])
def test_the_best_answer_of_the_signs_is_what_a_push_shows_at_the_same_signs(seed):
    """The push companion's own tracker, told what the drill tells, by its own answer of line and way."""
    drill = make("signs", school(), seed)
    told = next(row for row in drill.story if row.startswith("The counter reads")).split()
    counter = float(told[3]) * {"m.": 1, "ft.": 0.3048}[told[4]]
    run_of = drill.asks[1].question.removeprefix("Say ").partition(" is run")[0]
    rest = drill.asks[1].question.partition(". At the lens ")[2]
    side = "ahead" if "toward you" in rest else "behind" if "from behind" in rest else None
    seconds = float(rest.split(" after ")[1].split()[0]) if " after " in rest else None
    network = drill.drain.network
    opening = next(p for p in network.pieces.values() if p.name == drill.about and p.hole)
    ways, _ = ways_from(network, opening, 60.0, tables(), Intent())
    tracker = Tracker(Chart(network, ways, tables().where), network.map_quality)
    belief = tracker.replay([Read(counter), Water(None, run_of, seconds, side)])
    where = fix_of(tracker, belief).best
    way = "down" if where.with_flow else "up"
    assert drill.asks[1].best.words.startswith(f"it went {way} the line")


def test_nothing_is_said_for_a_try_where_leaving_is_the_best():
    """A try that often passes is no reason to make it where the way as a whole is not worth it."""
    _, push = scene_of(1)
    spot = next(spot for way in push.ways() for spot in push.truth.believed(way).spots)
    zero = np.zeros(push.study.worlds)
    leave, tried = Move(LEAVE, zero, 0.0, zero), Move("quick push", zero, 0.7, zero)
    told = why_better(push, spot, leave, tried)
    assert told
    assert not [line for line in told if line.startswith("Cause:")]
    assert why_better(push, spot, tried, leave) == technique.why(spot, push.study, "quick push")
