"""What looks leave of the chance that an opening is there: Bayes, by hand, from what the sheet says of it."""

from __future__ import annotations

from math import inf

import pytest

from advisor.site.build import network_of
from advisor.site.looked_for import LookedFor, after, odds_between, with_looks
from advisor.site.network import Network
from advisor.site.reached_in import with_chambers
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.site.test_reached_in import SITE


def known(network: Network, *told: LookedFor) -> Network:
    return with_chambers(with_looks(network, told), tables())


def chances(network: Network) -> tuple[float, ...]:
    pieces = {piece.name: piece for piece in network.openings()}
    return tuple(pieces[name].hole.there for name in ("chamber", "arm"))


@pytest.mark.parametrize(
    ("chance", "odds", "left"),
    [(0.5, 0.2, 1 / 6), (0.5, 1, 0.5), (0.7, 1, 0.7), (0.2, 4, 0.5), (0.1, inf, 1)],
)
def test_evidence_moves_the_odds(chance, odds, left):
    """A half is odds of one, times 0.2 is 1 to 5; a fifth is odds of a quarter, times 4 is 1 to 1."""
    assert after(chance, odds) == pytest.approx(left)
    assert odds_between(chance, left) == pytest.approx(odds)


def test_a_copy_that_knows_fewer_looks_knows_no_more_than_those():
    """A push that is followed again begins with what those before it left."""
    text = SITE.replace("CHAMBER", "there: 55 %").replace("ARM", "there: 80 %")
    drawn = network_of(site_of_text(text, "site", tables()), tables())
    missed, seen = LookedFor("chamber", 1, 0.2), LookedFor("arm", 5, inf)
    by_sheet, once, twice = known(drawn), known(drawn, missed), known(drawn, missed, seen)
    assert chances(by_sheet) == (0.55, 0.55)
    # 0.55 to 0.45 times 0.2 is 11 to 45; an arm is there in no case without its chamber, and shows that.
    assert chances(once) == pytest.approx((11 / 56, 11 / 56))
    assert chances(twice) == (1, 1)
    assert (chances(known(twice, missed)), chances(known(twice))) == (chances(once), chances(by_sheet))
