"""Roots at the joints of a run of pipe: whether they stand there, where, and what bore they leave."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.outcome.drawn import Drawn
from advisor.routes.passage import JOINTED, Passage
from advisor.tables.conditions import ROOTS
from advisor.worlds.draws import Array, quantile


@dataclass(frozen=True)
class Roots:
    """What roots do in one run of pipe, float32[N] each.

    `bore` is what the narrowest place leaves of which the roots do not part, m, infinite where there is none;
    `bore_cut` is the same once a cutter has been through.
    """

    there: Array  # worlds in which they stand somewhere in the run, as 0 or 1
    at: Array  # from where the head comes into the run to the narrowest place, m
    length: Array  # of the run, m
    bore: Array
    bore_cut: Array
    per_metre: Array  # places with roots to be expected in a metre of it


def roots_in(passage: Passage, drawn: Drawn) -> Roots | None:
    """The roots that may stand in the run that a passage begins; None where nobody expects any.

    Places with roots are scattered over a run as chance has it (a Poisson process), each with a bore of its
    own. The narrowest of so many has the quantile -ln(u) / expected number of the bore at one place, and
    past 1 there is no such place; those that part and those that do not are two such processes beside each
    other. So a run told in two pieces is as hard as the same run told in one, and the same from either end.
    """
    wall, worlds = passage.wall_out, drawn.worlds
    if not passage.run or all(name != ROOTS for name, _ in wall.condition.options):
        return None
    row, pipe = drawn.tables.files.conditions.roots, drawn.wall(wall)
    joint = worlds.mixed(
        f"{wall.id}/joint length",
        worlds.choice(f"{wall.id}/material", wall.material),
        [drawn.tables.joint_length(name) for name, _ in wall.material.options],
    )
    per_metre = pipe.rooted * worlds.value(f"{wall.id}/joints with roots", row.joints_with) / joint
    parting = worlds.value(f"{wall.id}/roots that part", row.parting)
    cut = worlds.value("roots that are cut", row.cut)
    zero = np.zeros(worlds.n, np.float32)
    found = Roots(zero, zero, zero, zero + np.inf, zero + np.inf, np.asarray(per_metre, np.float32))
    for piece in passage.run:
        if piece.kind not in JOINTED:
            continue
        length = drawn.length(piece)
        firm = _narrowest(per_metre * length * (1 - parting), worlds.uniform(f"{piece.id}/firm roots"))
        soft = _narrowest(per_metre * length * parting, worlds.uniform(f"{piece.id}/soft roots"))
        left = quantile(np.minimum(firm, 1), row.bore_left)
        bore = np.where(firm < 1, pipe.bore * left, np.inf).astype(np.float32)
        stays = worlds.uniform(f"{piece.id}/roots cut") >= cut
        share = worlds.uniform(f"{piece.id}/roots at")
        there = (firm < 1) | (soft < 1)
        here = length * (share if passage.enters != "down" else 1 - share)
        # Where nothing holds the head any root will do to say where they are, else the narrowest.
        nearer = (bore < found.bore) | (np.isinf(found.bore) & ~found.there.astype(bool))
        found = Roots(
            np.maximum(found.there, there).astype(np.float32),
            np.where(nearer, found.length + here, found.at).astype(np.float32),
            found.length + length,
            np.minimum(found.bore, bore),
            np.minimum(found.bore_cut, np.where(stays, bore, np.inf)).astype(np.float32),
            found.per_metre,
        )
    return found


def _narrowest(places: Array, uniform: Array) -> Array:
    """Which quantile of the bore at one place the narrowest of so many expected has; past 1 there is none."""
    return np.asarray(-np.log(uniform) / np.maximum(places, np.float32(1e-9)), np.float32)
