"""What chances know of the pushes of a job is told as it is: from a trial.

`No chance here knows of what pushes met in this drain`, and below it 80 % for a section because a push found
something in it, and a way in risen by 11 points because its opening had opened.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import FIND, SIGHTING
from advisor.push.met_before import counted_of_pushes, met_before
from advisor.result.build import plan_of
from advisor.result.model import SuspectNote
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN, OUT
from tests.terminal.test_now_shown import Told, study_of, tee

WAD: Told = (FIND, 4.75, {"what": "wad of wipes"})
ON: Told = (SIGHTING, 5.0, {"what": "nothing"})


@pytest.mark.parametrize("points", [True, False])
def test_it_is_told_what_they_count_and_of_the_complaint_only_where_that_points(points):
    study, standing = study_of(tee()), tuple(numbered(BEGUN, WAD, ON, OUT))
    plan = plan_of(study, met_before(study, standing))
    section = SuspectNote.model_construct(section="yard drain", chance=0.8)
    plan = plan.model_copy(update={"suspects": (section,) if points else ()})
    told = counted_of_pushes(plan, study, standing)
    assert "No chance" not in told
    assert "openings that opened, tries at hard places and a pipe seen broken, no more." in told
    assert ("Where the complaint points counts what they found" in told) is points
