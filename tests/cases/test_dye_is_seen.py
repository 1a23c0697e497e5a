"""Dye is looked for where it can be seen.

From a trial: dye into a toilet, "None there within 2 min? It may run to a second main", and the
lowest opening was a floor drain. From the trade: while the line drains a branch shows nothing of what runs by
below it; an open channel does. So none at a floor drain says nothing of a second main.
"""

from __future__ import annotations

import pytest

from advisor.outcome.at_door import NOTHING_TOLD, AtDoor
from tests.cases.test_cellar_steps import steps


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("roots came back", NOTHING_TOLD),
        ("cellar, it comes up", AtDoor(none_poured=True, drains=True)),
    ],
)
def test_none_tells_of_a_second_main_only_where_the_line_runs_by_in_sight(name, told):
    before = steps(name, told)
    (dye,) = [step for step in before if "second main" in step]
    assert dye.startswith("A chamber outside that the line runs through (never a tank)?")
    assert "None by in it within" in dye
    assert "No such chamber, or not sure which it is? It stays shut, and no dye" in dye
