"""Half a sheet of a crowded British house: shared drain, deep chamber, nothing asked. It is for the way."""

from __future__ import annotations

import io

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
    assert "NOT PAST HERE: public sewer" in way


def test_no_caution_goes_for_it(front):
    """Danger, warning, what decides, what nobody has ruled out, and what is told on every British card."""
    whole = card(CROWDED)
    for box in whole.boxes:
        assert f"{box.word}: {box.text}" in front
    grave = [line for block in whole.blocks for line in block.lines if line.worth > worth.WARNING]
    assert any("septic tank" in line.text for line in grave)
    assert any("neighbours" in line.text for line in grave)
    assert [line.text for line in grave if line.bare().text not in front] == []


def test_what_is_left_out_is_told(front):
    assert "lines left out , what to try there too: print with --back." in front.replace("out,", "out ,")
