"""Several things in the words of one find: each that matters is advised. Common practice, no source."""

import pytest

from advisor.outcome.attempts import CLEANED
from advisor.push.log.kinds import PASSED, TRY
from tests.push.test_marks import advice
from tests.push.test_report import START, report, section, text_of

WIPES = "wipes and paper in standing water"


@pytest.mark.parametrize(
    ("what", "advised"),
    [
        # What blocks is taken away, and the water is looked at again: it may have been held by it.
        (WIPES, ("clean", "look again")),
        ("standing water, wipes hung", ("clean", "look again")),
        ("roots in standing water", ("clean", "look again")),
        ("a toy in standing water", ("take out", "look again")),
        ("heavy scale and standing water", ("descale", "look again")),
        ("belly full of grease", ("clean", "watch")),
        ("wipes hung in standing water, pipe sags", ("clean", "watch", "look again")),
        ("step, paper hung on it", ("watch", "clean")),
        ("scale and grease", ("descale", "clean")),
        ("two mouths, roots in one", ("bring it up", "clean")),
        # Of one thing one advice, and nothing of what is not there.
        ("root mass", ("clean",)),
        ("standing water, no wipes", ("look again",)),
        ("concrete pipe holds water", ("look again",)),
        ("lump of concrete", ("take out",)),
        # No cutter, no jet and no rod is sent in behind what forbids them.
        ("yellow pipe in grease", ("stop",)),
        ("collapse, roots and standing water", ("dig here",)),
        ("object in the roots", ("take out",)),
        ("asbestos cement, roots", ("ask first",)),
        ("sound", ()),
    ],
)
def test_each_that_matters_is_advised(what, advised):
    assert tuple(row.advice for row in advice().finds.advised(what, scales=True)) == advised


def test_what_is_told_with_another_is_a_row_further_down():
    rows = advice().finds.finds
    for place, row in enumerate(rows):
        assert set(row.also) <= {each.find for each in rows[place + 1 :]}, row.find


def test_a_report_tells_both():
    made = report(START, ("find", 6.0, {"what": WIPES}))
    assert f"{WIPES}: clean, look again." in section(made, "In short")
    assert "clean, look again" in section(made, "Finds")
    told = section(made, "Recommended")
    assert f"No. 1, {WIPES}: clean. Have the line cleaned over its whole length" in told
    assert "No. 1, as well: look again. One look at water is no proof of a sag." in told


def test_once_cleaned_the_water_is_still_to_be_looked_at():
    cleaned = (TRY, 6.0, {"technique": CLEANED, "outcome": PASSED, "outside": True})
    made = report(START, ("find", 6.0, {"what": WIPES}), cleaned)
    told = section(made, "Recommended")
    assert "What was here was told as cut or cleaned since." in told
    assert "Have the line cleaned" not in told
    assert "as well: look again. One look at water" in told
    assert "look again, look again" not in " ".join(text_of(made).split())
