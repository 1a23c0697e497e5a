"""Hazards are told with the right word, in the region's words, and never weakened."""

from __future__ import annotations

import pytest

from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.hazards import JOBS, SMALL, line, run, site
from tests.cases.jobs import planned, rules, tables
from tests.cases.test_every_rule import studied

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
every_job = pytest.mark.parametrize("job", sorted(JOBS))


def made(name: str) -> Plan:
    return plan_of(studied(name))


def text(plan_: Plan) -> str:
    notes = [*plan_.cautions, *(n.caution for n in plan_.ask), *(n for r in plan_.routes for n in r.cautions)]
    return " ".join(note.text for note in notes)


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
