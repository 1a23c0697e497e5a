"""The built-in classes of reel against common practice (from memory): a small reel of 30 m passes two or
three quarter bends in 3 in pipe and still reaches tens of metres, a large one the same in 4 in; one square
turn in rough 2 in iron stops either. `python -m tests.cases.test_reach_sanity` prints the table."""

from __future__ import annotations

import numpy as np
import pytest

from advisor.kit.loadouts import default_kit
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
        kind: end cleanout
      - pipe: 2 m
BENDS
      - pipe: 45 m
      - end: public sewer
task: {look at: run, complaint: {holding: no}}
"""


def reach(size: str, wall: str, condition: str, bends: list[str], reel: str) -> tuple[float, float, float]:
    """10 %, 50 % and 90 % reach in m past all bends, of the worlds in which every bend is passed."""
    pieces = "\n".join(f"      - bend: {bend}\n      - pipe: 2 m" for bend in bends)
    text = (
        RUN.replace("SIZE", size)
        .replace("WALL", wall)
        .replace("CONDITION", condition)
        .replace("BENDS", pieces)
    )
    kit = default_kit(tables())
    study = plan(Case(site_of_text(text, "run", tables()), kit, Units.METRIC, 1500), tables(), rules())
    outcome = next(o for o in study.outcomes if o.loadout.name == reel)
    return tuple(np.quantile(outcome.march.reach, (0.1, 0.5, 0.9)))


def passing(size: str, wall: str, condition: str, fitting: str, reel: str) -> float:
    """Chance that one gentle push and all tries pass one turn."""
    text = RUN.replace("SIZE", size).replace("WALL", wall).replace("CONDITION", condition)
    text = text.replace("BENDS", f"      - bend: {fitting}")
    kit = default_kit(tables())
    study = plan(Case(site_of_text(text, "run", tables()), kit, Units.METRIC, 1500), tables(), rules())
    outcome = next(o for o in study.outcomes if o.loadout.name == reel)
    return min((float(s.with_techniques.mean()) for s in outcome.spots), default=1.0)


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
