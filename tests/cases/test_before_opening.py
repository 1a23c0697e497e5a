"""Before anything is opened: one rule for a plug of a line that may stand full, nothing asked twice."""

from __future__ import annotations

import re

import pytest

from advisor.result.build import plan_of
from tests.card.cards import DEMOS, made
from tests.card.test_first import known
from tests.card.test_first import made as row
from tests.cases.jobs import SMALL_REEL, SMALL_ROD, rules, studied, tables
from tests.interview.small_session import questions
from tests.result.test_not_past import ROW, plan_text

YARD = ROW.replace("kind: inspection chamber", "kind: yard cleanout").replace("BEHIND", "- pipe: 3 m")
# What an opening has that a plug does not shut: no thread is turned to look into it.
OPEN = "fixture"


def steps(complaint: str, text: str = YARD) -> tuple[str, ...]:
    plan_ = plan_text(text.replace("holding: no, chemicals: no, gas smell: no", complaint))
    return plan_.routes[0].before


def test_where_nobody_knows_whether_it_holds_one_looks_without_loosening_a_plug():
    """A plug under a full line comes out with all that stands on it: the card says to loosen none."""
    told = steps("chemicals: no, gas smell: no")
    looks = next(n for n, step in enumerate(told) if step.startswith("Loosen no plug yet."))
    turns = next(n for n, step in enumerate(told) if "one thread" in step)
    assert looks < turns
    for step in told[:turns]:
        assert "pen the lowest" not in step
        assert "pen the yard" not in step
    assert any("Loosen no plug, push no camera" in step for step in told[looks:turns])
    chambers = [step for step in told if "chamber" in step and "cover" in step]
    assert all("never a tank" in step for step in chambers), "tank gas kills: its lid stays on"
    words = tables().card.find_out["holding-line"]
    first = row(known("holding")).first_step
    for each in (*told[looks : looks + 1], words, first.partition("Then open")[0]):
        assert OPEN in each, each
        assert "opening" not in each


@pytest.mark.parametrize("chemicals", ["no", "unknown"])
def test_what_was_poured_in_is_asked_once_and_not_where_it_is_known(chemicals):
    told = steps(f"holding: no, chemicals: {chemicals}, gas smell: no")
    asked = [step for step in told if "Ask" in step and "poured in" in step]
    assert len(asked) == (chemicals == "unknown")


def test_nobody_is_told_to_hold_the_face_over_a_chamber():
    told = " ".join(steps("holding: no, chemicals: no, gas smell: no", ROW.replace("BEHIND", "- pipe: 3 m")))
    assert "never over the hole" in told
    assert "above the rim" not in told
    assert "from above" not in told


def test_no_windows_are_opened_at_a_chamber_outside():
    plan_ = plan_text(ROW.replace("BEHIND", "- pipe: 3 m"))
    (gas,) = (note for note in plan_.routes[0].cautions if note.id == "sewer-gas")
    assert gas.word == "warning"
    assert "window" not in gas.text
    assert "fresh air" in gas.text
    indoors = [n for stem in DEMOS for r in made(stem)[0].routes for n in r.cautions if n.id == "sewer-gas"]
    assert any("Open windows" in note.text for note in indoors)


@pytest.mark.parametrize(("stiffness", "least"), [("0.6 N m2", "folds"), ("40 N m2", "foot")])
def test_one_plan_has_one_limit_for_the_free_rod(stiffness, least):
    """The least of what folds and of a foot from the opening, within which the trade keeps its hands.

    Euler by hand, as in tests/result/test_hands.py: a rod of 40 N m2 folds at far more than a hand pushes.
    """
    values = f"diameter: 6 mm, length: 30 m, stiffness: {stiffness}, minimum radius: 0.2 m, weight: 0.6 N/m"
    kit = SMALL_REEL.replace("SPRING", "feel: soft")
    kit = kit.replace(SMALL_ROD, f"{{rod: measured, {values}}}")
    route = plan_of(studied(ROW.replace("BEHIND", "- pipe: 3 m"), kit)).routes[0]
    if least == "foot":
        assert route.hand_distance_m == pytest.approx(0.3)
    else:
        assert route.hand_distance_m < 0.3


@pytest.mark.parametrize("name", ["hands-close-to-opening", "free-rod-folds-at-hand"])
def test_no_rule_has_a_limit_of_its_own_for_the_free_rod(name):
    rule = next(each for each in rules().all_rules if each.id == name)
    told = " ".join((rule.because, *(step for steps_ in rule.conclusion.steps.values() for step in steps_)))
    limits = set(re.findall(r"\{([^}]*)\}", told)) - {"route.hand_distance", "route.hand_by"}
    assert limits <= {"route.hand_free"}


LIDS = ROW.replace("BEHIND", "- pipe: 3 m")


@pytest.mark.parametrize("tank", ["", "septic: yes\n", "septic: no\n"])
def test_before_a_cover_is_lifted_it_is_told_how_the_lid_of_a_tank_is_known(tank):
    """The danger says to keep a lid on, the way in is a chamber: in doubt every lid stays shut."""
    told = steps(
        "holding: no, chemicals: no, gas smell: no", LIDS.replace("map: guess\n", f"map: guess\n{tank}")
    )
    lifts = next(n for n, step in enumerate(told) if "Lift with two keys" in step)
    shut = [n for n, step in enumerate(told) if "stays shut" in step and "no dye" not in step]
    close = [n for n, step in enumerate(told) if "It may be a tank. Close it" in step]
    if tank == "septic: no\n":
        assert shut + close == []
    else:
        assert "Not sure which it is? It stays shut. Plan without it." in [told[n] for n in shut]
        assert max(shut) < close[0] < lifts


def test_who_does_not_know_of_a_tank_is_told_which_lid_may_be_lifted():
    asked = questions().by_id["septic"]
    assert "Lift a lid only where pipes join or turn and the drain goes on." in asked.careful.say
    assert "Not sure: it stays shut." in asked.careful.say
    assert "The danger of a tank stands." in asked.careful.say


@pytest.mark.parametrize(
    ("kind", "says", "never"),
    [
        ("toilet flange", "Sleeve the flange ring.", "in the wall"),
        ("P-outlet toilet", "Sleeve the outlet in the wall.", "flange"),
        ("wall-hung toilet carrier", "Sleeve the outlet in the wall.", "flange"),
    ],
)
def test_what_is_left_once_a_toilet_is_off_is_a_ring_only_in_a_floor(kind, says, never):
    told = " ".join(steps("holding: no, chemicals: no, gas smell: no", YARD.replace("yard cleanout", kind)))
    assert says in told
    assert "sound" in told
    assert never not in told
    assert told.index("Take it off with two people") < told.index(says)
