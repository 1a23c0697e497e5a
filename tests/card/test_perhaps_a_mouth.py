"""An opening of which nobody knows whether it is there: the card says so, and no mark is made for it unseen.

From a trial: all cards told as a fact "5.1 ft: mouth above: yard cleanout. Not seen? Mark it. It
may be buried", of an opening that the same plan held for as likely there as not.
"""

from __future__ import annotations

import pytest

from tests.card.cards import card, made
from tests.push.test_perhaps_there import OTHER, SITE, USED

FROM_IT = SITE.replace("look at: house drain", f"look at: 'house drain, from {OTHER} to public sewer'")


@pytest.mark.parametrize(("there", "doubted"), [("50 %", True), ("yes", False)])
def test_row_and_mark_say_that_it_may_not_be_there(there, doubted):
    text = FROM_IT.replace("THERE", there)
    way = next(at for at, each in enumerate(made(text)[0].routes) if each.opening == USED)
    told = card(text, route=way)
    (row,) = (each for each in told.sights if "mouth above" in each.see)
    assert ("if it is there" in row.see) is doubted
    assert row.missed.startswith("Go on slowly.") is doubted
    (marks,) = (each for each in told.blocks if each.title == "Marking it above ground")
    (mark,) = (each.text for each in marks.lines if f"from {OTHER}" in each.text)
    assert ("mark it only where the lens sees it" in mark) is doubted
    assert ("stroke-dasharray" in told.strip) is doubted
