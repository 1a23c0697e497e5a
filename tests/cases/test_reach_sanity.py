"""The built-in classes of reel against common practice (from memory): a small reel of 30 m passes two or
three quarter bends in 2 to 3 in pipe and still reaches tens of metres, a large one of 60 m three or four long
sweeps in 4 in. Past some four quarter turns of its own size a push is over; one square turn in rough 2 in
iron stops either. `python -m tests.cases.test_reach_sanity` prints the table."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.kit.loadouts import default_kit
from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.site.sheet import site_of_text
from tests.cases.jobs import rules, tables

RUN = """
site: a run with bends
region: north america
map: measured
lines:
  - line: run
    kind: drain
    size: SIZE
    material: WALL
    condition: CONDITION
    pieces:
      - opening: way in
        kind: OPENING
        there: yes
        opens: yes
      - pipe: 2 m
BENDS
      - pipe: 1 m
        landmark: last bend
      - pipe: FAR
      - end: public sewer
task: {look at: "run, from last bend to public sewer", complaint: {holding: no}}
"""


LIKELY, EVEN = 0.6, 0.4  # the words of rules/tables/limits.yaml
EDGE = 0.2  # two or three: the third is passed by some


def pushed(
    size: str, wall: str, condition: str, bends: list[str], reel: str, worlds: int = 300, far: str = "6 m",
    opening: str = "end cleanout",
) -> RouteOutcome:  # fmt: skip
    """Down a run that is all known, 2 m behind each bend and then as far as told, to see what lies there."""
    pieces = "\n".join(f"      - bend: {bend}\n      - pipe: 2 m" for bend in bends)
    text = RUN.replace("SIZE", size).replace("WALL", wall).replace("CONDITION", condition)
    text = text.replace("BENDS", pieces).replace("FAR", far).replace("OPENING", opening)
    case = Case(site_of_text(text, "run", tables()), default_kit(tables()), Units.METRIC, worlds)
    return next(o for o in plan(case, tables(), rules()).outcomes if o.loadout.name == reel)


def reach(size: str, wall: str, condition: str, bends: list[str], reel: str) -> tuple[float, float, float]:
    """10 %, 50 % and 90 % reach in m past all bends, of the worlds in which every bend is passed."""
    outcome = pushed(size, wall, condition, bends, reel, 1500, "45 m")
    return tuple(np.quantile(outcome.march.reach, (0.1, 0.5, 0.9)))


def passing(size: str, wall: str, condition: str, fitting: str, reel: str) -> float:
    """Chance that one gentle push and all tries pass one turn."""
    outcome = pushed(size, wall, condition, [fitting], reel, 1500, "45 m")
    return min((float(s.with_techniques.mean()) for s in outcome.spots), default=1.0)


@pytest.mark.parametrize(
    ("reel", "size", "bends", "least"),
    [
        ("small reel", "2 in", ["1/4 bend"] * 2, EVEN),
        ("small reel", "3 in", ["1/4 bend"] * 2, LIKELY),
        ("small reel", "3 in", ["1/4 bend"] * 3, EDGE),
        ("large reel", "4 in", ["long sweep"] * 3, LIKELY),
        ("large reel", "4 in", ["long sweep"] * 4, EDGE),
        ("large reel", "4 in", ["1/8 bend"] * 4, LIKELY),
        ("large reel", "3 in", ["1/8 bend"] * 2, LIKELY),
    ],
)
def test_what_is_passed_every_day_is_passed(reel, size, bends, least):
    assert pushed(size, "pvc", "sound", bends, reel).chance >= least


@pytest.mark.parametrize(
    ("reel", "size", "bend"), [("small reel", "2 in", "1/4 bend"), ("large reel", "4 in", "long sweep")]
)
def test_no_reel_goes_round_eight_quarter_turns(reel, size, bend):
    assert pushed(size, "pvc", "sound", [bend] * 8, reel).chance < 0.05


@pytest.mark.parametrize("kind", ["two-way cleanout", "yard cleanout"])
def test_a_large_reel_goes_into_a_4_in_cleanout_by_a_gentle_push(kind):
    spots = pushed("4 in", "pvc", "sound", [], "large reel", opening=kind).spots
    assert min((s.spot.plain.passes.mean() for s in spots), default=1.0) >= LIKELY


@pytest.mark.parametrize("bends", [0, 2, 3])
def test_small_reel_reaches_tens_of_metres_in_3_in(bends):
    assert reach("3 in", "pvc", "sound", ["1/4 bend"] * bends, "small reel")[1] > 15


@pytest.mark.parametrize("bends", [0, 2, 3])
def test_large_reel_reaches_tens_of_metres_in_4_in(bends):
    assert reach("4 in", "pvc", "sound", ["long sweep"] * bends, "large reel")[1] > 15


@pytest.mark.parametrize("reel", ["small reel", "large reel"])
def test_one_square_turn_in_rough_2_in_iron_stops_it(reel):
    assert passing("2 in", "cast iron", "moderate scale", "knuckle", reel) < 0.2


def _table() -> None:
    print("reach in m (10 %, 50 %, 90 % of cases)")
    for reel, size, bend in (
        ("small reel", "3 in", "1/4 bend"),
        ("large reel", "4 in", "long sweep"),
        ("large reel", "4 in", "1/4 bend"),
    ):
        for wall, condition in (("pvc", "sound"), ("cast iron", "light scale")):
            for count in (0, 1, 2, 3, 4):
                low, middle, high = reach(size, wall, condition, [bend] * count, reel)
                print(
                    f"{reel:11s} {size} {wall:10s} {condition:12s} {count} x {bend:10s} "
                    f"{low:5.1f} {middle:5.1f} {high:5.1f}"
                )
    for reel in ("small reel", "large reel"):
        print(
            f"{reel}: chance past a square turn in rough 2 in iron "
            f"{passing('2 in', 'cast iron', 'moderate scale', 'knuckle', reel):.2f}"
        )


if __name__ == "__main__":
    _table()
