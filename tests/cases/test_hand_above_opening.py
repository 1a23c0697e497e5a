"""An opening that lies below the hand, which nobody climbs into: no word puts the hand at it.

The rules fire only where the opening lies deeper than the hand may be off; common practice, no source.
"""

from __future__ import annotations

import re

from tests.cases.jobs import rules, tables

AT_IT = r"(?i)move up|hands? (with)?in \{?[\w.]*\}? ?of the opening|bring both hands to the opening"


def test_what_to_do_with_the_hands_goes_with_nobody_going_in():
    rule = next(each for each in rules().by_stratum["technique"] if each.id == "hands-close-to-opening")
    steps = rule.conclusion.steps["hands close"]
    first = [step.do for step in tables().stuck.first["rod bows at the hand"]]
    for told in (steps, first):
        assert not [step for step in told if re.search(AT_IT, step)]
        assert any("guide tube" in step for step in told)
        assert any("Nobody climbs in" in step for step in told)
        assert any("hort strokes" in step for step in told)
    assert "below the hand" in rule.because
