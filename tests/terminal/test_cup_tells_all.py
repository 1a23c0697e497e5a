"""A cup tells of the pipe from where it goes in on, and of no more.

From a trial: all of a house backed up, the cup was to go into the plug on the street side of the house trap,
and that it ran away there gave leave for fixtures above the trap. Common practice, no source: who pours in
below what holds the line learns nothing of it; with nothing above left to take a cup the line is cleared.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import LOOKED
from advisor.push.now.cup_here import tells_here
from advisor.terminal.choose import Choice
from advisor.terminal.push import look_first, water
from advisor.terminal.push.water import ask_instead, warn_before_any
from tests.push.test_drains import FLOOR_PLUG, UNSURE, walk
from tests.push.test_water_held_before import DOWN, OUT, SEEN, UP, after, from_, read
from tests.terminal.test_now_shown import pushed, shown

__all__ = ["shown"]  # fixture
ALL = "backs up: [bath, kitchen sink, laundry tub]"
BELOW = "backs up: [kitchen sink, bath], slow: [laundry tub]"  # both join below the plug, the tub above it
AWAY = (LOOKED, 1.5, {"drains": True})


def now(told: str, *entries, direction: str = "downstream", site=walk):
    text = site(f"holding: no, chemicals: no, {told}")
    return pushed(text, FLOOR_PLUG, UNSURE, *entries, direction=direction)


def trap_above(complaint: str) -> str:
    """The house, with a trap just above the floor plug."""
    plug = "- opening: floor plug"
    assert plug in walk(complaint)
    return walk(complaint).replace(plug, f"- trap: house trap\n      {plug}")


@pytest.mark.parametrize(
    ("told", "direction", "site", "tells"),
    [
        (BELOW, "downstream", walk, True),
        (BELOW, "upstream", walk, False),
        (BELOW, "downstream", trap_above, False),
        (ALL, "downstream", walk, False),  # the tub joins above the plug, and backs up
    ],
)
def test_only_above_all_that_backs_up_and_below_no_trap(told, direction, site, tells):
    assert tells_here(now(told, direction=direction, site=site)) is tells


def test_what_an_earlier_push_met_must_lie_ahead_too():
    down = after(DOWN, read(8.0), SEEN, OUT, DOWN, read(1.0))
    assert tells_here(down)
    up = after(UP, read(2.5), (*SEEN[:1], 2.5, SEEN[2]), OUT, DOWN, read(1.0))
    assert up.held_back
    assert not tells_here(up)
    yard = after(DOWN, read(8.0), SEEN, OUT, from_("yard cleanout", "downstream"), read(1.0))
    assert not tells_here(yard), "all that people use lies above it"


def asked(told: str, shown, monkeypatch, *entries) -> tuple[str, list[str]]:
    keys: list[str] = []

    def choose(_page, _asked, choices, _also):
        keys.extend(f"{each.key} {each.words}" for each in choices)
        return Choice("d", "").key

    monkeypatch.setattr(look_first, "choose", choose)
    return " ".join(shown(look_first.look_first, now(told, *entries)).split()), keys


def test_where_no_cup_tells_it_nothing_can_be_told_to_have_run_away(shown, monkeypatch):
    said, keys = asked(ALL, shown, monkeypatch)
    assert "No cup shows it here. Have the line cleared first." in said
    assert [each[0] for each in keys] == ["n", "d"]


def test_the_answer_names_what_was_poured_and_gives_leave_for_none_of_them(shown, monkeypatch):
    said, keys = asked(BELOW, shown, monkeypatch)
    assert "y the cup, the jug and the bucket all ran away, and nothing rose" in keys
    assert "none that backs up" not in said
    assert "Still run none: every fixture backs up or is slow. Have the line cleared first." in said
    one, keys = asked("backs up: [bath]", shown, monkeypatch)
    assert "y the cup, the jug and the short run all ran away, and nothing rose" in keys
    assert "one at a time, none that backs up or is slow" in one


def test_where_none_may_be_run_no_list_of_them_is_shown(monkeypatch, shown):
    monkeypatch.setattr(water, "choose", lambda *_: "t")
    for entries in ((), (AWAY,)):
        told = ask_instead(now(BELOW, *entries), None)
        assert told is not None
        assert told.ran, "what ran by itself is told all the same"
    assert ask_instead(now("backs up: [bath]", AWAY), None) is None
    said = " ".join(shown(warn_before_any, now(BELOW, AWAY)).replace("┃", " ").split())
    assert "Run no fixture: all of them back up or are slow. Have the line cleared first." in said
    assert "none that backs up" not in said
