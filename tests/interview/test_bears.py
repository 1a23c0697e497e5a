"""A question on pipe that neither way goes through bears on neither: nobody is sent to tape it.

From a trial: the best way, from a yard chamber, stood 3 min before another chamber's, and the drop of a stack
in the house was asked; a few dear cases had fallen to one of its answers. That the minutes of a way hang on
no pipe that it never goes through is how they are made up: see docs/how-it-decides.md.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from advisor.interview.bears import bearing, on_its_ways
from advisor.interview.doubt import Least, most_moving
from advisor.interview.subject import subjects
from advisor.interview.worth import most_telling
from advisor.plan import plan
from tests.cases.jobs import rules, tables
from tests.interview.small_session import HOUSE
from tests.interview.test_doubt import Asked
from tests.terminal.test_now_shown import case_of

LEAST = Least(0.02, 0.25)


class On(Asked):
    """A question of which is known what it is about."""

    minutes = 0.0

    def __init__(self, subject) -> None:
        super().__init__((subject.about, subject.id))
        object.__setattr__(self, "subject", subject)


@cache
def told():
    return replace(case_of(HOUSE), worlds=20)


@cache
def small():
    return plan(told(), tables(), rules())


def about(words: str, line: str, name: str = ""):
    found = subjects(small().network, told().sheet.model, tables())
    return On(next(each for each in found if each.about == words and each.line == line and name in each.id))


def test_pipe_bears_on_the_ways_through_it_and_all_else_on_any():
    asks = [about("run", "laundry line"), about("wall", "laundry line"), about("wall", "house drain"),
            about("doubted opening", "house drain", "yard pit")]  # fmt: skip
    on = bearing([(each, np.zeros(20, np.intp)) for each in asks], small())
    laundry, wall, drain, pit = on[:, :-1]
    assert not any(laundry)  # nobody goes in at the washing machine
    assert not any(wall)
    assert len(drain)
    assert all(drain)
    assert all(pit)
    assert not on[:3, -1].any()  # to leave the job undone goes through nothing


def test_what_bears_on_neither_settles_nothing_between_them():
    parts = np.array([[0.0, 9.0, 4.0], [0.0, 1.0, 16.0]])
    bears = np.array([[False, False, True], [True, False, False]])
    assert on_its_ways(parts, bears, 0).tolist() == [[0.0, 0.0, 4.0], [0.0, 1.0, 16.0]]
    assert on_its_ways(parts, None, 0) is parts


def test_such_a_question_is_not_put():
    groups = np.arange(200) % 2
    costs = np.stack([np.zeros(200), 1.0 + 20.0 * (groups - 0.5), np.full(200, 500.0)])
    ask = about("run", "laundry line")
    off = np.zeros((1, 3), bool)
    assert most_moving([(ask, groups)], costs, LEAST) == ask
    assert most_moving([(ask, groups)], costs, LEAST, off) is None
    other = about("wall", "house drain")
    on = np.array([[False] * 3, [True] * 3])
    both = [(ask, groups), (other, np.arange(200) // 100)]
    assert most_moving(both, costs, LEAST, on) is None  # the other may bear on them, and moves nothing
    assert most_telling([*both[::-1]], costs) == ask
    assert most_telling([*both[::-1]], costs, on[::-1] & False) == other  # neither tells: the first
