"""Who opens a plug in the floor or the yard of which nobody told how deep it lies is warned of a pit.

From a trial: nothing asked or told whether such a plug lies level or in a pit. A pit is a confined space
(OSHA 1926 Subpart AA); that nobody leans into one is common practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.result.before import before_push
from tests.push.test_drains import FLOOR_PLUG, walk
from tests.terminal.test_now_shown import study_of

SAYS = "no head below its rim"


@pytest.mark.parametrize(
    ("opening", "depth", "told"),
    [(FLOOR_PLUG, "", True), (FLOOR_PLUG, "depth: 400 mm", False)],
)
def test_a_plug_of_unknown_depth_may_lie_in_a_pit(opening, depth, told):
    study = study_of(walk().replace("depth: 400 mm", depth))
    before = before_push(study, opening, study.kit.loadouts[0].name)
    assert any(SAYS in note.text for note in before.cautions) is told
