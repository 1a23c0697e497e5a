"""Roots in a run, as the plan, the card and the screen beside the opening tell them."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from advisor.card.build import card_of
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.spots import passage_note
from advisor.terminal.push.hard import _first
from tests.cases.hazards import BIG_HEAD, line, site
from tests.cases.jobs import outcome, tables
from tests.cases.jobs import planned as jobs_planned
from tests.outcome.test_roots import BIG, WHOLE, planned

# Ten metres of rooty clay, then eight more: behind a piece of sound plastic, or behind a branch alone.
PATCHED = (
    f"{WHOLE}\n      - change: {{material: pvc, condition: sound}}\n      - pipe: 3 m"
    "\n      - change: {material: clay, condition: roots}\n      - pipe: 8 m"
)
BRANCHED = (
    f"{WHOLE}\n      - joined by: side line\n        fitting: wye\n        drawn: no\n      - pipe: 8 m"
)


def test_beside_the_opening_the_gentle_push_is_told_first_and_then_what_opens_a_mass():
    study = planned("roots", BIG)
    way = outcome(study, "yard")
    hard = next(spot for spot in way.spots if spot.spot.by_roots)
    note = passage_note(hard, way, study.reader)
    met = SimpleNamespace(met=SimpleNamespace(hard=hard))
    now = SimpleNamespace(push=SimpleNamespace(study=study))
    said = _first(note, met, (), now, SimpleNamespace(say=lambda chance: f"{chance:.0%}"))
    assert said[0].startswith("First a gentle push")
    assert said[1].startswith("1. Go slowly")
    cut = next(each for each in note.techniques if each.name == "clean first")
    assert said[-1] == f"If it holds: clean first, {cut.chance:.0%} a try."
    assert any("Never ram" in each for each in said)


def test_the_card_names_the_run_in_its_table_and_gives_it_a_block_of_its_own():
    plan = plan_of(planned("roots", BIG))
    card = card_of(plan, plan.routes[0], tables().card, Units.INCH, "2026-01-01", log=False)
    (sight,) = (each for each in card.sights if each.see == "roots at a joint: house drain")
    assert sight.hard
    assert sight.do.endswith("Feel: soft, then it drags.")
    (block,) = (each for each in card.stuck if each.title.startswith("Somewhere"))
    assert block.title.endswith("roots in house drain")
    (among,) = (each for each in card.blocks if each.title.startswith("Among roots"))
    assert "Never ram it, never lean on it." in [step for line in among.lines for step in line.steps]


@pytest.mark.parametrize(("pipes", "spans"), [(PATCHED, 2), (BRANCHED, 1)])
def test_two_runs_of_roots_in_one_pipe_are_told_once_with_both_spans(pipes, spans):
    """By hand, from where the first begins: 10 m long, then 3 m of plastic between, then 8 m."""
    plan = plan_of(planned("roots", BIG, pipes))
    route = next(each for each in plan.routes if each.opening == "yard")
    first, _ = (each for each in route.passages if each.somewhere)
    at = first.at_low_m
    card = card_of(plan, route, tables().card, Units.METRIC, "2026-01-01", log=False)
    (block,) = (each for each in card.stuck if "roots" in each.title)
    both = f"{at + 10:.1f} m or {at + 13:.1f} to {at + 21:.1f} m" if spans == 2 else f"to {at + 18:.1f} m"
    assert block.title.startswith(f"Somewhere {at:.2g} to ")
    assert block.title.endswith(f"{both}: roots in house drain")
    assert block.title.count(" to ") == spans


def test_the_notice_names_every_pipe_with_roots_of_the_way():
    """A clay run and the yard drain that it joins, both with roots: whoever reads of one looks at one."""
    clay = {"size": "4 in", "material": "clay", "condition": "roots"}
    sheet = site(
        line("yard drain", "opening: top, kind: end cleanout", "pipe: 4 m",
             "joined by: clay run, fitting: wye", "pipe: 15 m", "end: public sewer", **clay)
        + line("clay run", "opening: way in, kind: end cleanout", "pipe: 15 m", **clay),
        "yard drain, from clay run to public sewer",
    )  # fmt: skip
    route = next(each for each in jobs_planned(sheet, BIG_HEAD, 200).routes if each.opening == "way in")
    (told,) = (note.text for note in route.cautions if note.id == "held-by-roots")
    assert told.startswith("Roots in clay run and yard drain may hold the head.")
    runs = [note for note in route.passages if note.somewhere]
    assert [
        note.text.split(" may ")[0] for each in runs for note in each.here if note.id == "held-by-roots"
    ] == [
        "Roots in clay run",
        "Roots in yard drain",
    ]
