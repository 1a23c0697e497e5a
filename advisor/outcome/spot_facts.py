"""What rules are told about a hard spot: plain numbers and shares of worlds, for each thing it may be."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from advisor.kit.model import Besides, Loadout
from advisor.mechanics.junction_case import JunctionKind
from advisor.outcome.attempts import string_angle
from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts, safe
from advisor.outcome.held import of_held
from advisor.outcome.may_be import may_be
from advisor.outcome.spot import Spot
from advisor.site.network import Wall
from advisor.tables.load import Tables
from advisor.worlds.draws import Array
from advisor.worlds.spread import middle

Mask = NDArray[np.bool_]

# How a junction shape of the table is called in a rule.
_SHAPES = {
    "double sanitary tee": "double",
    "double fixture": "double",
    "double wye": "double",
    "cross": "double",
    "backdrop": "straight tee",
}

# What is told of the pushes that are held, by what is told of all: the reason of a try that comes after one.
OF_HELD = {
    "passage.rod_end_holds": "passage.rod_end_sticks",
    "passage.far_wall_holds": "passage.runs_at_far_wall",
}


class SpotFacts:
    """The facts of one spot; what does not hang on its kind is worked out once for all its kinds."""

    def __init__(self, spot: Spot, besides: Besides, loadout: Loadout) -> None:
        self.spot = spot
        n, middles = spot.drawn.worlds.n, _by_middle(spot)
        rows = _rows(middles, n)
        # What is the same in every world needs no sorting, whatever the kind.
        same = (rows == rows[:, :1]).all(axis=1)
        alike = {
            name: float(row[0]) for name, row, is_same in zip(middles, rows, same, strict=True) if is_same
        }
        self._fixed = {**_place(spot), **_gear(spot, besides, loadout), **alike}
        self._shares, self._middles = (
            _by_share(spot, besides),
            [name for name in middles if name not in alike],
        )
        self._share_rows, self._middle_rows = _rows(self._shares, n), rows[~same]

    def of(self, variant: str, where: Mask | None) -> Facts:
        """The facts in the worlds where the fitting is `variant`."""
        shares, middles = self._share_rows, self._middle_rows
        if where is not None:
            worlds = np.flatnonzero(where)
            shares, middles = shares.take(worlds, axis=1), middles.take(worlds, axis=1)
        # The upper median: one partition, where numpy's own takes two and half a dozen checks.
        half = middles.shape[1] // 2
        median = np.partition(middles, half, axis=1)[:, half]
        found: Facts = {
            **self._fixed,
            **dict(zip(self._shares, shares.mean(axis=1).tolist(), strict=True)),
            **dict(zip(self._middles, median.tolist(), strict=True)),
        }
        rough, passes = found["passage.rough"], found.pop("passage.passes")
        assert isinstance(rough, float)
        assert isinstance(passes, float)
        for holds, of_all in OF_HELD.items():
            share = found[of_all]
            assert isinstance(share, float)
            found[holds] = of_held(share, passes)
        found["passage.rough"] = (
            rough >= 0.5
        )  # in most of the worlds: no chance, so the facts take the side of more
        found["passage.hard"] = passes < self.spot.drawn.likely("hard_chance")
        found["passage.kind"] = variant
        found["passage.held_by"] = "If it holds here"
        found["passage.shape"] = _shape(self.spot, variant)
        return found


def _rows(values: dict[str, Array | NDArray[np.bool_] | float], n: int) -> Array:
    rows = np.empty((len(values), n), np.float32)
    for row, value in zip(rows, values.values(), strict=True):
        row[:] = value
    return rows


def _by_share(spot: Spot, besides: Besides) -> dict[str, Array | NDArray[np.bool_] | float]:
    """What is told as the share of worlds in which it is so, or as a mean chance."""
    shape, plain, drawn = spot.shape, spot.plain, spot.drawn
    turn, constants = shape.turn, drawn.tables.junction
    in_window: NDArray[np.bool_] | float = 0.0
    if turn.way in ("merge", "leg", "hairpin", "fork"):
        angle = string_angle(spot)
        in_window = (angle > constants.string_half) & (angle < constants.string_hooking)
    # A head that stops, sets off the wrong way or folds has first run straight at the far wall.
    unturned = plain.far_wall * spot.possible + plain.wrong_way + plain.folds
    found: dict[str, Array | NDArray[np.bool_] | float] = {
        "passage.passes": plain.passes,
        "passage.head_jams": (shape.rigid <= 1) & (shape.fits > 1),
        "passage.rod_too_tight": np.asarray(shape.rod_radius) < 1,
        "passage.rod_end_sticks": plain.rod_end,
        "passage.runs_at_far_wall": unturned if turn.way == "merge" else 0.0,
        "passage.folds_back": plain.folds,
        "passage.wrong_way": plain.wrong_way,
        "passage.crosses_over": plain.crosses,
        "passage.string_turns": in_window,
        "passage.rough": drawn.wall(shape.passage.wall_out).rough,
        "passage.bore_blocked": shape.fits <= 1,
        "passage.roots": shape.roots.there if shape.roots is not None else 0.0,
        "passage.roots_behind": spot.rooted,
        "passage.roots_hold": np.asarray(shape.gap) <= 1,
    }
    if besides.guide is not None:
        found["passage.guide_fits"] = shape.bore > besides.guide
    return found


def _by_middle(spot: Spot) -> dict[str, Array | NDArray[np.bool_] | float]:
    """What is told by its middle value."""
    shape, station = spot.shape, spot.station
    return {
        "passage.at": station.at,
        "passage.angle": shape.turn.angle,
        "passage.bore": shape.bore,
        "passage.bore_step": np.maximum(shape.bore_in, shape.bore_out)
        / np.minimum(shape.bore_in, shape.bore_out),
        "passage.spring_over_rod": spot.kit.spring_over_rod,
        "passage.stroke_left": spot.stroke,
        "passage.slack": station.slack,
        "passage.hand_stroke": spot.hand_stroke,
        "passage.safe_stroke": np.full_like(spot.hand_stroke, safe(spot.hand_stroke, spot.drawn)),
        "passage.force_left": np.maximum(station.force, 0),
        "passage.friction": shape.friction,
    }


def _place(spot: Spot) -> Facts:
    """What holds of the place in every world."""
    shape, station, tables = spot.shape, spot.station, spot.drawn.tables
    passage, turn = shape.passage, shape.turn
    begins, ends = spot.run
    fragile, no_rim = may_be_fragile(passage.wall_out, spot.drawn), spot.drawn.likely("no_rim")
    stopper, beside = passage.piece.stopper, passage.piece.shut_beside
    return {
        "passage.line": passage.piece.line,
        "passage.enters": passage.enters,
        "passage.leaves": passage.leaves or "down",
        "passage.lie": passage.piece.lie if passage.step is None else turn.lie.value,
        "passage.flow": passage.flow,
        "passage.must_steer": turn.way in ("leg", "hairpin", "fork"),
        "passage.bends_before": float(station.bends),
        "passage.tight_bends_before": float(station.tight_bends),
        "passage.scales": may_scale(passage.wall_out, tables),
        "passage.fragile": fragile[0] if fragile else "none",
        "passage.may_be_lead": "lead" in fragile,
        "passage.may_be_asbestos_cement": "asbestos cement" in fragile,
        "passage.may_be_pitch_fibre": "pitch fibre" in fragile,
        "passage.run_from": begins,
        "passage.run_to": ends,
        "passage.under_water": 1.0 if passage.piece.kind == "belly" else 0.0,
        "passage.stopper": stopper or "none",
        "passage.stopper_why": tables.stoppers[stopper].why if stopper else "",
        "passage.stopper_instead": tables.stoppers[stopper].told_instead(beside) if stopper else "",
        "passage.ledge": bool((np.asarray(shape.ledge) < no_rim).any()),
        "passage.ledge_back": bool((np.asarray(shape.ledge_back) < no_rim).any()),
    }


def may_be_fragile(wall: Wall, drawn: Drawn) -> tuple[str, ...]:
    """Fragile materials that a pipe may well be of, likeliest first."""
    tables = drawn.tables
    return tuple(name for name in may_be(wall, tables) if tables.materials[name].fragile)


def may_scale(wall: Wall, tables: Tables) -> bool:
    """Whether a pipe may well be of a material on which scale grows."""
    return any(tables.materials[name].scales for name in may_be(wall, tables))


def _gear(spot: Spot, besides: Besides, loadout: Loadout) -> Facts:
    """What holds of the kit."""
    return {
        "passage.spring_soft": _soft_spring(loadout, spot),
        "passage.stiffness_known": _stiffness_known(loadout),
        "passage.guide_fits": None,
        "passage.guide_in_kit": besides.guide is not None,
        "passage.guide_fitted": loadout.guide is not None,
        "passage.smaller_head_in_kit": besides.smaller_head,
    }


def _shape(spot: Spot, variant: str) -> str:
    """The shape of a fitting in the words of rules."""
    passage, turn = spot.shape.passage, spot.shape.turn
    if passage.step is not None:
        return "straight tee" if JunctionKind.STRAIGHT_TEE in turn.merges else "entry"
    if passage.piece.kind == "junction":
        shape = spot.drawn.tables.junctions[variant].shape
        return _SHAPES.get(shape, shape)
    return {"bend": "bend", "reducer": "reducer", "stopper": "stopper", "belly": "belly"}.get(
        passage.piece.kind, "straight"
    )


def _soft_spring(loadout: Loadout, spot: Spot) -> bool:
    """Soft as its sheet says, else by its stiffness over that of the rod."""
    if loadout.spring.firm is not None:
        return not loadout.spring.firm
    return middle(spot.kit.spring_over_rod) < spot.drawn.likely("firm_spring")


def _stiffness_known(loadout: Loadout) -> str:
    """Which of the two stiffnesses nobody told or measured; a rod's also follows from its core."""
    rod = (loadout.rod.stiffness or loadout.rod.core).evidence.grade.weak
    spring = loadout.spring.stiffness.evidence.grade.weak
    if rod and spring:
        return "both assumed"
    return "the rod's is assumed" if rod else "the spring's is assumed" if spring else "both told"
