"""What the plan and its tables hold likely where the head is held, though no hard place is told there."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from advisor.push.now.course import Met
from advisor.push.now.now import Now
from advisor.push.now.told_material import ToldMaterial, told_material
from advisor.site.network import Piece
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables
from advisor.tables.where import number


@dataclass(frozen=True)
class Here:
    """Chances, likeliest first and none under what is worth telling; of the pipe before anything was seen.

    `conditions` are those of the pipe in which a head or a rod may hang, in words; `sag` is the chance that
    the head is in a sag that is drawn, `narrow` that the bore left is no wider than the head; `spots` are the
    hard places of the plan that may hold it, after the signs; `trouble` is how likely the complaint puts the
    trouble in the section in which the head is.
    """

    conditions: tuple[tuple[str, float], ...]
    sag: float
    narrow: float
    spots: tuple[tuple[str, float], ...]
    trouble: float = 0.0

    @property
    def nothing(self) -> bool:
        """True where nothing is likely enough to be told."""
        return not (self.conditions or self.sag or self.narrow or self.spots or self.trouble)


def likely_here(now: Now) -> Here:
    """What is likely where the head is if it is on the map, over the places there where it may be."""
    push = now.push
    study, least = push.study, number(push.study.tables.stuck.tell.here)
    table = study.tables.files.conditions
    head = study.drawn.kit(push.loadout).head_diameter
    shares: dict[str, float] = defaultdict(float)
    sag = narrow = trouble = 0.0
    points = {key: each.share for each in reversed(study.suspects) for key in each.span}  # the likeliest last
    told = told_material(now)
    for piece, share in _pieces(now):
        for name, chance in _conditions(piece, told, study.tables):
            if name in table.rough or name == ROOTS:
                shares[name] += share * chance
        trouble += share * points.get(piece.id, 0.0)
        sag += share if piece.kind == "belly" else 0.0
        narrow += share * float(np.mean(study.drawn.wall(piece.wall).bore <= head))
    held: dict[str, float] = defaultdict(float)  # two runs of one line share their name
    for met, share in now.spots_told:
        held[met.name] += share
    found = sorted(shares.items(), key=lambda each: -each[1])
    return Here(
        tuple((table.words[name], share) for name, share in found if share >= least),
        sag if sag >= least else 0.0,
        narrow if narrow >= least else 0.0,
        tuple(sorted(((name, share) for name, share in held.items() if share >= least), key=lambda e: -e[1])),
        trouble if trouble >= least else 0.0,
    )


def may_be_in(now: Now) -> Met | None:
    """The run with roots in which the head may be held, where no other hard place of the plan may hold it."""
    runs = {met.name for met in now.may_be_rooted}
    others = any(name not in runs for name, _ in likely_here(now).spots)
    return None if others else next(iter(now.may_be_rooted), None)


def _conditions(piece: Piece, told: ToldMaterial | None, tables: Tables) -> tuple[tuple[str, float], ...]:
    """How the wall may be; of a told material, where nobody told the wall itself. Roots stay as likely."""
    wall, sure = piece.wall, number(tables.where.sure.on_sheet)
    known = max(chance for _, chance in wall.condition.options) > sure
    if told is None or known or dict(wall.material.options).get(told.name, 0.0) > sure:
        return wall.condition.options
    roots = dict(wall.condition.options).get(ROOTS, 0.0)
    of_it = dict(tables.likely_condition(told.name, None).options)
    return tuple((of_it | {ROOTS: max(roots, of_it.get(ROOTS, 0.0))}).items())


def pieces_here(now: Now) -> tuple[Piece, ...]:
    """The pieces in which the head may well be, likeliest first."""
    least = number(now.push.study.tables.stuck.tell.here)
    found = sorted(_pieces(now), key=lambda each: -each[1])
    return tuple(piece for piece, share in found if share >= least)


def _pieces(now: Now) -> list[tuple[Piece, float]]:
    """The pieces in which the head may be, each with its share of what is on the map."""
    chart, mass = now.push.tracker.chart, now.belief.mass.sum(axis=0)
    found: dict[str, tuple[Piece, float]] = {}
    for row, way in enumerate(chart.ways):
        by_leg = np.bincount(chart.leg[row], mass[row], minlength=len(way.legs))
        for leg, share in zip(way.legs, by_leg, strict=True):
            before = found.get(leg.piece.id, (leg.piece, 0.0))[1]
            found[leg.piece.id] = (leg.piece, before + float(share))
    total = sum(share for _, share in found.values())
    return [(piece, share / total) for piece, share in found.values() if share > 0]
