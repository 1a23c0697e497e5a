"""What must be known before the head goes in stands on every card and paper, before all else unknown."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.relief import relief_card
from advisor.card.text import card_text
from advisor.quantity import Units
from advisor.result.model import Plan
from advisor.result.told import cautions_told
from advisor.rulebase.rule import GRAVE
from tests.card.cards import printer
from tests.cases.jobs import tables
from tests.result.test_not_past import ROW, TRAP, plan_text

SAID = "complaint: {holding: no, chemicals: no, gas smell: no}"
FULL = ("holding: no", "holding: yes")
DECIDE = {
    "holding": "WARNING: loosen no plug, run no water, no camera yet",
    "chemicals": "WARNING: hands off, no push, no water",
    "gas smell": "Gas will explode",
}


def made(complaint: str, more: str = "") -> Plan:
    text = ROW.replace("BEHIND", TRAP).replace(SAID, f"complaint: {{{complaint}}}") + more
    return plan_text(text)


def known(but: str) -> str:
    return ", ".join(f"{each}: {'unknown' if each == but else 'no'}" for each in DECIDE)


def printed(plan_: Plan, paper: str) -> str:
    card = card_of(plan_, plan_.routes[0], tables().card, Units.METRIC, "2026-11-26", False)
    pdf = printer().printed(printer().fitted(card, paper), None, paper, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    return " ".join(page.extract_text().split())


@pytest.mark.parametrize("paper", [pytest.param("a4", marks=pytest.mark.slow), "half"])
@pytest.mark.parametrize("unknown", list(DECIDE))
def test_what_decides_stands_first_on_every_paper(unknown, paper):
    said = printed(made(known(unknown)), paper)
    assert "FIRST" in said
    assert DECIDE[unknown] in said
    for other in ("septic tank", "DANGER: Air"):
        if other in said:
            assert said.index("FIRST") < said.index(other)


@pytest.mark.parametrize("paper", [pytest.param("a4", marks=pytest.mark.slow), "half"])
def test_in_britain_the_neighbours_are_on_every_card(paper):
    """Rows of British houses mostly drain into one shared drain."""
    assert "Neighbours share the drain" in printed(made(known("holding")), paper)
    told = printed(made(known(""), "shared: yes\n"), paper)
    assert f"Ask the neighbours before you {'go past' if paper == 'a4' else 'pass'} their connection" in told


@pytest.mark.parametrize("paper", ["a4", "half"])
def test_leave_of_a_neighbour_is_on_every_card_of_an_opening_on_his_ground(paper):
    theirs = made(known("")).routes[0].opening
    text = ROW.replace("BEHIND", TRAP).replace(SAID, f"complaint: {{{known('')}}}")
    assert text.count(f"opening: {theirs}") == 1
    plan_ = plan_text(text.replace(f"opening: {theirs}", f"opening: {theirs}\n        ground: neighbour"))
    assert plan_.routes[0].opening == theirs
    assert "leave" in printed(plan_, paper).partition("On a neighbour's ground")[2][:80]


def test_who_is_asked_about_a_tank_hears_what_the_sheet_says():
    (asked,) = (note for note in made(known("")).ask if note.caution.id == "septic-tank")
    assert "the sheet says public sewer" in asked.about[0]


@pytest.mark.parametrize("unknown", list(DECIDE))
def test_the_first_thing_to_do_names_what_is_not_known(unknown):
    step = made(known(unknown)).first_step
    words = {"holding": "not holding", "chemicals": "poured in", "gas smell": "no gas"}
    assert step.startswith("First ")
    assert words[unknown] in step.partition("Then open")[0]
    assert made(known("")).first_step.startswith("Open ")


# -- a line that is relieved first ----------------------------------------------------------------


def held(chemicals: str) -> Plan:
    return made(f"holding: yes, chemicals: {chemicals}, gas smell: no")


def test_whoever_is_sent_to_a_chamber_is_told_of_its_air_and_its_cover():
    """The chamber's own hazards, as where a rod goes in there: air, traffic, never left open, two keys."""
    plan_ = held("no")
    assert {note.opening for note in plan_.to_open} == {"yard chamber", "front chamber"}
    text = " ".join(card_text(relief_card(plan_, tables().card, "2026-11-26")).split())
    for words in (
        "Air in a chamber will kill",
        "Never leave it open",
        "two keys",
        "barrier",
        "nobody goes in",
    ):
        assert words in text, words
    assert "one thread" not in text, "a cover has none"


def test_a_plug_is_turned_a_thread():
    plugs = ROW.replace("kind: inspection chamber", "kind: yard cleanout").replace("BEHIND", TRAP)
    plan_ = plan_text(plugs.replace("holding: no", "holding: yes"))
    steps = [step for note in plan_.to_open for step in note.steps]
    assert any("one thread" in step for step in steps)


@pytest.mark.parametrize("chemicals", ["no", "unknown"])
def test_no_rod_and_no_water_before_it_is_known_what_was_poured_in(chemicals):
    """EPA on drain cleaners, as in our sources: strong acid and lye stay strong in standing water."""
    how = held(chemicals).how
    risky = [step for step in how if "jet" in step or "run water" in step.lower()]
    assert len(risky) == 2
    for step in risky:
        assert step.startswith("Only") == (chemicals == "unknown"), step
    assert ("poured in" in how[0]) == (chemicals == "unknown")


@pytest.mark.parametrize("paper", ["a4", "half"])
def test_the_card_of_a_line_to_be_relieved_is_one_page_with_its_steps(paper):
    plan_ = held("unknown")
    whole = relief_card(plan_, tables().card, "2026-11-26")
    pdf = printer().printed(printer().fitted(whole, paper), None, paper, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    said = " ".join(page.extract_text().split())
    for step in plan_.how:
        assert step in said
    assert "hands off, no push, no water" in said


def test_what_can_hurt_and_was_seen_stays_on_half_a_sheet_and_how_each_is_opened_goes_first():
    """With a few stops told the steps of the gullies stayed there, and a car and a bursting line went."""
    plan_ = held("no")
    long = tuple(f"In from yard chamber a push was held at {n} m (roots) and came past." for n in range(1, 3))
    whole = relief_card(plan_.model_copy(update={"stopped": long}), tables().card, "2026-11-26")
    fitted = printer().fitted(whole, "half")
    said = " ".join(line.text for block in fitted.blocks for line in block.lines)
    said += " ".join(box.text for box in fitted.boxes)
    grave = [note for note in cautions_told(plan_, ()) if note.word in GRAVE]
    assert "traffic" in {note.id for note in grave}
    for note in grave:
        assert note.text in said or note.short in said, note.id
    steps = {line.text for block in whole.blocks if "Opening" in block.title for line in block.lines}
    assert any(step not in said for step in steps), "else nothing had to go"


def test_the_opening_that_is_to_be_opened_first_is_told_first():
    plan_ = plan_text(ROW.replace("there: 65 %", "there: yes").replace("BEHIND", TRAP).replace(*FULL))
    assert any("as drawn: front chamber" in step for step in plan_.how)
    assert plan_.to_open[0].opening == "front chamber"


# -- a trap that is taken off ---------------------------------------------------------------------


@pytest.mark.parametrize(("chemicals", "word"), [("no", "caution"), ("unknown", "warning")])
def test_taking_off_a_trap_has_its_caution(chemicals, word):
    text = ROW.replace("BEHIND", "").replace("chemicals: no", f"chemicals: {chemicals}")
    text = text.replace(
        "- opening: yard chamber\n        kind: inspection chamber\n        depth: 600 mm",
        "- fixture: kitchen sink",
    )
    text = text.replace("from yard chamber to front chamber", "from kitchen sink to front chamber")
    route = next(each for each in plan_text(text).routes if each.opening == "kitchen sink")
    told = {note.id: note for note in route.cautions}["trap-water" if chemicals == "no" else "trap-chemicals"]
    assert told.word == word
    assert "Eye shield" in told.text
    steps = [step for step in route.before if "trap" in step.lower()]
    off = next(i for i, step in enumerate(steps) if step.startswith("Take off the trap"))
    assert any("only once it is known" in step for step in steps[:off]) == (chemicals == "unknown")
