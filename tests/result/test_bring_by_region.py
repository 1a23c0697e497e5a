"""What to bring is told in the words of the region.

From the trade: a torch is a hand lamp in Britain and an open flame in North America, beside sewer gas no
small difference; there it is a flashlight.
"""

from __future__ import annotations

import pytest

from tests.cases.jobs import rules
from tests.cases.test_wet_cellar_power import told

LAMP = {"north america": "flashlight", "britain": "torch"}


JOBS = {"north america": "cellar, it comes up", "britain": "a British cellar, it comes up"}


@pytest.mark.parametrize(("region", "name"), JOBS.items())
def test_the_lamp_of_a_bring_list(region, name):
    """By the opening, or by the look whether the line holds: what is said of it cannot all be."""
    other = set(LAMP.values()) - {LAMP[region]}
    assert LAMP[region] in told(name).bring
    assert not other & set(told(name).bring)


def test_no_sentence_names_it():
    """Sentences of the rules are not put into the words of a region: only what is brought is."""
    for rule in rules().all_rules:
        texts = set(rule.conclusion.texts()) - set(rule.conclusion.bring)
        assert not [text for text in texts if "torch" in text.lower()], rule.id
