"""The numbers of a card and a plan say what they are of, and a counter is read in its one unit."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from advisor.card.text import card_text
from tests.card.cards import printer
from tests.card.test_card import DEMOS, card, made
from tests.cases.hazards import SMALL, run, site
from tests.cases.jobs import planned


@pytest.mark.parametrize("stem", DEMOS)
def test_the_counter_column_has_one_unit(stem):
    whole = card(stem)
    units = {cell.rpartition(" ")[2] for s in whole.sights for cell in (s.reading, s.span) if cell}
    assert len(units - {"opening"}) == 1
    assert units <= {"ft", "m", "opening"}
    heads = [block.title.partition(":")[0] for block in whole.stuck if block.spot]
    assert not [head for head in heads if re.search(r"\bin$|mm$", head)]


def far() -> str:
    """So long a way that the push may or may not last, and short enough to be gone for as a whole."""
    return site(run("kind: end cleanout", "pipe: 9 m", "bend: 1/4 bend", "pipe: 20 m"), "run")


def test_how_often_the_push_lasts_is_told_as_that_and_is_no_less_than_how_often_it_gets_there():
    """Who is to get to the end and back needs a push that lasts so far: the one bounds the other."""
    route = planned(far(), SMALL, worlds=300).routes[0]
    told = [each for each in route.difficulty if "were nothing else to hold it" in each]
    assert len(told) == 1
    lasts = float(re.search(r"\((?:under )?(\d+) %\)", told[0]).group(1)) / 100
    assert lasts >= (route.chance if route.covers >= 1 else route.part_chance) - 0.005
    assert "Getting there" not in told[0]
    assert "turns: 1)" in told[0], "one bend on the way"


def test_the_back_says_of_what_the_chance_is():
    plan_, _ = made(DEMOS[0])
    say = plan_.chance_words.say(plan_.routes[0].chance)
    whole = card(DEMOS[0])
    assert any(line.text.startswith(f"To see all of it and come back: {say}") for line in whole.chance)


def test_only_limits_are_large():
    """From a trial: "push lasts 200 ft" stood as large as, and beside, "no further 48 ft"."""
    whole = card(DEMOS[0])
    assert re.search(r"\npush lasts .* \(middle case\)\n", card_text(whole))
    assert not any("lasts" in what for _, what in whole.keys)
    page = printer().printed(printer().fitted(whole, "letter"), None, "letter", "pdf")
    sizes: dict[str, float] = {}
    told = PdfReader(io.BytesIO(page)).pages[0]
    told.extract_text(visitor_text=lambda text, cm, tm, font, size: sizes.setdefault(text.strip(), size))
    large = " ".join(text for text, size in sizes.items() if size >= 16)
    assert whole.keys[0][0].split()[0] in large
    assert "lasts" not in large
    assert whole.lasts.split()[2] not in large.split()


def test_more_free_rod_than_it_bears_comes_with_what_to_do():
    """A hand at the rim of a deep opening: the trade sets a guide tube or takes short strokes."""
    text = site(run("kind: yard cleanout, depth: 900 mm"), "run")
    minds = planned(text, SMALL, worlds=200).routes[0].difficulty
    told = next(each for each in minds if "below the hand" in each)
    assert "guide tube" in told
    assert "short strokes" in told
