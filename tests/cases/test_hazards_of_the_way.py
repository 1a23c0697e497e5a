"""Cautions of a way: none weakened by an option, none told of where it cannot be."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.archetype.building import archetypes
from advisor.archetype.typical import typical
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.rulebase.trace import Firing
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.hazards import SMALL, STIFF, TWO_HEADS, run, site
from tests.cases.jobs import planned, rules, tables
from tests.cases.test_every_rule import case, studied
from tests.cases.test_hazards import every_job, made

WORDS = ("notice", "caution", "warning", "danger")


TOO_BIG = SMALL.replace("diameter: 25 mm", "diameter: 160 mm")


def subjects(outcome: RouteOutcome) -> list[tuple[Firing, ...]]:
    """The firings about each thing of a route: the opening, the way, each fitting that a spot may be."""
    rulings = [ruling.firings for spot in outcome.spots for ruling in spot.rulings]
    return [outcome.opening_firings, outcome.route_firings, *rulings]


def warned(firings: tuple[Firing, ...]) -> list[tuple[str, str]]:
    """The hazard and the signal word of each caution that fired."""
    return [(c.id, c.word) for f in firings if f.outcome and (c := f.rule.conclusion.caution)]


def of_the_place(case_: Case) -> list[object]:
    """What is told of the site and of each opening: nothing of it hangs on the kit."""
    study = plan(case_, tables(), rules())
    at = {
        o.route.opening.name: [
            c.id for f in o.opening_firings if f.outcome and (c := f.rule.conclusion.caution)
        ]
        for o in study.outcomes
    }
    plan_ = plan_of(study)
    return [
        [(note.id, note.word) for note in plan_.cautions],
        [(note.caution.id, note.caution.word) for note in plan_.ask],
        at,
    ]


@pytest.mark.parametrize(
    "job",
    ["plain", "gas", "chemicals", "holding", "nobody looked", "roof", "pit britain", "toilet", "buried"],
)
def test_no_option_weakens_a_caution(job):
    told = case(job)
    as_is = of_the_place(told)
    kits = [kit_of(kit_of_text(text_, "kit"), tables()) for text_ in (STIFF, TWO_HEADS, TOO_BIG)]
    options = [{"units": Units.METRIC}, {"worlds": 37}, {"seed": 5}, *({"kit": kit} for kit in kits)]
    for change in options:
        assert of_the_place(replace(told, **change)) == as_is, change


@every_job
def test_every_caution_of_a_way_is_told_with_it(job):
    study = studied(job)
    for ranked, route in zip(study.ranked, made(job).routes, strict=True):
        told = {note.id: WORDS.index(note.word) for note in route.cautions}
        for firings in (study.site_firings, *subjects(ranked.outcome)):
            for hazard, word in warned(firings):
                assert told.get(hazard, -1) >= WORDS.index(word), f"{route.opening}: {hazard}"
        ranks = [-WORDS.index(note.word) for note in route.cautions]
        assert ranks == sorted(ranks), "the gravest first"


@every_job
def test_local_code_is_always_deferred_to(job):
    assert "local-rules" in {note.id for note in made(job).cautions}


@every_job
def test_one_rule_speaks_of_a_hazard(job):
    """Two rules on one hazard would tell it twice or hide one text; regions have one rule each."""
    study = studied(job)
    groups = [study.site_firings, *(group for outcome in study.outcomes for group in subjects(outcome))]
    for firings in groups:
        ids = [hazard for hazard, _ in warned(firings)]
        assert len(ids) == len(set(ids)), ids


@pytest.mark.parametrize("holding", ["no", "unknown"])
@pytest.mark.parametrize("sign", ["backs up", "standing", "nothing"])
def test_what_backs_up_or_stands_may_stand_behind_a_plug_whatever_is_said_of_the_line(holding, sign):
    """The way in has no plug of its own here: the warning is of the job. Water that comes up stands above a
    stoppage, and each plug between is under its head (common practice)."""
    up, water = ("backs up: [way in]" if sign == "backs up" else "backs up: []"), ", water: standing"
    sheet = site(
        run(f"kind: toilet flange{water if sign == 'standing' else ''}"),
        "run",
        complaint=f"holding: {holding}, {up}",
    )
    plan_ = planned(sheet, SMALL, worlds=100)
    told = {note.id: note.word for note in plan_.cautions}
    if sign == "standing" and holding == "unknown":
        assert told["holding-line"] == "warning"  # seen to stand full
    else:
        assert told.get("plug-under-head") == ("warning" if sign != "nothing" else None)


@pytest.mark.parametrize(
    ("kind", "crawl", "told"),
    [
        ("wall cleanout", "", True),  # nobody has said where it is
        ("wall cleanout", ", crawl: unknown", True),
        ("wall cleanout", ", crawl: no", False),  # an outside wall, a room
        ("end cleanout", ", crawl: yes", True),
        ("floor drain", ", crawl: yes", True),
        ("yard cleanout", "", False),
    ],
)
def test_nobody_is_told_of_crawling_where_nobody_crawls(kind, crawl, told):
    """It follows from where the opening is; where that is not known it stays."""
    plan_ = planned(site(run(f"kind: {kind}{crawl}"), "run"), SMALL, worlds=100)
    assert ("crawl-space" in {note.id for note in plan_.routes[0].cautions}) == told


def test_under_a_slab_house_nobody_crawls_and_over_a_crawl_space_somebody_does():
    """By how each building is known: "no cellar, no crawl space"; "hangs in the crawl space"; "a cellar"."""
    buildings = {each.id: each for each in archetypes(rules_dir(), tables())}
    for building, opening, crawl in (
        ("slab-one-storey", "kitchen wall cleanout", False),
        ("crawl-space", "crawl space cleanout", True),
        ("basement", "floor cleanout", False),
    ):
        sheet = site_of_text(typical(buildings[building], 1972), building, tables())
        network = network_of(sheet, tables())
        hole = next(each.hole for each in network.openings() if each.name == opening)
        assert hole is not None
        assert hole.crawl is crawl, building
