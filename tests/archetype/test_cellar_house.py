"""The old British house or inn with a cellar, and what lying in a cellar changes for an opening.

That its drain runs below the cellar or along its wall, has an interceptor trap in its last chamber and pumps
what lies lower is common practice, no source. That sewage gas is heavier than air: rules/sources.yaml,
niosh-hydrogen-sulfide.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.archetype import read_archetype, typical
from advisor.interview.answers import Answer
from advisor.outcome.facts import facts_of_place
from advisor.practice.drills import make
from advisor.site.build import network_of
from advisor.site.lies import first_outside
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import planned, tables
from tests.interview.small_session import session
from tests.practice.school import school

BUILDING = "cellar-house"
START = (Answer("region", "job", ("britain",)), Answer("built", "job", ("1885",)))


def sheet():
    building = read_archetype(rules_dir() / "archetypes" / f"{BUILDING}.yaml", tables())
    return site_of_text(typical(building, 1885), BUILDING, tables())


def test_a_house_or_an_inn_with_a_cellar_is_offered_of_its_years():
    (word,) = (o.words for o in session().ask(START, "building").options if o.value == BUILDING)
    assert "house" in word
    assert "inn" in word
    assert "cellar" in word
    newer = (START[0], Answer("built", "job", ("1985",)))
    assert BUILDING not in {o.value for o in session().ask(newer, "building").options}


def test_what_is_in_the_cellar_may_be_there_or_not_and_the_trap_lets_a_rod_by_at_its_arm_only():
    network = network_of(sheet(), tables())
    inside = {p.name: p for p in network.openings() if p.in_cellar}
    assert {p.hole.kind for p in inside.values()} == {
        "inspection chamber",
        "floor cleanout",
        "floor drain",
        "fixture tee",
    }
    assert all(0 < p.hole.there < 1 for p in inside.values())
    assert all(p.hole.crawl is False for p in inside.values())
    (trap,) = (p for p in network.pieces.values() if p.kind == "stopper")
    (arm,) = (p for p in network.openings() if p.hole.kind == "disconnecting trap rodding arm")
    below = network.downstream(trap.id)
    assert arm.id in below
    assert not any(each.id in below for each in inside.values())


@pytest.mark.parametrize("kind", ["opening", "technique"])
def test_it_is_practised_like_any_other(kind):
    building = read_archetype(rules_dir() / "archetypes" / f"{BUILDING}.yaml", tables())
    drill = make(kind, replace(school(), buildings=(building,)), 1)
    assert drill.asks
    assert drill.drain.network.region == "britain"


def test_pipe_that_runs_below_the_house_is_not_dug_up():
    """Its gully stands outside at the back, and from there it runs below the cellar to the street."""
    drain = sheet().model.lines[0]
    outside = drain.pieces[first_outside(drain, tables())]
    assert outside.landmark == "front wall"


@pytest.mark.parametrize(
    ("cellar", "traffic"), [("", True), (", cellar: no", True), (", cellar: yes", False)]
)
@pytest.mark.parametrize("kind", ["inspection chamber", "disconnecting trap rodding arm"])
def test_a_chamber_in_a_cellar_is_aired_by_its_windows_and_no_car_passes_it(kind, cellar, traffic):
    plan_ = planned(site(run(f"kind: {kind}{cellar}, depth: 500 mm"), "run", "britain"), SMALL, worlds=50)
    notes = {note.id: note.text for note in plan_.routes[0].cautions}
    assert ("traffic" in notes) == traffic
    assert ("Open windows" in notes["sewer-gas"]) != traffic
    assert ("Stand in fresh air" in notes["sewer-gas"]) == traffic
    assert "confined-space" in notes


@pytest.mark.parametrize(
    ("told", "crawl"), [("", None), (", cellar: yes", False), (", cellar: yes, crawl: yes", True)]
)
def test_nobody_crawls_in_a_cellar_unless_it_is_told(told, crawl):
    text = site(run(f"kind: floor cleanout{told}"), "run")
    (way_in,) = network_of(site_of_text(text, "job", tables()), tables()).openings()
    assert facts_of_place(way_in, tables())["opening.crawl"] is crawl
