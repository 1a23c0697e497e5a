"""From a trial: "Not told here: 4.7 m: a bend that is not on your ...; ..." on a card, cut in the midst.

What finds no room is named by words that say what it is; how it is known stands on the plan.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.card import worth
from tests.card.test_rows_of_pushes import ROOTS, made
from tests.cases.jobs import tables


@pytest.fixture(scope="module")
def card():
    return made(ROOTS)


def named(card, short):
    """How a row of a push is named when nothing but what never goes finds room."""
    row = replace(card.sights[0], short=short, worth=worth.FOUND_ROW)
    whole = replace(card, sights=(row,))
    (told,) = (each for each in whole.without(whole.parts()).untold if " m: " in each)
    return told


BEND = "a bend that is not on your sheet"
KNOWN = f"4.7 m: {BEND}, here by its lengths (seen in from front chamber at 5.7 m)"


@pytest.mark.parametrize(
    ("short", "told"),
    [
        (KNOWN, f"4.7 m: {BEND}, here by its lengths"),
        (f"15.1 m: seen before: {BEND}", f"15.1 m: seen before: {BEND}"),
        (
            "7.1 m: stopped before: a rim or step before the lens; it feels dead and hard",
            "7.1 m: stopped before: a rim or step before the lens",
        ),
    ],
)
def test_its_words_are_whole(card, short, told):
    assert named(card, short) == told


def test_so_is_every_sign_that_a_stop_is_told_by(card):
    signs = (sign.words for sign in tables().stuck.signs.values())
    for words in (words for words in signs if ";" not in words):
        assert named(card, f"123.4 m: stopped before: {words}").endswith(words)


def test_free_text_without_end_is_cut_and_shows_it(card):
    assert named(card, f"7 m: seen before: {'wipes and more wipes ' * 9}").endswith(" ...")
