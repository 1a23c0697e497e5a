"""Hazards are told with the right word, in the region's words, and never weakened."""

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
from advisor.result.model import Plan
from advisor.rulebase.trace import Firing
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.hazards import JOBS, SMALL, STIFF, TWO_HEADS, line, run, site
from tests.cases.jobs import planned, rules, tables
from tests.cases.test_every_rule import case, studied

WORDS = ("notice", "caution", "warning", "danger")
# What only harms gear or the job; everything else can hurt a person (ANSI Z535.4, as summarised: a notice
# is not about injury).
GEAR = {
    "lost-tool",
    "folded-head",
    "kinked-rod",
    "wedged-head",
    "held-by-roots",
    "machine-run",  # what was cleared is no harm to anybody
    "machine-from-gone",
    "cable-kinked",
    "roots-back",
    "too-high",  # which of two words is right
    "lone-toilet",  # what to try before it is lifted
    "pull-limit",
    "local-rules",
    "part-seen",
    "ask-leave",
    "neighbours",
    "tank",
    "open-chamber",
    "tank-full",
    "pitch-fibre",
}
TOO_BIG = SMALL.replace("diameter: 25 mm", "diameter: 160 mm")
every_job = pytest.mark.parametrize("job", sorted(JOBS))


def made(name: str) -> Plan:
    return plan_of(studied(name))


def text(plan_: Plan) -> str:
    notes = [*plan_.cautions, *(n.caution for n in plan_.ask), *(n for r in plan_.routes for n in r.cautions)]
    return " ".join(note.text for note in notes)


def subjects(outcome: RouteOutcome) -> list[tuple[Firing, ...]]:
    """The firings about each thing of a route: the opening, the way, each fitting that a spot may be."""
    rulings = [ruling.firings for spot in outcome.spots for ruling in spot.rulings]
    return [outcome.opening_firings, outcome.route_firings, *rulings]


def warned(firings: tuple[Firing, ...]) -> list[tuple[str, str]]:
    """The hazard and the signal word of each caution that fired."""
    return [(c.id, c.word) for f in firings if f.outcome and (c := f.rule.conclusion.caution)]


def test_lost_gear_is_a_notice_and_injury_never_is():
    found = {rule.conclusion.caution for rule in rules().all_rules} - {None}
    for caution in found:
        assert (caution.word == "notice") == (caution.id in GEAR), f"{caution.id}: {caution.word}"
    assert {caution.id for caution in found} >= GEAR


@pytest.mark.parametrize(
    ("job", "words"),
    [
        ("buried", "Call 811"),
        ("buried britain", "Ask the utilities"),
        ("plain", "GFCI"),
        ("plain", "911"),
        ("plain britain", "RCD"),
        ("roof", "a wire can kill"),
        ("roof", "Fall protection"),
        ("roof britain", "harness"),
        ("pit", "permit"),
        ("pit", "hoist"),
        ("pit britain", "safe system of work"),
        ("pit britain", "hoist"),
        ("toilet", "rot the floor"),
        ("sink", "scald"),
        ("lead", "Lead harms"),
        ("asked sink", "Might it be fuel gas? Touch no switch"),
        ("asbestos cement", "fibres"),
        ("pitch fibre", "blisters"),
        ("plain", "needles"),
        ("through a chamber", "The rod lies open in yard chamber. Held further on"),
        ("shared, pumps, septic", "lock it off"),
        ("shared, pumps, septic", "Keep the lid on"),
        ("shared, pumps, septic", "Have whoever pumps the tank look at its level first"),
        ("shared, pumps, septic", "In rain a full tank or field can burst"),
        ("history", "A drain that fills in rain"),
        ("up and into the leg", "run down the pipe"),
        ("wall", "burst out"),
    ],
)
def test_hazard_is_told_in_the_words_of_the_place(job, words):
    """Common practice, no source, but for the marks before digging and the permit (read)."""
    assert words in text(made(job))


@every_job
def test_words_of_one_region_stay_there(job):
    plan_ = made(job)
    foreign = (
        ("811", "911", "GFCI", "permit") if plan_.region == "britain" else ("RCD", "Weil", "safe system")
    )
    assert not [word for word in foreign if word in text(plan_)]


def test_gas_smell_is_danger_and_comes_first():
    plan_ = made("gas")
    assert plan_.cautions[0].word == "danger"
    assert plan_.cautions[0].id == "gas-smell"
    assert plan_.first_step.startswith("Leave the building")
    assert not plan_.camera_now


def test_chemicals_decline_and_run_no_water():
    plan_ = made("chemicals")
    assert plan_.first_step.startswith("Decline")
    waters = [t for r in plan_.routes for p in r.passages for t in p.techniques if t.name == "water"]
    assert waters
    assert all(each.verdict == "rejected" for each in waters)


@pytest.mark.parametrize(
    ("fact", "hazard", "word"),
    [
        ("gas smell", "gas-smell", "danger"),
        ("chemicals", "chemicals", "warning"),
        ("holding", "holding-line", "warning"),
        ("pumps", "pumps", "warning"),
        ("septic", "septic-tank", "danger"),
        ("shared", "neighbours", "notice"),
    ],
)
def test_what_nobody_said_keeps_its_caution_as_a_question(fact, hazard, word):
    """Yes: told. No: gone. Unknown or left out: asked, in the same words and with the same signal word."""

    def of(answer: str) -> Plan:
        said = "" if answer == "left out" else f"{fact}: {answer}"
        asked = fact in ("gas smell", "chemicals", "holding")
        complaint, top = (said, "") if asked else ("holding: no", f"{said}\n" if said else "")
        sheet = site(run("kind: end cleanout"), "run", complaint=complaint or "backs up: []", top=top)
        return planned(sheet, SMALL, worlds=100)

    told = {note.id: note for note in of("yes").cautions}
    assert told[hazard].word == word
    for answer in ("unknown", "left out"):
        plan_ = of(answer)
        assert {note.caution.id: note.caution for note in plan_.ask}[hazard] == told[hazard]
        assert hazard not in {note.id for note in plan_.cautions}
    silent = of("no")
    assert hazard not in {note.id for note in silent.cautions} | {note.caution.id for note in silent.ask}


def test_pit_of_unknown_depth_is_taken_for_a_deep_one():
    def ids(depth: str) -> set[str]:
        plan_ = planned(site(run(f"kind: inspection chamber{depth}"), "run"), SMALL, worlds=100)
        return {note.id for note in plan_.routes[0].cautions}

    assert "deep-pit" in ids(", depth: 7 ft")
    assert "deep-pit" in ids("")
    assert "deep-pit" not in ids(", depth: 4 ft")
    # What it may be counts, not the middle: a rough word is off by the rough share to either side.
    assert "deep-pit" in ids(", depth: 1 m to 2 m")
    assert "deep-pit" in ids(", depth: about 1.5 m")
    assert "deep-pit" not in ids(", depth: 1 m to 1.4 m")
    assert "deep-pit" in ids(", depth: assumed 1.2 m")


def test_pipe_that_may_well_be_lead_is_told_as_lead():
    """British branches before 1940: in the table lead has more than the share from which hazards are told,
    though iron is likelier."""
    text = (
        "site: old\nregion: britain\nbuilt: 1930\nlines:\n  - line: drain\n    kind: drain\n    pieces:\n"
        "      - joined by: waste\n      - pipe: 5 m\n      - end: public sewer\n"
        "  - line: waste\n    kind: branch\n    size: 40 mm\nMATERIAL    pieces:\n"
        "      - {opening: plug, kind: end cleanout}\n      - pipe: 2 m\ntask: {look at: drain}\n"
    )
    shares = dict(tables().likely_material("britain", 1930, "branch", 0.04).options)
    assert tables().limits["notable_share"].likely <= shares["lead"] < max(shares.values())

    def told(material: str) -> set[str]:
        (route, *_) = planned(text.replace("MATERIAL", material), SMALL, worlds=100).routes
        return {note.id for passage in route.passages for note in passage.cautions} | {
            note.id for note in route.cautions
        }

    assert "lead" in told("")
    assert "lead" not in told("    material: copper\n")


@pytest.mark.parametrize("kind", [name for name, kind in tables().openings.items() if kind.usable])
def test_full_line_is_told_at_every_opening_that_holds_one_back(kind):
    # Between two lengths of pipe, for some openings lead only up and some only down.
    pieces = ("opening: top, kind: end cleanout", "pipe: 3 m", f"opening: way in, kind: {kind}", "pipe: 3 m")
    plan_ = planned(site(line("run", *pieces, "end: public sewer"), "run"), SMALL, worlds=100)
    notes = [route.cautions for route in plan_.routes if route.opening == "way in"]
    assert notes
    told = {note.id for each in notes for note in each}
    assert ("plug-under-head" in told) == ("full line" in tables().openings[kind].hazards)


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
