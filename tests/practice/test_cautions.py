"""A drill tells a hazard as the plan of that place does, in the words of its region."""

from __future__ import annotations

import pytest

from advisor.practice.place import caution
from advisor.result.build import plan_of
from tests.cases.test_every_rule import studied


@pytest.mark.parametrize("job", ["gas", "chemicals", "holding", "pit britain", "plain"])
def test_a_drill_tells_a_hazard_of_the_site_as_the_plan_does(job):
    study = studied(job)
    told = plan_of(study).cautions
    assert told
    assert [(c.word, c.text) for c in (caution(study, n.id) for n in told)] == [
        (n.word, n.text) for n in told
    ]
