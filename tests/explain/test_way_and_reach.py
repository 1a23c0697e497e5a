"""How far the way is and how far a push would last are two lengths, and neither is told as part of the other.

A push may well last further than the way is long: arithmetic.
"""

from __future__ import annotations

import pytest

from advisor import demo
from advisor.explain.how import how_route
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.plan import Case, plan
from advisor.quantity import Dimension, Units, show
from advisor.site.sheet import read_site
from advisor.worlds.spread import middle
from tests.cases.jobs import rules, tables


@pytest.fixture(scope="module")
def study():
    sheets = read_site(demo.MAIN, tables()), kit_of(read_kit(demo.KIT), tables())
    return plan(Case(*sheets, Units.INCH, 50), tables(), rules())


def test_a_push_lasts_no_length_of_a_shorter_way(study):
    for ranked in study.ranked:
        march = ranked.outcome.march
        way, lasts = (
            show(middle(each), Dimension.LENGTH, study.units) for each in (march.end.at, march.reach)
        )
        told = [each.text for each in how_route(study, ranked.outcome).tree.under]
        assert any(
            each.startswith(f"the way is {way}; in the middle case the push lasts {lasts}; ") for each in told
        )
