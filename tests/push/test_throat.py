"""The head went upstream at a cleanout and was wanted downstream. Rule of the trade: draw back to the throat,
turn the rod half round, try again; a fitting with one throat gives no choice, and is looked into instead."""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.held.throat import wanted_throat
from advisor.push.log.kinds import BACK, SIGHTING, UP
from advisor.push.log.log import Entry
from advisor.push.met_before import met_before
from advisor.push.now.now import Now
from advisor.push.now.way_gone import WayGone, way_by_map, way_gone
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.terminal.page import Page
from advisor.terminal.push import begin
from advisor.terminal.push.here import show_now
from advisor.terminal.push.plan_anew import show_plan_anew
from tests.cases.jobs import tables
from tests.push.sites import WALK
from tests.push.test_earlier_stop import logged, numbered
from tests.terminal.test_now_shown import Told, pushed, shown, study_of

__all__ = ["shown"]  # a fixture
PLUG = "floor plug"
BATH = {"what": "tie-in", "clock": 3.0}


def job(kind: str) -> str:
    """In at the plug, to look at what lies downstream of it; what opens it is of that kind."""
    text = WALK.replace("kind: floor cleanout", f"kind: {kind}")
    return text.replace("look at: house drain", 'look at: "house drain, from floor plug to public sewer"')


def by_map(run: list[Entry], kind: str) -> WayGone:
    """The way of a push where no plan is made yet."""
    return way_by_map(run, network_of(site_of_text(job(kind), "site", tables()), tables()), tables())[0]


def upstream(kind: str, *told: Told) -> Now:
    return pushed(job(kind), PLUG, *told, direction=UP)


def test_where_it_went_as_wanted_there_is_nothing_to_tell():
    assert wanted_throat(pushed(job("two-way cleanout"), PLUG, direction="downstream")) is None


@pytest.mark.parametrize("kind", ["two-way cleanout", "twin cleanout"])
def test_with_a_throat_each_way_it_is_drawn_back_turned_and_tried_again(kind, shown):
    found = wanted_throat(upstream(kind))
    assert found is not None
    assert found.tries
    assert found.tries[0][0] == "turn the rod"
    assert not {"quick push", "guide", "water"} & {name for name, _ in found.tries}, "these choose no way"
    # The plug is told to lie 400 mm down: so much rod is in when the head is in the throat.
    assert found.counter == pytest.approx(0.4)
    now = upstream(kind, (SIGHTING, 1.5, {"what": "nothing"}))
    said = shown(show_plan_anew, now, now.push.study, None)
    back = said.index("Draw back slowly until the counter shows about 0.4 m")
    assert back < said.index("Turn the rod in both hands") < said.index("If that fails")
    assert "The plan from here: leave it" not in said


@pytest.mark.parametrize("kind", ["floor cleanout", "yard cleanout"])
def test_with_one_throat_it_is_said_so(kind, shown):
    now = upstream(kind)
    found = wanted_throat(now)
    assert found is not None
    assert found.tries is None
    said = shown(show_plan_anew, now, now.push.study, None)
    assert "has one throat only" in said
    assert "Turn the rod in both hands" not in said


def test_in_an_open_channel_it_is_lifted_out_and_led_into_the_other_mouth(shown):
    """Nothing there to turn in and no fitting for a string: common practice, no source."""
    now = upstream("inspection chamber")
    found = wanted_throat(now)
    assert found is not None
    assert (found.tries, found.mouth) == (None, "that leads downstream")
    said = shown(show_plan_anew, now, now.push.study, None)
    assert said.index("Lead it into the mouth that leads downstream") < said.index("If that fails")
    assert "Nobody leans in or goes in" in said, "a chamber may be deeper than an arm reaches"
    assert not [word for word in ("throat", "Turn the rod", "string") if word in said]


def test_the_counter_at_the_throat_is_as_the_counter_began():
    """With 2 m shown at the opening, 0.4 m in reads 2.4 m."""
    now = upstream("two-way cleanout")
    later = replace(now.push.began, counter=2.0)
    began = Now(type(now.push)(now.push.study, later), ())
    assert wanted_throat(began).counter == pytest.approx(2.4)


def test_drawn_back_into_the_throat_it_may_have_gone_the_other_way_since():
    """Half a metre in and out again: where it went then says nothing of the second try in a fitting with two
    throats. In one with a single throat the second try goes where the first went."""
    told: tuple[Told, ...] = (
        (SIGHTING, 4.0, {"what": "nothing"}),
        (BACK, 0.2, {}),
        (SIGHTING, 3.0, {"what": "nothing"}),
    )
    two = pushed(job("two-way cleanout"), PLUG, *told, direction="unknown")
    assert two.fix.downstream == pytest.approx(0.5, abs=0.1)


def test_what_was_told_of_the_way_in_counts(shown):
    """Where both throats are there only the operator can say which was taken."""
    for direction, ahead in (("downstream", True), ("upstream", False)):
        now = pushed(job("two-way cleanout"), PLUG, (SIGHTING, 1.5, {"what": "nothing"}), direction=direction)
        assert (now.fix.downstream > 0.9) is ahead
        assert (now.fix.downstream < 0.1) is not ahead
    assert "not known yet" in shown(show_now, pushed(job("two-way cleanout"), PLUG, direction="unknown"))


def test_logs_of_before_read_as_they_did():
    """`known` was the way of the plan, whichever that was."""
    old, new = (pushed(job("two-way cleanout"), PLUG, direction=word) for word in ("known", "downstream"))
    assert old.fix == new.fix


UP_THERE: tuple[Told, ...] = (
    ("start", 0.0, {"opening": PLUG, "direction": "unknown"}),
    (SIGHTING, 4.4, {"what": "tie-in", "clock": 3.0, "size": 0.05}),
    (SIGHTING, 7.4, {"what": "end"}),
    ("end", 0.0, {"reached": False, "out": True}),
)


@pytest.mark.parametrize(
    ("kind", "told", "known"),
    [
        ("floor cleanout", UP_THERE, True),
        ("two-way cleanout", UP_THERE, False),  # the next head may take the other throat
        ("floor cleanout", (UP_THERE[0], (SIGHTING, 2.0, {"what": "nothing"}), UP_THERE[-1]), False),
    ],
)
def test_the_next_plan_knows_which_way_the_only_throat_was_found_to_lead(
    kind, told, known, capsys, monkeypatch
):
    """99 % upstream at the end of the push: the next plan began "open floor cleanout ... likely (66 %)", and
    the next push asked which way it leads without a word of it."""
    study = study_of(job(kind).replace('to public sewer"', 'to yard cleanout"'))
    found = [note for note in met_before(study, numbered(*told)) if note.at_opening]
    assert bool(found) is known
    before, after = plan_of(study), plan_of(study, tuple(found))
    assert before.routes[0].opening == PLUG
    first = next(way for way in after.routes if way.opening == PLUG)
    assert (PLUG in after.first_step) is not known
    assert (first.chance == 0, first.rank > 1) == (known, known)
    if known:
        assert "leads upstream, not downstream" in found[0].left
        assert [way.chance for way in after.routes if way.opening != PLUG] == [
            way.chance for way in before.routes if way.opening != PLUG
        ]
        monkeypatch.setattr(begin, "choose", _ask)
        asked = begin._Begin(study, Page(), None, (), (), found)
        asked.opening = PLUG
        with pytest.raises(_Asked):
            asked._direction()
        assert "leads upstream, not downstream" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("kind", "told", "leads"),
    [
        ("floor cleanout", UP_THERE, "upstream"),
        ("two-way cleanout", UP_THERE, None),
        ("floor cleanout", (UP_THERE[0], UP_THERE[-1]), None),
    ],
)
def test_the_next_push_follows_what_was_passed_whatever_is_told_then(kind, told, leads, capsys, monkeypatch):
    """What was passed is believed before what was seen from the rim: told as downstream after all that, the
    next push began 97 % downstream."""
    study, standing = study_of(job(kind)), numbered(*told)
    monkeypatch.setattr(begin, "choose", lambda *_: "s")
    asked = begin._Begin(study, Page(), None, standing, ())
    asked.opening = PLUG
    assert asked._direction()
    assert asked.leads == leads
    assert ("followed as leading upstream" in capsys.readouterr().out) is (leads is not None)
    again: Told = ("start", 0.0, {"opening": PLUG, "direction": "downstream", "found": asked.leads})
    entries = numbered(*told, again)
    now = logged(*told, again, text=job(kind))
    assert (now.fix.downstream < 0.1) is (leads is not None)
    gone = way_gone(now.push.tracker, entries[-1:])
    assert gone.way == (leads or "downstream"), "and what is written of it goes by that"
    assert by_map(entries[-1:], kind) == gone
    assert len(now.before) == (kind != "two-way cleanout"), "what the first met lies ahead of it"
    seen = *told, again, (SIGHTING, 3.4, {"what": "tie-in", "clock": 9.0}), (SIGHTING, 7.4, BATH)
    assert logged(*seen, text=job(kind)).fix.downstream > 0.9, "until what it passes itself shows otherwise"


class _Asked(Exception):
    """The question itself comes."""


def _ask(*_: object) -> None:
    raise _Asked
