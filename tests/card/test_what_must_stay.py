"""What no paper may leave out: what keeps people safe, and what a push met that bars.

From a trial: a long remark took the room, and "Sewer gas can knock you out", "Mains can shock you" and the
steps before a push were gone; of a wad of wipes and standing water at one reading only the milder row stood.
The order is common practice, no source: who is hurt cannot be made good, a head that is held mostly can.
"""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.content import Card
from advisor.push.log.kinds import END, FIND, PASSED, STOPPED, TRY
from advisor.push.met_before import met_before, told_of_pushes
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.model import CautionNote, Plan
from advisor.result.told import found_on
from tests.card.cards import DEMOS, card, printer
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN
from tests.terminal.test_now_shown import Told, study_of, tee

OUT: Told = (END, 1.0, {"reached": False, "out": True})
RIM = (
    (STOPPED, 3.0, {"sign": "rim ahead, open pipe ahead", "feel": "dead"}),
    (TRY, 3.0, {"technique": "steady push", "outcome": PASSED}),
)
WAD: Told = (FIND, 4.5, {"what": "wad of wipes and a toothbrush caught at a joint, pipe 3/4 shut"})
POOL: Told = (FIND, 4.5, {"what": "standing water"})
ROOTS = ((STOPPED, 5.0, {"sign": "blocked, roots", "feel": "soft"}), (FIND, 5.0, {"what": "root mass"}))
REMARK = "Of what pushes met, the chances know openings that opened and tries that failed there. " * 4


def note(word: str, what: str) -> CautionNote:
    text = f"{what} can hurt you. Look first, then stay well away from it. Somebody stays by. Nobody goes in."
    return CautionNote(id=what, word=word, text=text, short=f"{what} can hurt. Stay away. One stays by.")


HURTS = tuple(
    note(word, f"{word} {n}")
    for word, many in (("danger", 2), ("warning", 4), ("caution", 2))
    for n in range(many)
)


def job(*told: Told) -> tuple[Plan, Card]:
    """A plan after a push in a house with much that can hurt, and its card with a long remark."""
    study, entries = study_of(tee()), numbered(BEGUN, *told, OUT)
    plan = plan_of(study, met_before(study, entries))
    seen = {"cautions": HURTS, "stopped": (REMARK, *told_of_pushes(study, entries))}
    plan = plan.model_copy(update=seen)
    return plan, card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", True)


JOBS = {"rim": RIM, "wad": (*RIM, WAD, POOL), "roots": (*RIM, *ROOTS), "all": (*RIM, WAD, POOL, *ROOTS)}


@pytest.fixture(scope="module")
def jobs() -> dict[str, tuple[Plan, Card]]:
    return {name: job(*told) for name, told in JOBS.items()}


def page(whole: Card, paper: str) -> tuple[str, int]:
    data = printer().printed(printer().fitted(whole, paper), None, paper, "pdf")
    pages = PdfReader(io.BytesIO(data)).pages
    return " ".join(pages[0].extract_text().split()), len(pages)


@pytest.mark.parametrize("paper", ["letter", "a4", "half"])
@pytest.mark.parametrize("name", JOBS)
def test_what_can_hurt_and_what_bars_stand_in_front_or_it_says_that_there_are_two_pages(jobs, name, paper):
    plan, whole = jobs[name]
    front, pages = page(whole, paper)
    if pages > 1:
        assert "Two pages: what can hurt is more than this paper holds." in front
        return
    untold = front.partition("Not told here:")[2]
    for each in HURTS:
        named = each.word == "caution" and f"{each.id} can hurt" in untold
        assert each.text in front or each.short in front or named, each.id
    assert "Never use a winch." in front
    for row in found_on(plan, plan.routes[0]):
        reading = f"{row.at_m:g} m"
        if row.not_past:
            assert f"Do not go past {reading}" in front
        elif row.first or row.not_into:
            assert "not into it" in front
        elif not row.mild:
            assert reading in front, "in a row, or named as not told here"
    if "See the line drain. Too full? No camera." not in front:
        assert "steps before a push" in untold
        held = [
            row for row in found_on(plan, plan.routes[0]) if not (row.not_past or row.not_into or row.mild)
        ]
        assert all(row.do not in front for row in held), "the steps before a push outlast what held one"


@pytest.mark.parametrize("paper", ["letter", "half"])
def test_a_remark_goes_before_any_of_it(jobs, paper):
    fitted = printer().fitted(jobs["all"][1], paper)
    told = {line.text for block in (*fitted.stuck, *fitted.blocks) for line in block.lines}
    if REMARK in fitted.minds:
        assert any(text.startswith("See the line drain") for text in told)
        assert not fitted.untold


def test_a_page_that_holds_not_even_that_says_so_and_the_second_has_the_rest(jobs):
    plan, _ = jobs["all"]
    many = tuple(note("danger", f"danger {n}") for n in range(16))
    plan = plan.model_copy(update={"cautions": many})
    crowded = card_of(plan, plan.routes[0], tables().card, Units.METRIC, "", True)
    fitted = printer().fitted(crowded, "half")
    data = PdfReader(io.BytesIO(printer().printed(fitted, None, "half", "pdf")))
    assert len(data.pages) == 2
    assert "Two pages: what can hurt" in data.pages[0].extract_text().replace("\n", " ")
    both = " ".join(" ".join(each.extract_text() for each in data.pages).split())
    assert all(each.text in both or each.short in both for each in many)


def test_what_was_met_at_one_place_is_one_row_the_stricter(jobs):
    """The pool is seen first, or the wad: it is the wad that bars."""
    for told in ((WAD, POOL), (POOL, WAD)):
        plan, whole = job(*told)
        (row,) = (each for each in whole.sights if each.reading == "4.5 m")
        assert row.see.startswith("seen before: wad of wipes")
        assert row.see.endswith("standing water")
        assert row.do.startswith("Slowly, no blow, not into it: push packs it tighter.")
        assert row.do.count("Slowly, no blow") == 1
        assert len(found_on(plan, plan.routes[0])) == 1


def test_what_a_row_tells_whole_is_told_once(jobs):
    plan, whole = jobs["roots"]
    assert any("stopped at 5 m" in each for each in plan.stopped)
    assert not any("stopped at 5 m" in line.text for block in whole.blocks for line in block.lines)
    assert any("stopped before: roots" in row.see for row in whole.sights)
    (left,) = (each for each in job(ROOTS[0])[0].stopped if "stopped at 5 m" in each)
    elsewhere = card_of(
        plan.model_copy(update={"found": ()}), plan.routes[0], tables().card, Units.METRIC, "", True
    )
    (told,) = (line for block in elsewhere.blocks for line in block.lines if line.text == left)
    assert told.called, "where no row has it, it stays, or is named"


def test_few_words_of_a_bar_leave_nothing_less_to_do(jobs):
    (row,) = (each for each in jobs["roots"][1].sights if each.reading == "5 m")
    assert row.halved().heed == row.heed != row.do
    for order in ("Not past it before it is cut", "Do not go past 5 m.", "Push on only once it is out."):
        assert order in row.heed


def test_what_goes_from_a_box_is_behind_it(jobs):
    whole = jobs["all"][1]
    fitted = replace(whole, boxes=tuple(box.bare() for box in whole.boxes), minds=())
    data = PdfReader(io.BytesIO(printer().printed(fitted, whole, "letter", "pdf")))
    behind = " ".join(" ".join(each.extract_text() for each in data.pages[1:]).split())
    for box in whole.boxes:
        assert box.text in behind
    assert REMARK.split(". ")[0] in behind


@pytest.mark.parametrize("stem", DEMOS)
def test_gas_across_the_bore_has_few_words_that_leave_nothing_less_to_do(stem):
    """The box that stands on every card."""
    (box,) = (each for each in card(stem).boxes if each.text.startswith("A cut gas"))
    assert 0 < len(box.short) < len(box.text)
    for act in ("Yellow plastic", "bubbles?", "Stop", "no cutter", "leave", "call"):
        assert act in box.short
