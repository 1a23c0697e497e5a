"""Half a sheet of a crowded British house: shared drain, deep chamber, nothing asked. It is for the way."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pytest
from pypdf import PdfReader

from advisor.card import worth
from tests.card.cards import card, made, printer

CROWDED = """
site: 22 Lower Hollow Road
region: britain
built: 1898
map: sketch
shared: yes
lines:
  - line: rear drain
    kind: drain
    size: 100 mm
    material: clay
    condition: roots
    slope: "1:40"
    pieces:
      - opening: back gully
        kind: gully
      - pipe: 1.5 m
      - opening: yard chamber
        kind: inspection chamber
        depth: 1.4 m
      - joined by: next door
        fitting: chamber branch
        side: right
        drawn: no
      - pipe: 9 m
      - joint: offset
        step: 10 mm
      - pipe: 7 m
      - change: {material: pitch fibre, condition: unknown}
      - pipe: 6 m
      - bend: 45 degree bend
      - pipe: 3 m
      - end: public sewer
task:
  look at: rear drain, from yard chamber to public sewer
  complaint: {}
"""


@pytest.fixture(scope="module")
def front() -> str:
    fitted = printer().fitted(card(CROWDED), "half")
    reader = PdfReader(io.BytesIO(printer().printed(fitted, None, "half", "pdf")))
    assert len(reader.pages) == 1, "what stands on a second page is not on the card"
    return " ".join(reader.pages[0].extract_text().split())


def test_every_hard_place_has_its_row_of_the_way(front):
    route = made(CROWDED)[0].routes[0]
    assert len(route.passages) >= 4
    _, _, way = front.partition("ROUTE (COUNTER READING)")
    for sight in card(CROWDED).sights:
        if sight.worth >= worth.HARD_SIGHT:
            assert sight.short in way
    assert "NOT PAST HERE unless seen open: public sewer" in way


@pytest.mark.parametrize("text", [CROWDED, "slab-house", "basement-house"])
def test_where_the_push_most_likely_ends_has_the_first_claim_on_room(text):
    """However much goes: while it is told what to try at an easier hard place, that one tells how likely,
    what to try there and when to leave; and while an easier one has a row, it has one."""
    passages = made(text)[0].routes[0].passages
    worst = min(passages, key=lambda each: each.chance)
    (end,) = [s for s in card(text).sights if s.likeliest_end]
    assert worst.name in end.short
    assert end.likeliest_end.startswith("Gently: ")
    for less in (card(text), card(text).short()):
        parts = less.parts()
        for many in range(len(parts) + 1):
            left = less.without(parts[:many])
            hard = {sight.short: sight for sight in left.sights if sight.hard}
            told = [b for b in left.stuck if b.spot and b.lines and b.title != end.short]
            told += [s for s in hard.values() if not s.bare and s.short != end.short]
            assert end.short in hard or not hard
            assert not told or hard[end.short].likeliest_end == end.likeliest_end


@pytest.mark.parametrize(("more", "below"), [(0, True), (2, False)])
def test_it_stands_in_its_row_where_it_is_not_told_below(more, below):
    """Else it would be told twice; two boxes less, and all that is to be tried finds room."""
    whole = card("slab-house")
    (end,) = [sight for sight in whole.sights if sight.likeliest_end]
    fitted = printer().fitted(replace(whole, boxes=(*whole.boxes, *whole.boxes[-1:] * more)), "half")
    pdf = printer().printed(fitted, None, "half", "pdf")
    front = " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())
    assert (end.short in [block.title for block in fitted.stuck if block.lines]) is below
    assert (end.likeliest_end in front) is not below


def test_no_caution_goes_for_it(front):
    """Danger, warning, what decides, what nobody has ruled out, and what is told on every British card."""
    whole = card(CROWDED)
    for box in whole.boxes:
        assert any(f"{box.word}: {each}" in front for each in (box.text, box.short) if each)
    grave = [line for block in whole.blocks for line in block.lines if line.worth > worth.WARNING]
    assert any("septic tank" in line.text for line in grave)
    assert any("neighbours" in line.text for line in grave)
    assert [line.text for line in grave if line.bare().text not in front] == []


def test_a_pipe_that_bears_no_cutter_is_named_on_paper():
    """A notice, for it harms nobody; but who has the card alone takes a cutter to pitch fibre.

    It goes after the drawing and every step, which the plan on the screen has as well.
    """
    whole = card(CROWDED)
    left = whole.without([part for part in whole.parts() if part[0] <= worth.FIRST_STEP])
    lines = [line.text for block in left.blocks for line in block.lines]
    assert any("Pitch fibre" in line and "No jet, no cutter" in line for line in lines)


def test_what_is_left_out_is_told(front):
    assert re.search(r"lines left out, (chance, )?(chance|what to try there too): print with --back\.", front)
    for block in card(CROWDED).stuck:
        assert not block.spot or block.title in front or f"{block.title.partition(':')[0]}: " in front
