"""The cup by which it is seen whether a line drains goes into nothing that backs up: there it comes up.

From a trial: in a house where every fixture was told to back up it was to go into the lowest of them.
Common practice, no source: not into what is slow or lies lowest either; with no fixture left, into the
opening in use, where whoever pours sees it rise, or nowhere before the line is cleared.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import LOOKED
from advisor.terminal.choose import Choice
from advisor.terminal.push import look_first
from advisor.terminal.push.water import warn_before
from tests.push.test_drains import FLOOR_PLUG, UNSURE, walk
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]  # fixture
ITSELF = "into floor plug itself, no tap. Every fixture that tells anything backs up, is slow or lies lowest."
LIVE = "Whoever pours: only once the power down there is cut, from a dry place."
NONE = "No cup shows it here. Have the line cleared first."
ALL = "backs up: [bath, kitchen sink, laundry tub]"
BELOW = "backs up: [bath, kitchen sink], slow: [laundry tub]"  # what backs up joins below the plug


def steps(told: str, shown, monkeypatch, direction: str = "downstream") -> str:
    monkeypatch.setattr(look_first, "choose", lambda *_: Choice("d", "").key)
    now = pushed(walk(f"holding: no, chemicals: no, {told}"), FLOOR_PLUG, UNSURE, direction=direction)
    said = shown(look_first.look_first, now)
    return " ".join(said.split())


@pytest.mark.parametrize(
    ("told", "says"),
    [
        ("backs up: [bath]", "into the kitchen sink or laundry tub, no tap."),
        ("backs up: [bath, kitchen sink]", "into the laundry tub, no tap."),
        ("backs up: [bath], slow: [kitchen sink]", "into the laundry tub, no tap."),
        ("backs up: [kitchen sink]", "into the laundry tub, no tap."),  # the bath lies low: no drop below it
        (BELOW, ITSELF),
        ("backs up: [kitchen sink], slow: [laundry tub, bath]", ITSELF),
    ],
)
def test_the_cup_goes_into_nothing_that_backs_up_is_slow_or_lies_lowest(told, says, shown, monkeypatch):
    assert f"One cup by hand {says}" in steps(told, shown, monkeypatch)


def test_into_an_opening_in_the_wet_only_with_the_power_cut(shown, monkeypatch):
    assert LIVE in steps(f"wet cellar: comes up, {BELOW}", shown, monkeypatch)
    assert LIVE not in steps(BELOW, shown, monkeypatch)


def test_nor_where_the_lens_looks_upstream_for_there_it_runs_the_other_way(shown, monkeypatch):
    said = steps(BELOW, shown, monkeypatch, direction="upstream")
    assert NONE in said
    assert "Have the line cleared first." in said
    assert "One cup by hand into the lowest" not in said
    assert "A jug" not in said


def test_who_chooses_one_all_the_same_is_warned_as_long_as_it_is_not_surely_cleared(shown):
    now = pushed(
        walk("holding: no, chemicals: no, backs up: [bath], slow: [kitchen sink]"),
        FLOOR_PLUG,
        UNSURE,
        (LOOKED, 1.5, {"drains": True}),
        direction="downstream",
    )
    for fixture in ("bath", "kitchen sink"):
        assert f"Not the {fixture} yet" in shown(
            lambda now, page, it=fixture: warn_before(it, now, page), now
        )
    assert not shown(lambda now, page: warn_before("laundry tub", now, page), now)
