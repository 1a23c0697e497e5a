"""What must not be passed stays; a run of roots is told from where to where, and nothing pushes into it."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.strip import strip_signs, strip_svg
from advisor.quantity import Units, show_reading
from advisor.result.model import PassageNote
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from tests.card.cards import DEMOS, card, made, printer
from tests.card.test_half_sheet import CROWDED
from tests.cases.jobs import tables
from tests.result.test_not_past import ROW, TRAP, plan_text

NOT_PAST = "NOT PAST HERE"
PUSHES = ("push", "turn the rod", "string", "straight in", "hands close", "guide", "tries", "try")


def runs() -> list[PassageNote]:
    return [note for note in made(CROWDED)[0].routes[0].passages if note.somewhere]


def front(text_or_stem: str, paper: str) -> str:
    pdf = printer().printed(printer().fitted(card(text_or_stem), paper), None, paper, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    return " ".join(page.extract_text().split())


def test_what_must_not_be_passed_never_goes_for_anything():
    """A trap that holds the head, the end of the drain: of all sheets and however much goes."""
    trap = plan_text(ROW.replace("BEHIND", TRAP))
    trapped = card_of(trap, trap.routes[0], tables().card, Units.METRIC, "2026-11-26", True)
    cards = [card(CROWDED), trapped, *map(card, DEMOS)]
    for number, whole in enumerate(cards):
        rows = [sight.see for sight in whole.sights if NOT_PAST in sight.see]
        assert rows or number >= 2
        for shorter in (whole, whole.short()):
            parts = shorter.parts()
            for many in range(len(parts) + 1):
                kept = [sight.see for sight in shorter.without(parts[:many]).sights]
                assert [see for see in kept if NOT_PAST in see] == rows


def test_what_must_not_be_passed_stands_before_what_may_only_be_met_after_it():
    """Who reads the rows in turn comes to the trap that may begin at 1 m before the far end at 3 m."""
    trap = plan_text(ROW.replace("BEHIND", TRAP))
    route = trap.routes[0]
    early = [s.model_copy(update={"at_low_m": 1.0}) if s.sight == "stop" else s for s in route.sights]
    route = route.model_copy(update={"sights": tuple(early)})
    rows = [s.see for s in card_of(trap, route, tables().card, Units.METRIC, "2026-11-26", True).sights]
    (stop,) = (at for at, see in enumerate(rows) if NOT_PAST in see)
    assert stop < len(rows) - 1
    assert rows[-1].startswith("the end")


def test_where_roots_hold_the_head_nothing_pushes_it_on():
    """Roots stand up against the pull: a head pushed on into them does not come back."""
    whole = card(CROWDED)
    blocks = [block for block in whole.stuck if "roots" in block.title]
    assert blocks
    for block in blocks:
        assert block.lines[0].text.startswith("Held? Not a bit further.")
        for line in block.lines[1:]:
            told = " ".join((line.text, *line.steps)).lower()
            assert told.startswith("not ") or not re.search(rf"\b({'|'.join(PUSHES)})\b", told), told
    for sight in whole.sights:
        if "roots" in sight.see:
            assert "Then" not in sight.do
    (among,) = (block for block in whole.blocks if block.title.startswith("Among roots"))
    steps = {step for line in among.lines for step in line.steps}
    (steady,) = {t.steps for note in runs() for t in note.techniques if t.name == "steady push"}
    assert steps >= set(steady)
    assert any("Stop before it" in step for step in steady)


def test_a_run_is_told_from_where_to_where():
    route, units = made(CROWDED)[0].routes[0], made(CROWDED)[1]
    whole, svg = card(CROWDED), strip_svg(route, units)
    readings = [sight.reading for sight in whole.sights if "roots" in sight.see]
    first, *_, last = runs()
    ends = (show_reading(first.at_low_m, units).removesuffix(" m"), show_reading(last.at_high_m, units))
    assert readings == [" to ".join(ends)], "runs that meet and ask for the same are one row"
    for note in runs():
        low, high = (show_reading(at, units) for at in (note.at_low_m, note.at_high_m))
        assert low != high
        assert f">{low}<" in svg
        assert f">{high}<" in svg
    triangles = svg.count('fill="black" stroke="none"')
    assert triangles == sum(2 if note.somewhere else 1 for note in route.passages)
    assert "two triangles" in strip_signs(route, tables().card).lower()
    assert "two triangles" not in strip_signs(made(DEMOS[0])[0].routes[0], tables().card).lower()


def test_the_table_of_openings_has_no_one_reading_for_a_run(capsys):
    plan_, units = made(CROWDED)
    note = runs()[0]
    route = plan_.routes[0].model_copy(update={"passages": (note,), "blocked_by": None})
    show_plan(plan_.model_copy(update={"routes": (route,)}), units, Page())
    low, high = (show_reading(at, units) for at in (note.at_low_m, note.at_high_m))
    table = capsys.readouterr().out.partition("hardest spot")[2].partition("comes out best")[0]
    words = re.split(r"\s+", table)
    assert [word for word in words if word in ("somewhere", "from", "to")] == ["somewhere", "from", "to"]
    assert " at " not in table
    for end in (low, high):
        assert end.split()[0] in words


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("stem", DEMOS)
def test_what_keeps_people_safe_before_the_push_is_in_front(stem, paper):
    told = front(stem, paper)
    assert "See the line drain. Too full? No camera." in told
    assert "Hold off all water users." in told
