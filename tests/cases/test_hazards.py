"""Hazards are told with the right word, in the region's words, and never weakened."""

from __future__ import annotations

import pytest

from advisor.result.build import plan_of
from advisor.result.model import Plan
from tests.cases.hazards import JOBS
from tests.cases.jobs import rules
from tests.cases.test_every_rule import studied

# What only harms gear or the job; everything else can hurt a person (ANSI Z535: notice is no injury).
GEAR = {
    "folded-head",
    "kinked-rod",
    "wedged-head",
    "pull-limit",
    "local-rules",
    "part-seen",
    "neighbours",
    "tank",
    "pitch-fibre",
}


def plan(name: str) -> Plan:
    return plan_of(studied(name))


def told(plan_: Plan) -> dict[str, str]:
    """Hazard ids with their word, over the whole plan and its first route."""
    notes = [*plan_.cautions, *(note for route in plan_.routes[:1] for note in route.cautions)]
    return {note.id: note.word for note in notes}


def text(plan_: Plan) -> str:
    notes = [*plan_.cautions, *(n.caution for n in plan_.ask), *(n for r in plan_.routes for n in r.cautions)]
    return " ".join(note.text for note in notes)


def cautions():
    return {
        rule.conclusion.caution.id: rule.conclusion.caution
        for rule in rules().all_rules
        if rule.conclusion.caution is not None
    }


def test_lost_gear_is_a_notice_and_injury_never_is():
    for name, caution in cautions().items():
        gear = any(name.startswith(prefix) for prefix in GEAR)
        assert (caution.word == "notice") == gear, f"{name}: {caution.word}"


@pytest.mark.parametrize(
    ("job", "words"),
    [
        ("buried", "811"),
        ("plain", "GFCI"),
        ("plain britain", "RCD"),
        ("roof", "a wire can kill"),
        ("pit", "Nobody"),
        ("toilet", "floor"),
        ("sink", "hot"),
        ("lead", "lead"),
        ("asbestos cement", "fibre"),
        ("pitch fibre", "itch fibre"),
        ("plain", "needle"),
    ],
)
def test_hazard_is_told_in_the_words_of_the_place(job, words):
    assert words.lower() in text(plan(job)).lower()


def test_british_words_stay_in_britain():
    assert "811" not in text(plan("buried britain"))
    assert "GFCI" not in text(plan("plain britain"))


def test_gas_smell_is_danger_and_comes_first():
    made = plan("gas")
    assert made.cautions[0].word == "danger"
    assert made.first_step.startswith("Leave the building")
    assert not made.camera_now


def test_chemicals_decline_and_run_no_water():
    made = plan("chemicals")
    assert made.first_step.startswith("Decline")
    waters = [t for r in made.routes for p in r.passages for t in p.techniques if t.name == "water"]
    assert waters
    assert all(each.verdict == "rejected" for each in waters)


def test_what_nobody_said_keeps_its_caution_as_a_question():
    asked = {note.caution.id for note in plan("plain").ask}
    silent = {note.caution.id for note in plan("shared, pumps, septic").ask}
    assert len(asked) >= 4
    assert len(silent) < len(asked)


@pytest.mark.parametrize("job", sorted(JOBS))
def test_local_code_is_always_deferred_to(job):
    assert any(name.startswith("local") for name in told(plan(job))) or any(
        note.id.startswith("local") for note in plan(job).cautions
    )


@pytest.mark.parametrize("job", sorted(JOBS))
def test_one_caution_a_hazard(job):
    made = plan(job)
    ids = [note.id for note in made.cautions]
    assert len(ids) == len(set(ids))
    for route in made.routes:
        ids = [note.id for note in route.cautions]
        assert len(ids) == len(set(ids))
