"""Which opening a full line is relieved at, in the plan's own steps; by hand from what is drawn."""

from __future__ import annotations

import pytest

from advisor.site.build import network_of
from advisor.site.relief import lowest_outside
from advisor.site.sheet import site_of_text
from tests.cases.jobs import tables
from tests.result.test_not_past import plan_text

YARD = """
site: yard
region: britain
lines:
  - line: drain
    size: 100 mm
    material: clay
    pieces:
      - {opening: upper eye, kind: rodding eye}
      - pipe: 3 m
      - {opening: chamber, kind: inspection chamber}
      - joined by: side
      - pipe: 3 m
      - {opening: last, kind: inspection chamber}
      - pipe: 3 m
      - end: public sewer
  - line: side
    size: 100 mm
    pieces:
      - {opening: gully, kind: gully}
      - pipe: 2 m
task:
  look at: drain
  complaint: {holding: yes}
"""
LAST = "{opening: last, kind: inspection chamber}"


@pytest.mark.parametrize(
    ("last", "told"),
    [
        (LAST, "last"),
        (LAST.replace("}", ", water: standing}"), "last"),
        (LAST.replace("}", ", water: dry}"), "chamber"),  # the stoppage lies above it
        (LAST.replace("}", ", opens: no}"), "chamber"),  # it relieves nothing
        (LAST.replace("}", ", there: no}"), "chamber"),
        (LAST.replace("}", ", cellar: yes}"), "chamber"),  # opened there, it would fill the cellar
        (LAST.replace("}", ", there: 50 %}"), None),  # nobody knows which is lowest
    ],
)
def test_the_lowest_opening_outside(last, told):
    network = network_of(site_of_text(YARD.replace(LAST, last), "yard", tables()), tables())
    lowest = lowest_outside(network)
    assert (lowest and lowest.name) == told


def test_of_two_drains_that_only_meet_below_none_is_lowest():
    text = YARD.replace(f"      - {LAST}\n", "").replace("inspection chamber", "rodding eye")
    text = text.replace("      - {opening: chamber, kind: rodding eye}\n", "")
    text = text.replace("kind: gully", "kind: yard cleanout")
    assert lowest_outside(network_of(site_of_text(text, "yard", tables()), tables())) is None


FULL = LAST.replace("}", ", water: standing}")
EYE = LAST.replace("inspection chamber", "rodding eye")


@pytest.mark.parametrize(
    ("last", "says", "never"),
    [
        (EYE, "Open the lowest opening outside first, as drawn: last. Stand aside", "stands in"),
        (
            LAST,
            "Look first into the lowest chamber outside, as drawn: last. Its lid lets nothing",
            "Let it run",
        ),
        (FULL, "Water stands in last already", "Let it run down"),
        (LAST.replace("}", ", there: 50 %}"), "Open the lowest opening outside first. ", "as drawn"),
    ],
)
def test_the_steps_name_it_and_never_let_run_down_what_a_lid_covers_or_is_full_already(last, says, never):
    steps = plan_text(YARD.replace(LAST, last)).how
    (step,) = [n for n, each in enumerate(steps) if says in each]
    assert not any(never in each for each in steps)
    assert "Run no water" in steps[step - 1]
    after = [each for each in steps[step + 1 :] if not each.startswith("Open no plug and no door")]
    assert (len(after) == len(steps) - step - 1) == (last not in (LAST, FULL)), "it is what bursts out"
    assert after[0].startswith("Look at each opening and mark it.")


TRAPPED = YARD.replace(LAST, f"{LAST}\n      - trap: disconnecting trap")
DRY_EYE = "      - {opening: dry eye, kind: rodding eye, water: dry}\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (YARD, False),
        (TRAPPED, True),
        (TRAPPED.replace(LAST, FULL), True),
        (TRAPPED.replace("      - trap", f"{DRY_EYE}      - trap"), False),  # dry before the trap: it runs
    ],
)
def test_a_full_last_chamber_with_a_trap_past_it_is_for_licensed_people(text, told):
    steps = [each for each in plan_text(text).how if "interceptor trap" in each]
    assert len(steps) == told
    assert all("by licensed people" in each and "leave it shut" in each for each in steps)


ARM = "{opening: arm, kind: disconnecting trap rodding arm}"
GONE = "{opening: gone, kind: inspection chamber, there: no}"


@pytest.mark.parametrize(
    ("beside", "there"),
    [
        (ARM, True),
        (ARM.replace("}", ", there: 60 %}"), True),
        (ARM.replace("}", ", there: no}"), False),  # the chamber may stand: what clears the trap does not
        (f"{GONE}\n      - {ARM.replace('}', ', there: 60 %}')}", False),  # an arm is in no chamber
        (f"{GONE}\n      - {ARM}", True),
    ],
)
def test_nobody_is_sent_to_the_arm_of_a_trap_that_is_told_to_have_none(beside, there):
    trapped = f"{FULL}\n      - pipe: 3 m\n      - trap: disconnecting trap\n      - {beside}"
    (step,) = [each for each in plan_text(YARD.replace(LAST, trapped)).how if "interceptor trap" in each]
    assert ("from its rodding arm" in step, "stopper" in step) == (there, there)
    assert ("As told no arm is there" in step) == (not there)
    assert "icensed people" in step


def test_a_grid_is_no_cover_that_two_keys_lift_and_no_stopper_under_water_is_drawn():
    arm = "{opening: arm, kind: disconnecting trap rodding arm}"
    opened = {
        each.opening: " ".join(each.steps)
        for each in plan_text(TRAPPED.replace("trap\n", f"trap\n      - {arm}\n", 1)).to_open
    }
    assert "two keys" in opened["last"]
    assert "two keys" not in opened["gully"]
    assert "Lift the grid" in opened["gully"]
    assert "Water stands over the stopper? Leave it shut" in opened["arm"]
