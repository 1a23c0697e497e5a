"""What a push of the job met is on its next plan and card: a technique that wedged, finds, standing water.

From a trial: a quick push wedged the head at 2.6 ft, a lip and standing water were logged further
in. The card printed afterwards said "Then quick push" at that spot, with the chance it had before, and knew
of neither. Rule of the trade: what wedged a head once is not done there again.
"""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.text import card_text
from advisor.job.folder import Job
from advisor.outcome.attempts import STEADY
from advisor.push.before.found_before import found_before
from advisor.push.held_now import held_now
from advisor.push.log.log import Log
from advisor.quantity import Units
from advisor.result.model import Plan, TechniqueNote
from advisor.tables.place import rules_dir
from advisor.terminal.page import Page
from advisor.terminal.plan_screen import show_plan
from advisor.terminal.ready import make_ready, planned
from tests.cases.jobs import kit_text, tables
from tests.push.test_earlier_stop import numbered
from tests.push.test_held_back import FORK, fork
from tests.terminal.test_now_shown import NOON, TEE_PLUG, Told, pushed, study_of, tee, tried

TURN = "turn the rod"
BEGUN: Told = ("start", 0.0, {"opening": TEE_PLUG, "direction": "downstream"})
WEDGED = tried("wedged")
POOL: Told = ("sighting", 4.0, {"what": "standing water"})
FIND: Told = ("find", 5.0, {"what": "joint pushed  out of line"})


def planned_after(folder: Path, *told: Told, text: str | None = None) -> Plan:
    (folder / "site.yaml").write_text(text or tee(), encoding="utf-8")
    (folder / "kit.yaml").write_text(kit_text(), encoding="utf-8")
    log = Log.open(Job(folder).log)
    for i, (kind, counter, data) in enumerate(told):
        log.append(kind, counter, data, NOON + timedelta(seconds=i))
    log.close()
    return planned(make_ready(folder, None, "metric", 200, None, rules_dir()))


def technique(plan: Plan, name: str = TURN) -> TechniqueNote:
    (spot,) = plan.routes[0].passages
    return next(each for each in spot.techniques if each.name == name)


@pytest.fixture(scope="module")
def before(tmp_path_factory) -> Plan:
    return planned_after(tmp_path_factory.mktemp("before"), BEGUN)


@pytest.fixture(scope="module")
def after(tmp_path_factory) -> Plan:
    return planned_after(tmp_path_factory.mktemp("after"), BEGUN, WEDGED, POOL, FIND)


def test_what_wedged_is_told_and_no_try_there_any_more(before, after):
    assert technique(before).verdict == "try"
    assert (technique(after).verdict, technique(after).tries, technique(after).chance) == ("rejected", 0, 0)
    assert "wedged the head here" in technique(after).because
    assert technique(after, "quick push").verdict == "try", "of the others nothing is known"
    assert after.routes[0].chance < before.routes[0].chance
    (told,) = after.stopped
    assert after.counted.startswith(
        "Of what pushes met, the chances of getting there count openings"
    )  # once for all
    assert told.startswith("In from wall plug, downstream, the head wedged at 2 m, sanitary tee into house")
    assert f"by {TURN}. Not that there again." in told


def test_the_card_offers_it_no_more_and_has_what_was_found_at_its_place(after):
    words = " ".join(
        card_text(card_of(after, after.routes[0], tables().card, Units.METRIC, "", False)).split()
    )
    route = words.partition("ROUTE")[2].partition("IF STUCK")
    assert re.search(r"Then quick push[^.]*\. Not turn the rod: it wedged here\.", route[0])
    assert "- Not turn the rod here: it wedged." in route[2]
    assert route[0].index("tee into") < route[0].index("4 m: seen before: standing water Slowly, no blow.")
    assert route[0].index("4 m: seen before: standing") < route[0].index(
        "5 m: seen before: joint pushed out of line"
    )


def test_a_full_page_drops_what_was_seen_no_sooner_than_a_hard_place(after):
    """A joint out of line may hold the head; water that stood asks for care, and goes sooner."""
    rows = card_of(after, after.routes[0], tables().card, Units.METRIC, "", False).sights
    assert [row.worth for row in rows if "seen before" in row.see] == [worth.FOUND_MILD, worth.FOUND_ROW]
    assert worth.FOUND_ROW > worth.HARD_ROW > worth.FOUND_MILD


def test_the_plan_tells_what_was_found_at_its_place(after, capsys):
    show_plan(after, Units.METRIC, Page())
    way = " ".join(capsys.readouterr().out.partition("THE WAY IN FROM")[2].split())
    assert way.index("into house drain") < way.index("4 m: seen before: standing water Slowly, no blow.")
    assert way.index("4 m: seen before: standing") < way.index("5 m: seen before: joint pushed out of line")


@pytest.mark.parametrize(
    ("told", "knows"),
    [
        ((BEGUN, tried("stopped")), False),
        ((("start", 0.0, {"opening": TEE_PLUG, "direction": "upstream"}), WEDGED), False),
        ((("start", 0.0, {"opening": TEE_PLUG, "direction": "unknown"}), WEDGED), True),
        ((("start", 0.0, {"opening": "floor plug", "direction": "downstream"}), WEDGED), False),
        ((BEGUN, tried("wedged", spot="")), False),  # where none was foreseen only the sentence tells
    ],
)
def test_only_what_wedged_there_on_that_way(tmp_path, told, knows):
    assert technique(planned_after(tmp_path, *told)).wedged is knows


def test_an_even_push_stays_for_no_head_comes_there_without_one(tmp_path, before):
    steady = ("try", 2.1, {**WEDGED[2], "technique": STEADY})
    made = planned_after(tmp_path, BEGUN, steady)
    assert made.routes[0].chance == before.routes[0].chance
    assert "by an even push. There a little at a time, and back at the first drag." in made.stopped[0]


def test_without_a_reading_it_is_told_all_the_same(tmp_path):
    made = planned_after(tmp_path, BEGUN, ("try", None, WEDGED[2]))
    assert made.stopped[0].startswith("In from wall plug, downstream, the head wedged at an unknown reading")
    assert technique(made).wedged


def test_what_was_found_lies_on_the_way_that_it_was_found_on():
    """The only joint on the drain lies 4 m up from the yard; down there is nothing for 30 m."""
    joint: Told = ("sighting", 4.0, {"what": "tie-in", "size": 0.08})
    (note,) = found_before(study_of(FORK), numbered(fork("unknown"), joint, FIND))
    assert (note.opening, note.ports, note.at_m) == ("yard", ("up",), 5.0)


@pytest.mark.parametrize(("outcome", "offered"), [("stopped", True), ("wedged", False)])
def test_in_the_same_push_it_is_not_offered_there_again(outcome, offered):
    stop: Told = ("stopped", 2.0, {"sign": "wall ahead"})
    blow: Told = ("try", 2.0, {**WEDGED[2], "technique": "quick push", "outcome": outcome})
    found = held_now(pushed(tee(), TEE_PLUG, stop, blow, ("pulled back", 1.0, {}), stop))
    assert found is not None
    assert ("quick push" in [each.technique for each in found.tries]) is offered
    assert (dict(found.not_now).get("quick push") == tables().in_pipe.wedged_before.here) is not offered
