"""What a push passed and did not see is carried to the next push and plan: from a trial. An
opening of which nobody knows whether it is there was gone by twice, and asked for again at the sheet's half.

Expected values by hand, with the chance by which two mouths are logged when passed (where.yaml, 0.8): of a
half, 0.5 * 0.2 / (0.5 * 0.2 + 0.5) = 1/6 is left, of that 1/6 * 0.2 / (1/6 * 0.2 + 5/6) = 1/26.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.plan import plan
from advisor.push.before.looked_at import as_pushes_show
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.site.build import network_of
from advisor.site.looked_for import with_looks
from advisor.site.network import Network
from advisor.terminal.push.here import show_now
from tests.cases.jobs import rules, tables
from tests.push.test_perhaps_there import OTHER, SITE, USED
from tests.push.test_report import Told, case, entries
from tests.terminal.test_now_shown import shown

__all__ = ["shown"]  # fixture

HALF = SITE.replace("THERE", "50 %")
START = ("start", 0.0, {"opening": USED, "direction": "downstream"})
PAST = ("sighting", 9.0, {"what": "nothing"})
END = ("end", 9.0, {"reached": False})
MOUTHS = ("sighting", 1.7, {"what": "two mouths"})
UNSEEN = (START, PAST, END)


def known(*told: Told, site: str = HALF):
    return as_pushes_show(case(site), entries(*told), tables(), rules())


def study(*told: Told, site: str = HALF):
    return plan(known(*told, site=site), tables(), rules())


def chance(network: Network) -> float:
    return next(p.hole.there for p in network.openings() if p.name == OTHER)


def there(*told: Told, site: str = HALF) -> float:
    """It as a plan begins with it, without the rest of the plan."""
    made = known(*told, site=site)
    return chance(with_looks(network_of(made.sheet, tables()), made.looked_for))


def assumed(made) -> list[float]:
    return [each.belief.value for each in made.network.assumed if each.about == f"whether there is a {OTHER}"]


@pytest.mark.parametrize(
    ("told", "left"), [((), 1 / 2), (UNSEEN, 1 / 6), ((*UNSEEN, *UNSEEN), 1 / 26), (UNSEEN[:-1], 1 / 2)]
)
def test_what_was_gone_by_unseen_is_less_likely_by_what_a_look_misses(told, left):
    """To a hundredth: the push may be in a pipe that nobody drew. A push that goes on has not told yet."""
    made = study(*told)
    assert chance(made.network) == pytest.approx(left, abs=0.01)
    assert assumed(made) == [pytest.approx(left, abs=0.01)]


def test_a_sheet_that_tells_it_is_believed():
    assert there(*UNSEEN, site=SITE.replace("THERE", "yes")) == 1
    assert known(*UNSEEN, site=SITE.replace("THERE", "no")).looked_for == ()


def test_where_it_was_recognized_it_is_there_and_nothing_is_assumed():
    made = study(START, MOUTHS, PAST, END)
    assert chance(made.network) == 1
    assert assumed(made) == []


@pytest.mark.parametrize(
    "told",
    [
        (START, ("sighting", 0.5, {"what": "nothing"}), END),  # it lies 1 m further on than that
        (START, ("sighting", 0.5, {"what": "standing water"}), ("sighting", 9.0, {"what": "a blur"}), END),
        (START, ("sighting", 9.0, {"what": "lens fogged, no picture"}), END),
    ],
)
def test_what_was_not_come_to_or_not_shown_was_not_looked_for(told):
    assert there(*told) == pytest.approx(0.5, abs=0.02)


def test_water_that_ended_before_it_hid_nothing():
    wet = (("sighting", 0.3, {"what": "standing water"}), ("sighting", 0.6, {"what": "nothing", "dry": True}))
    assert there(START, *wet, PAST, END) == pytest.approx(1 / 6, abs=0.02)


TIE_IN = ("sighting", 1.7, {"what": "tie-in"})


def test_another_thing_told_there_is_not_it():
    """One mouth at the side is no two mouths: those were not seen, and the head may be in another pipe."""
    assert 1 / 6 < there(START, TIE_IN, PAST, END) < 1 / 2


def test_a_common_thing_that_may_be_it_makes_it_likelier_and_no_more():
    """An upright pipe on top is seen as one mouth, as any line that joins; nobody told which way it went."""
    one_mouth = HALF.replace("kind: two-way cleanout", "kind: yard cleanout")
    untold = (*START[:2], {"opening": USED, "direction": "unknown"})
    assert 1 / 2 < there(untold, TIE_IN, END, site=one_mouth) < 1


def test_the_next_push_begins_with_it_and_the_one_that_told_it_with_the_sheets():
    """A place told beside the opening in the first push stays what it was.

    A start without a number is none of the log yet.
    """
    made = study(*UNSEEN)
    for number, left in ((1, 1 / 2), (4, 1 / 6), (0, 1 / 6)):
        push = Push(made, replace(entries(START)[0], number=number))
        mark = next(m for way in push.tracker.chart.ways for m in way.landmarks if m.piece.name == OTHER)
        assert mark.there == pytest.approx(left, abs=0.02)


def test_looks_of_a_case_are_worked_out_from_the_sheet_each_time():
    once = known(*UNSEEN)
    assert known(*UNSEEN) == once
    assert as_pushes_show(once, entries(*UNSEEN), tables(), rules()) == once


def test_the_screen_says_that_an_earlier_push_did_not_see_it(shown):
    def first(*told: Told) -> str:
        return shown(show_now, Now(Push(study(*told), replace(entries(START)[0], number=9)), ()))

    assert "It may not be there." in first()
    assert "It may not be there: an earlier push did not see it." in first(*UNSEEN)
    assert "may not be there" not in first(START, MOUTHS, PAST, END)
