"""What rules are told about a site, an opening, a route and a passage: plain numbers and shares of worlds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.kit.model import Kit, Loadout
from advisor.mechanics.hand import largest_hand_distance
from advisor.mechanics.junction_case import JunctionKind
from advisor.outcome.attempts import Spot, string_angle
from advisor.outcome.drawn import Drawn
from advisor.outcome.forces import March
from advisor.outcome.turns import Turn
from advisor.routes.passage import Passage, Route
from advisor.site.network import Network, Piece
from advisor.tables.load import Tables
from advisor.worlds.draws import Array

Facts = dict[str, float | bool | str | None]
Mask = NDArray[np.bool_]

# How a junction shape of the table is called in a rule.
_SHAPES = {
    "double sanitary tee": "double",
    "double fixture": "double",
    "double wye": "double",
    "cross": "double",
    "backdrop": "straight tee",
}


@dataclass(frozen=True)
class Circumstances:
    """What is known of the whole job before any route is looked at."""

    holding: bool | None
    chemicals: bool | None
    gas_smell: bool | None
    pumps: bool | None
    septic: bool | None
    shared: bool | None


def site_facts(network: Network, given: Circumstances, tables: Tables) -> Facts:
    """Facts that hold for the whole job. A pump or tank that is drawn is there, whatever was said."""
    stoppers = {piece.stopper for piece in network.pieces.values() if piece.stopper}
    pumped = any(tables.stoppers[name].pump for name in stoppers)
    return {
        "site.region": network.region,
        "site.holding": given.holding,
        "site.chemicals": given.chemicals,
        "site.gas_smell": given.gas_smell,
        "site.pumps": pumped or given.pumps,
        "site.septic": "septic tank" in stoppers or given.septic,
        "site.neighbours": given.shared,
    }


def opening_facts(opening: Piece, loadout: Loadout, drawn: Drawn) -> Facts:
    """Facts of one opening for one loadout."""
    hole = opening.hole
    assert hole is not None
    kind = drawn.tables.openings[hole.kind]
    bore = drawn.wall(opening.wall).bore
    opens = kind.opens_share.likely if hole.opens is None else float(hole.opens)
    fixture = hole.fixture or ""
    return {
        "opening.kind": hole.kind,
        "opening.place": kind.place,
        "opening.buried": hole.buried,
        "opening.water": hole.water,
        "opening.size": hole.size.value if hole.size else opening.wall.nominal.value,
        "opening.head_fits": _share(bore > drawn.kit(loadout).head_diameter),
        "opening.opens": opens,
        "opening.toilet_off": "toilet" in hole.kind,
        "opening.sharp_rim": "sharp rim" in kind.hazards,
        "opening.fixture": fixture,
        "opening.material": opening.wall.material.likeliest,
        "opening.hot": fixture in ("kitchen sink", "washing machine", "dishwasher"),
        "opening.depth": hole.depth,
    }


def route_facts(route: Route, march: March, drawn: Drawn, loadout: Loadout) -> Facts:
    """Facts of one route for one loadout."""
    kit = drawn.kit(loadout)
    length = march.end.at
    stoppers = [p.piece.stopper for p in route.passages if p.piece.stopper]
    under, whole = _under_water(route, drawn)
    hole = route.opening.hole
    # In a chamber or shaft the hand stays at the rim, so the depth is free rod; elsewhere it stays near.
    depth = hole.depth if hole and hole.depth else drawn.likely("hand_near")
    return {
        "route.length": float(np.median(length)),
        "route.reach": float(np.median(march.reach)),
        "route.reaches": _share(march.reach >= length),
        "route.reel_long_enough": bool(np.median(kit.reel) >= np.median(length)),
        "route.bends": float(march.end.bends),
        "route.tight_bends": float(march.end.tight_bends),
        "route.with_flow": route.direction,
        "route.pulls_out": _share(march.pull <= np.minimum(kit.pull_limit, drawn.limit("pull_force"))),
        "route.under_water": under / whole if whole > 0 else 0.0,
        "route.covers": route.covers,
        "route.stopped_by": stoppers[0] if stoppers else "nothing",
        "route.drop": max(march.drop, 0.0),
        "route.hand_distance": max(depth, drawn.likely("hand_near")),
        "route.passes_tank": any(drawn.tables.stoppers[name].tank for name in stoppers),
        "route.up_pipe": route.direction != "with",
    }


def free_hand(drawn: Drawn, loadout: Loadout) -> Array:
    """Largest distance between hand and opening at which the free rod does not fold, m."""
    return np.asarray(
        largest_hand_distance(
            drawn.kit(loadout).stiffness,
            drawn.limit("push_force"),
            drawn.limit("end_factor_loose"),
            drawn.limit("hand_safety"),
        ),
        np.float32,
    )


def passage_facts(spot: Spot, variant: str, where: Mask | None, kit: Kit, loadout: Loadout) -> Facts:
    """Facts of one hard spot, in the worlds where its fitting is `variant`."""
    shape, station, plain, drawn = spot.shape, spot.station, spot.plain, spot.drawn
    passage, turn, tables = shape.passage, shape.turn, spot.drawn.tables

    def share(values: NDArray[np.bool_] | Array) -> float:
        return _share(values if where is None else values[where])

    def middle(values: Array | float) -> float:
        array = np.asarray(values)
        if array.ndim == 0:
            return float(array)
        if where is not None:
            array = array[where]
        # The upper median: one partition, where numpy's own takes two and half a dozen checks.
        half = array.size // 2
        return float(np.partition(array, half)[half])

    material = tables.materials[passage.wall_out.material.likeliest]
    angle = string_angle(spot) if turn.way in ("merge", "leg", "hairpin", "fork") else np.zeros(1, np.float32)
    constants = tables.junction
    stopper = passage.piece.stopper
    in_window = (angle > constants.string_half) & (angle < constants.string_hooking)
    step = np.maximum(shape.bore_in, shape.bore_out) / np.minimum(shape.bore_in, shape.bore_out)
    guide = loadout.guide or next((each.guide for each in kit.loadouts if each.guide), None)
    ring = guide.diameter.likely if guide else None
    smaller = [h for h in kit.heads if h.diameter.likely < loadout.head.diameter.likely]
    # A head that stops, sets off the wrong way or folds has first run straight at the far wall.
    unturned = plain.far_wall * spot.possible + plain.wrong_way + plain.folds
    jams = (shape.rigid <= 1) & (shape.fits > 1)
    return {
        "passage.kind": variant,
        "passage.shape": rule_shape(passage, turn, variant, drawn),
        "passage.enters": passage.enters,
        "passage.leaves": passage.leaves or "down",
        "passage.lie": passage.piece.lie if passage.step is None else turn.lie.value,
        "passage.flow": passage.flow,
        "passage.at": middle(station.at),
        "passage.angle": middle(turn.angle),
        "passage.bore": middle(shape.bore),
        "passage.bore_step": middle(step),
        "passage.hard": share(plain.passes) < drawn.likely("hard_chance"),
        "passage.head_jams": share(np.broadcast_to(jams, (drawn.worlds.n,))),
        "passage.rod_too_tight": share(np.broadcast_to(np.asarray(shape.rod_radius) < 1, (drawn.worlds.n,))),
        "passage.rod_end_sticks": share(plain.rod_end),
        "passage.runs_at_far_wall": share(unturned) if turn.way == "merge" else 0.0,
        "passage.folds_back": share(plain.folds),
        "passage.wrong_way": share(plain.wrong_way),
        "passage.crosses_over": share(plain.crosses),
        "passage.must_steer": turn.way in ("leg", "hairpin", "fork"),
        "passage.spring_soft": soft_spring(loadout, spot),
        "passage.spring_over_rod": middle(spot.kit.spring_over_rod),
        "passage.bends_before": float(station.bends),
        "passage.tight_bends_before": float(station.tight_bends),
        "passage.stroke_left": middle(spot.stroke),
        "passage.slack": middle(station.slack),
        "passage.hand_stroke": middle(spot.hand_stroke),
        "passage.string_turns": share(in_window) if in_window.shape != (1,) else 0.0,
        "passage.force_left": middle(np.maximum(station.force, 0)),
        "passage.friction": middle(shape.friction),
        "passage.rough": share(drawn.wall(passage.wall_out).rough) >= 0.5,
        "passage.fragile": material.name if material.fragile else "none",
        "passage.under_water": 1.0 if passage.piece.kind == "belly" else 0.0,
        "passage.small_pipe": passage.piece.wall.nominal.value < 0.0505,
        "passage.guide_fits": share(shape.bore > ring) if ring else None,
        "passage.guide_in_kit": guide is not None,
        "passage.guide_fitted": loadout.guide is not None,
        "passage.smaller_head_in_kit": bool(smaller),
        "passage.stopper": stopper or "none",
        "passage.stopper_why": tables.stoppers[stopper].why if stopper else "",
        "passage.stopper_instead": tables.stoppers[stopper].instead if stopper else "",
        "passage.ledge": bool(np.isfinite(shape.ledge).any()) and _share(np.asarray(shape.ledge) < 10) > 0,
        "passage.ledge_back": bool(np.isfinite(shape.ledge_back).any())
        and _share(np.asarray(shape.ledge_back) < 10) > 0,
        "passage.bore_blocked": share(shape.fits <= 1),
    }


def rule_shape(passage: Passage, turn: Turn, variant: str, drawn: Drawn) -> str:
    """The shape of a fitting in the words of rules."""
    if passage.step is not None:
        return "straight tee" if JunctionKind.STRAIGHT_TEE in turn.merges else "entry"
    if passage.piece.kind == "junction":
        shape = drawn.tables.junctions[variant].shape
        return _SHAPES.get(shape, shape)
    return {"bend": "bend", "reducer": "reducer", "stopper": "stopper", "belly": "belly"}.get(
        passage.piece.kind, "straight"
    )


def soft_spring(loadout: Loadout, spot: Spot) -> bool:
    """Soft as its sheet says, else by its stiffness over that of the rod."""
    if loadout.spring.firm is not None:
        return not loadout.spring.firm
    return float(np.median(spot.kit.spring_over_rod)) < spot.drawn.likely("firm_spring")


def _under_water(route: Route, drawn: Drawn) -> tuple[float, float]:
    under = whole = 0.0
    for passage in route.passages[route.target_from :]:
        length = float(drawn.length(passage.piece).mean())
        whole += length
        under += length if passage.piece.kind == "belly" else 0.0
    return under, whole


def _share(values: NDArray[np.bool_] | Array) -> float:
    return float(np.mean(values))
