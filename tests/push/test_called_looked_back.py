"""Looked back on, each thing is called by where the head was then, with what had been told of it by then."""

from __future__ import annotations

from dataclasses import replace

from advisor.push.now.since import passed
from tests.push.test_junction_again import FIRST, told


def test_what_a_later_tie_in_changed_is_not_weighed_into_an_earlier_one():
    """Where nothing else is known by now, it is called as then: what was told later of another is no part of
    how it looked."""
    now = told(FIRST, (3.7, 9.0))
    assert now.belief.anew, "the second was weighed against the first"
    handed_back = replace(now.after(1), anew=now.belief.anew)
    assert passed(now, {1: handed_back}) == passed(now)
