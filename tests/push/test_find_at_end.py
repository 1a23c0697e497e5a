"""Where what was seen ends at a find, the report says so: the lens at its farthest is one place.

From a trial: "not shown to have been seen: 22.6 ft on", and the root mass that ended the push, at
the same reading, "at 23 ft": inside the stretch that was told as not seen.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import START, Told, report, section

MASS: Told = ("find", 14.0, {"what": "root mass"})
END: Told = ("end", 14.0, {"reached": False})
UNSEEN = "Not shown to have been seen: 13.5 m to 26 m down house drain"  # the cleanout: half a metre above it


@pytest.mark.parametrize("heading", ["In short", "What was not seen"])
def test_what_was_seen_ends_at_the_find(heading):
    told = section(report(START, MASS, END), heading)
    assert f"{UNSEEN} (from find no. 1 to public sewer)" in told


def test_a_find_on_the_way_is_no_end():
    on: Told = ("sighting", 16.0, {"what": "nothing"})
    told = section(report(START, MASS, on, END), "In short")
    assert "15.5 m to 26 m down house drain (to public sewer)" in told
    assert "find no. 1 to" not in told
