"""Why pushes end where nobody knows which fitting is there: a thing counts by how likely it is that one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.result.why_ends import why_there
from tests.result.test_why_hard import share, tie_in


def only(variant: str):
    hard = tie_in()
    return replace(hard, rulings=tuple(replace(r, share=1.0) for r in hard.rulings if r.variant == variant))


def test_what_hardly_is_there_is_no_reason_though_it_would_stop_nearly_every_push():
    """A tee of a few in a hundred stops at most so many: what the likeliest fitting does comes first."""
    hard = tie_in()
    likeliest = max(hard.rulings, key=share)
    why, told = why_there(hard, 0.2, 0.15)
    assert why.startswith("If it is")
    assert likeliest.variant in why.partition(":")[0]
    assert "sanitary tee" not in why.partition(":")[0]
    # By the law of total probability no more ends by what that fitting does than it is likely to be there.
    assert 0 < told <= likeliest.share


def test_of_one_fitting_alone_it_is_told_without_an_if():
    why, told = why_there(only("sanitary tee"), 0.9, 0.15)
    assert not why.startswith("If")
    assert 0.5 < told <= 1.0, "over a wide main a head hardly ever gets round a tee (common practice)"


def test_a_thing_half_as_likely_stops_half_as_many():
    hard = only("sanitary tee")
    whole = why_there(hard, 0.1, 0.15)[1]
    half = replace(hard, rulings=(replace(hard.rulings[0], share=0.5),))
    assert why_there(half, 0.1, 0.15)[1] == pytest.approx(whole / 2)
