"""What is measured on a rod: stiffness by the droop test, smallest bend from its core or its marking."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

import numpy as np

from advisor.evidence import ASSUMED, Evidence, Grade
from advisor.kit.model import Quantity, Rod
from advisor.mechanics.droop import LARGEST_CURL, LARGEST_LOAD, stiffness_from_droop
from advisor.mechanics.elastica import droop_ratio
from advisor.mechanics.section import (
    core_diameter,
    core_stiffness,
    rod_weight_per_length,
    smallest_bend_radius,
)
from advisor.quantity import Estimate, Known
from advisor.tables.load import Tables

_MEASURED = Evidence(Grade.COMPUTED, "derived", "droop test")
_FROM_STIFFNESS = Evidence(Grade.COMPUTED, "derived", "from the stiffness")
OUT_OF_ORDER = (
    "the first fall is with the curl down, so it is the largest, and the second here is larger: one of them "
    "is a slip, or the rod was not rolled until it droops most; measure both again, the largest first"
)
_HALF_LOAD = 5.0  # w l^3/EI at which the end falls by half the length
_LENGTHS = 200  # between which a fall is looked up
BEST = (1 / 3, 2 / 3)  # of the length: a droop between these leaves the smallest error


class CannotTell(ValueError):
    """No rod droops so, or the readings leave it open: the message says what to do."""


@dataclass(frozen=True)
class Droop:
    """The readings, in m: how much hangs free, and the fall of its end before and after half a roll."""

    length: float
    droop: float
    rolled: float
    weight: Quantity  # N/m
    weighed: bool = False  # whether somebody weighed it


@dataclass(frozen=True)
class Hung:
    """What they tell: stiffness in N m2, radius of the rod's own curl in m (inf: straight)."""

    stiffness: Estimate
    curl_radius: float
    parts: tuple[tuple[str, float], ...]  # what the error comes from, each alone, as a share
    better: float | None  # a length in m, longer or shorter, that would leave less error


def measured(read: Droop, tables: Tables) -> Hung:
    """Stiffness with its error from two droops; raises CannotTell.

    Each reading is moved by what it may be off (rules/tables/limits.yaml), one at a time and both ways. The
    parts are summed: all may be off at once, and the range is taken for a triangle, thin towards its ends.
    """
    limits = ("droop_reading", "overhang_reading", "clamp_tilt", "curl_upright")
    off = {name: tables.limits[name].likely for name in limits}
    if out_of_order(read.droop, read.rolled, tables):
        raise CannotTell(OUT_OF_ORDER)
    weight = read.weight
    level = float(np.sqrt(max(read.length**2 - ((read.droop + read.rolled) / 2) ** 2, 0.0)))
    crooked = off["curl_upright"] * (read.droop - read.rolled) / 4
    moves = {
        "the first droop": (0.0, off["droop_reading"], 0.0),
        "the second droop": (0.0, 0.0, off["droop_reading"]),
        "the length": (off["overhang_reading"], 0.0, 0.0),
        "a table or clamp that is not level": (0.0, off["clamp_tilt"] * level, off["clamp_tilt"] * level),
        # Half the gap of the two falls is the curl's share of each; one that falls short moves their mean.
        "a curl that is not quite upright": (0.0, crooked, crooked),
    }
    rows = [(0.0, 0.0, 0.0)]
    rows += [(sign * a, sign * b, sign * c) for a, b, c in moves.values() for sign in (-1, 1)]
    moved = np.array([read.length, read.droop, read.rolled]) + np.array(rows)
    lengths, droops, rolled = moved.T
    found, curl = stiffness_from_droop(lengths, droops, rolled, weight.likely)
    stiffness, curls = np.asarray(found), np.asarray(curl)
    if np.isnan(stiffness[0]):
        raise CannotTell(_why(read))
    if np.isnan(stiffness).any():
        raise CannotTell(f"the readings are too near what no rod does; {_why(read)}")
    parts = [
        (name, float(np.ptp(np.log(stiffness[1 + 2 * i : 3 + 2 * i])) / 2)) for i, name in enumerate(moves)
    ]
    if isinstance(weight, Estimate):
        parts.append(("the weight", float(np.log(weight.high / weight.low) / 2)))
    error = sum(share for _, share in parts)
    middle = float(stiffness[0])
    if isinstance(weight, Estimate):
        middle *= float(np.sqrt(weight.high * weight.low)) / weight.likely
    estimate = Estimate(middle * exp(-error), middle, middle * exp(error), _MEASURED)
    radius = float(1 / abs(curls[0])) if curls[0] else np.inf
    shares = tuple(sorted(parts, key=lambda part: -part[1]))
    return Hung(estimate, radius, shares, _better_length(read, middle, radius, tables))


def out_of_order(droop: float, rolled: float, tables: Tables) -> bool:
    """Whether two falls, in m, are not curl down and then curl up: the second is larger by more than both may
    be off."""
    return rolled - droop > 2 * tables.limits["droop_reading"].likely


def _why(read: Droop) -> str:
    mean = (read.droop + read.rolled) / 2 / read.length
    if max(read.droop, read.rolled) >= read.length:
        return "the end cannot fall further than the length that hangs; expected a smaller droop"
    if mean <= 0:
        return "the rod hardly droops by its weight; hang out more of it, curl down first and curl up second"
    if mean > float(droop_ratio(LARGEST_LOAD)) - 0.05:
        return "it hangs almost straight down; hang out less of it"
    return (
        f"its own curl is too strong for so long an end (over {LARGEST_CURL:.1f} rad along it); hang out "
        "less, and turn it so that the curl points straight down, then straight up"
    )


def _better_length(read: Droop, stiffness: float, radius: float, tables: Tables) -> float | None:
    """A length whose droop leaves less error at a table, where this one's is not among the best."""
    mean = (read.droop + read.rolled) / 2 / read.length
    if BEST[0] <= mean <= BEST[1]:
        return None
    length = overhang(stiffness, read.weight.likely, radius, tables)
    worth = abs(length / read.length - 1) >= tables.limits["better_overhang"].likely
    return length if worth else None


def overhang(stiffness: float, weight: float, radius: float, tables: Tables) -> float:
    """How much to hang over a table's edge, in m, of a rod of N m2 and N/m with a curl of that radius in m.

    Its end falls by half the length, where the error is least, or by less where a table is not high enough.
    """
    longest = min((_HALF_LOAD * stiffness / weight) ** (1 / 3), LARGEST_CURL * 0.9 * radius)
    lengths = np.linspace(longest / _LENGTHS, longest, _LENGTHS)
    falls = lengths * np.asarray(droop_ratio(weight * lengths**3 / stiffness))
    return float(np.interp(tables.limits["table_fall"].likely, falls, lengths))


def first_overhang(rod: Rod, tables: Tables) -> tuple[float, float]:
    """How much to hang out of a rod and how far its end then falls, in m, by what it is likely to be."""
    length = overhang(_likely_stiffness(rod), rod_weight(rod).likely, np.inf, tables)
    return length, likely_fall(rod, length)


def likely_fall(rod: Rod, length: float, stiffer: float = 1.0) -> float:
    """How far the end of a rod falls, in m, with so many m hung out, were it so many times as stiff as it is
    likely to be."""
    load = rod_weight(rod).likely * length**3 / (_likely_stiffness(rod) * stiffer)
    return length * float(droop_ratio(min(load, LARGEST_LOAD)))


def _likely_stiffness(rod: Rod) -> float:
    told = rod.stiffness
    return told.likely if told else float(core_stiffness(rod.modulus.likely, rod.core.likely))


def rod_weight(rod: Rod) -> Quantity:
    """Weight per length in N/m: as measured, else of its whole section by the class it is like."""
    if rod.weight is not None:
        return rod.weight
    low, likely, high = (
        float(rod_weight_per_length(_end(rod.density, i), _end(rod.fill, i), _end(rod.diameter, i)))
        for i in range(3)
    )
    return Estimate(low, likely, high, rod.fill.evidence)


def on_sheet(value: Quantity) -> bool:
    """Whether somebody wrote it on the kit sheet, be it as assumed."""
    return value.evidence.grade is Grade.TOLD or value.evidence == ASSUMED


def core_of(stiffness: Quantity, rod: Rod) -> Estimate:
    """Diameter in m of the core that is so stiff, its modulus by the class the rod is like.

    Where the stiffness itself is assumed, so is the core.
    """
    low, likely, high = (float(core_diameter(_end(stiffness, i), _end(rod.modulus, 2 - i))) for i in range(3))
    told = stiffness.evidence
    return Estimate(low, likely, high, told if told.grade.weak else _FROM_STIFFNESS)


def radius_of(core: Quantity, rod: Rod) -> Estimate:
    """Smallest radius in m that a core may be bent to, by the strain that rods of its class bear."""
    low, likely, high = (
        float(smallest_bend_radius(_end(core, i), _end(rod.strain_limit, 2 - i))) for i in range(3)
    )
    return Estimate(low, likely, high, Evidence(Grade.COMPUTED, "derived", "from the core"))


def _end(value: Quantity, which: int) -> float:
    """The low, likely or high end: 0, 1 or 2."""
    if isinstance(value, Known):
        return value.value
    return (value.low, value.likely, value.high)[which]
