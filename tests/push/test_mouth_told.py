"""Into which mouth of a channel the head was led is told and weighs as a told direction does.

One stands over the channel and sees every mouth: common practice, no source. A slip is as likely as with a
direction: forks, first_way 0.97 of rules/signs/where.yaml; the rest goes to the other mouths alike.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import DOWN, SIGHTING, UP, entry_faults
from advisor.push.log.log import Entry
from advisor.push.now.ahead import next_landmarks
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.way_gone import mouth_told
from advisor.site.mouths import Mouth, up_mouths
from advisor.terminal.push.led_into import led_into
from tests.cases.jobs import tables
from tests.push.test_chamber_mouths import CHAMBER, NOTHING, from_the_pit
from tests.push.test_other_mouth import into_the_annexe
from tests.terminal.test_now_shown import NOON, study_of

PIT = {"opening": "pit", "direction": UP}


def told(mouth: str | None) -> Push:
    data = PIT if mouth is None else {**PIT, "mouth": mouth}
    assert not entry_faults("start", 0.0, data)
    return Push(study_of(CHAMBER), Entry(0, NOON, NOON, "start", 0.0, data))


def shares(push: Push) -> dict[Mouth, float]:
    found: dict[Mouth, float] = {}
    for way in push.tracker.chart.ways:
        found[way.mouth] = found.get(way.mouth, 0.0) + way.prior
    return found


@pytest.mark.parametrize("line", ["yard drain", "annexe", "gutter line"])
def test_a_told_mouth_is_right_as_often_as_a_told_direction(line):
    """By count: four mouths, the outlet one of them, so a third of 0.03 for each that was not told."""
    push = told(line)
    mouth = up_mouths(push.study.network, push.opening, tables())[line]
    found = shares(push)
    assert len(found) == 4
    assert found.pop(mouth) == pytest.approx(0.97)
    assert list(found.values()) == pytest.approx([0.01] * 3)


@pytest.mark.parametrize("line", [None, "a line that was drawn anew since"])
def test_where_no_mouth_is_told_any_but_the_outlet_is_meant(line):
    push = told(line)
    assert push.mouth is None
    assert shares(push) == shares(from_the_pit().push)
    assert shares(push)[Mouth("down")] == pytest.approx(0.03)


def test_the_water_of_another_branch_from_ahead_still_shows_the_slip():
    """The annexe was told, the sink's water comes by: that pipe is the drain's own."""
    push = told("annexe")
    entry = Entry(1, NOON, NOON, "water", 3.0, {"fixture": "kitchen sink", "seconds": 4.0, "side": "ahead"})
    assert Now(push, ()).fix.best.line in ("yard drain", "annexe")
    assert Now(push, (entry,)).fix.best.line == "yard drain"
    assert mouth_told(push.began, push.study.network, tables()) == push.mouth


def test_the_mouths_are_asked_by_name_and_that_of_the_plan_is_marked():
    push = into_the_annexe().push
    asked = led_into(push.study, push.opening, push.loadout.name)
    words = {choice.key: choice.words for choice in asked.choices}
    assert [key for key, each in words.items() if "(planned)" in each] == ["2"]
    assert "annexe" in words["2"]
    assert {key: led.mouth for key, led in asked.tells.items()} == {
        "s": None,
        "1": "yard drain",
        "2": "annexe",
        "3": "gutter line",
        "h": None,
    }
    assert [asked.tells[key].direction for key in "s123h"] == [DOWN, UP, UP, UP, UP]


def test_with_one_mouth_upstream_only_the_direction_is_asked():
    text = CHAMBER.replace("chamber branch", "45 degree branch")
    study = study_of(text)
    (opening,) = (each for each in study.network.openings() if each.name == "pit")
    asked = led_into(study, opening, study.kit.loadouts[0].name)
    assert asked.asked == "Which way does this opening lead?"
    assert {key: led.direction for key, led in asked.tells.items()} == {"s": DOWN, "h": UP}


@pytest.mark.parametrize("at", [0.0, 1.0])
def test_led_into_the_outlet_it_waits_for_no_mouth_of_the_chamber(at):
    """A head that is led into one mouth comes past none of the others in a pipe."""
    now = from_the_pit((SIGHTING, at, {"what": "nothing"}), direction=DOWN)
    ahead = {each.landmark.piece.name for each in next_landmarks(now.push.tracker, now.belief)}
    assert not ahead & {"annexe", "gutter line"}


def test_nor_does_it_speak_against_the_outlet_that_none_was_seen():
    """0.97 were told and 0.98 of that is on the map: 3 m of plain pipe later it is no less."""
    assert from_the_pit(NOTHING, direction=DOWN).fix.downstream > 0.97 * 0.98 - 0.01


def test_a_closed_branch_right_behind_the_chamber_is_still_waited_for():
    now = from_the_pit(
        direction=DOWN, text=CHAMBER.replace("fitting: chamber branch", "fitting: 45 degree branch")
    )
    ahead = {each.landmark.piece.name for each in next_landmarks(now.push.tracker, now.belief)}
    assert ahead & {"annexe", "gutter line"}
