"""Whoever wants to tell more goes on where the session stops by itself: the most telling question first."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from advisor.interview.answers import Answer
from advisor.interview.question import DONT_KNOW
from advisor.interview.sheets import Answers
from advisor.interview.worth import most_telling
from tests.interview.small_session import HOUSE, answered, session, walk

CALM = dict.fromkeys(("gas-smell", "holding", "chemicals", "pumps", "deep", "septic"), "no") | {"roof": "yes"}


@dataclass(frozen=True)
class Asked:
    """What `most_telling` reads of a question."""

    id: str
    minutes: float
    knows: float
    to_open: float | None = None


@pytest.mark.parametrize(("spread", "first"), [(8.0, "quick"), (6.5, "large")])
def test_it_is_what_settles_most_times_who_knows_it_less_the_minutes_to_find_out(spread, first):
    """By hand: one sigma of 10, 5 and 8 (or 6.5) min come to 0.6 x 10 - 3 = 3, 0.6 x 5 - 3 = 0 and
    0.75 x 8 - 2 = 4 (or 0.75 x 6.5 - 2 = 2.9) min."""
    worlds = np.arange(8)
    large, small, quick = worlds % 2, worlds // 2 % 2, worlds // 4
    sign = 2.0 * np.stack([large, small, quick]) - 1
    way = 40 + np.array([10.0, 5.0, spread]) @ sign
    costs = np.stack([way, np.full(8, 90.0)])
    asks = [
        (Asked("small", 3, 0.6), small),
        (Asked("large", 3, 0.6), large),
        (Asked("quick", 2, 0.75), quick),
    ]
    # Eight worlds are few: what chance would show is taken off each, the same share of what is left.
    many = [(ask, np.tile(groups, 500)) for ask, groups in asks]
    found = most_telling(many, np.tile(costs, 500))
    assert found.id == first


def test_it_goes_on_where_the_session_stops_and_asks_each_thing_once():
    of = session(sheet=HOUSE)
    answers = walk(of, lambda ask: (CALM.get(ask.question.id, DONT_KNOW),))
    stopped = answers
    while (ask := of.more(answers)) is not None:
        assert ask.key not in {(a.question, a.about) for a in answers}
        answers = (*answers, answered(ask, DONT_KNOW))
    assert of.next(stopped) is None, "when it stops by itself is as before"
    asked = {a.question for a in answers[len(stopped) :]}
    assert {"run", "pipe-material", "pipe-size", "shared"} <= asked
    order = [(a.question, a.about) for a in answers[len(stopped) :]]
    first = order.index(("shared", "job"))
    assert {"run", "pipe-material"} <= {question for question, _ in order[:first]}
    assert "pipe-size" not in {question for question, _ in order[:first]}, "what no way hangs on comes last"


@pytest.mark.parametrize("danger", ["gas-smell", "holding", "chemicals"])
def test_nothing_more_is_asked_where_no_camera_goes_in(danger):
    said: Answers = tuple(Answer(q, "job", (w,)) for q, w in {**CALM, danger: "yes"}.items())
    assert session(sheet=HOUSE).more(said) is None
