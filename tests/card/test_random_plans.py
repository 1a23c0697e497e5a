"""The card's limits over plausible houses: one page, few short items, large type, nothing lost uncounted."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from advisor.archetype import archetypes, plausible_site
from advisor.card.text import COLUMNS, card_text
from advisor.tables.place import rules_dir
from tests.card.cards import card, made, printer
from tests.cases.jobs import tables

pytestmark = pytest.mark.slow  # many whole houses planned and pushed through

FEW, MANY = 6, 200


def check(seed: int, paper: str) -> bool:
    """True where the house has a push to print a card for."""
    text = plausible_site(seed, archetypes(rules_dir(), tables()), tables())
    plan_, _ = made(text)
    if not plan_.routes:
        return False
    whole = card(text).limited()
    fitted = printer().fitted(whole, paper)
    pdf = PdfReader(io.BytesIO(printer().printed(fitted, None, paper, "pdf")))
    assert len(pdf.pages) == 1, seed
    sizes: set[float] = set()

    def seen(words: str, _: object, matrix: list[float], __: object, size: float) -> None:
        if words.strip():
            sizes.add(round(size * abs(matrix[3]), 1))

    told = " ".join(pdf.pages[0].extract_text(visitor_text=seen).split())
    assert min(sizes) >= 12
    assert max(sizes) >= 16
    for box in whole.boxes:
        either = (each for each in (box.text, box.short) if each)
        assert any(" ".join(f"{box.word}: {each}".split()) in told for each in either), seed
    assert not fitted.left_out or f"{fitted.left_out} line{'s' * (fitted.left_out > 1)} left out" in told
    assert sum(box.word == "DANGER" for box in whole.boxes) <= 2
    assert sum(box.word == "WARNING" for box in whole.boxes) <= 3
    for block in (*whole.stuck, *whole.blocks):
        assert len(block.lines) <= 9, block.title
        if block.title in ("Assumed, not seen", "Marking it above ground"):
            continue  # names and values of the sheet, not instructions
        for words in (words for line in block.lines for words in (line.text, *line.steps)):
            for sentence in re.split(r"(?<=[.?!:])\s", words):
                assert len(sentence.split()) <= 14, sentence  # twelve, and two for a name of several words
    hard = [sight for sight in whole.sights if sight.hard]
    spots = {block.title for block in whole.stuck if block.spot}
    assert spots <= {sight.short for sight in hard}, "every hard spot has its row"
    assert all(len(row) <= COLUMNS for row in card_text(whole).splitlines())
    return True


@pytest.mark.parametrize("seed", range(FEW))
def test_a_few_plausible_houses(seed):
    check(seed, ("letter", "a4", "half")[seed % 3])


def test_a_pipe_that_is_hard_where_its_wall_begins_has_its_row():
    """Nothing but the other wall comes into view there: house 51 had no row for it."""
    assert check(51, "letter")


@pytest.mark.slow
def test_two_hundred_plausible_houses():
    checked = sum(check(seed, ("letter", "a4", "half")[seed % 3]) for seed in range(MANY))
    assert checked > MANY / 2
