"""A trouble somewhere in a random house, and what its people would say of it."""

from __future__ import annotations

from typing import Any

from advisor.archetype.lot import Lot
from advisor.site.build import network_of
from advisor.site.network import Network, Piece
from advisor.site.sheet import site_of_text
from advisor.site.suspects import suspects
from advisor.strict_yaml import written
from advisor.tables.load import Tables

Tree = dict[str, Any]

_NAMED = ("opening", "junction", "end", "stopper")  # pieces that a stretch can be told by


def with_trouble(tree: Tree, lot: Lot, tables: Tables) -> Tree:
    """The sheet with a complaint, water at some openings, and what is to be seen.

    One spot is in trouble. What drains through it is slow or backs up, the lowest first; what does not
    runs fine; people speak of some of it only.
    """
    network = _network(tree, tables)
    spot = _spot(network, lot, tables)
    above = [p for p in _told_of(network, tables) if spot.id in network.downstream(p.id)]
    beside = [p for p in _told_of(network, tables) if spot.id not in network.downstream(p.id)]
    holding = lot.weighed((("no", 0.7), ("unknown", 0.2), ("yes", 0.1)))
    complaint: Tree = {"holding": holding}
    bad = [above[0], *(p for p in above[1:] if lot.chance(0.5))]
    backing = [p.name for p in bad if (p is bad[0] and holding == "yes") or lot.chance(0.3)]
    if holding == "no":  # who says that it drains away speaks of slow, for what comes up does not drain
        backing = []
    slow = [p.name for p in bad if p.name not in backing]
    fine = [p.name for p in beside if lot.chance(0.5)]
    tested = [name for name in fine if lot.chance(0.3)]
    for key, names in (("backs up", backing), ("slow", slow), ("fine", fine), ("tested with volume", tested)):
        if names:
            complaint[key] = names
    for key, share in (("chemicals", 0.05), ("gas smell", 0.01)):
        if lot.chance(0.6):
            complaint[key] = "yes" if lot.chance(share) else "no"
    _water(tree, network, spot, holding, lot)
    task: Tree = {"look at": "suspect section", "complaint": complaint}
    done = {**tree, "task": task}
    if lot.chance(0.3):
        task["look at"] = _stretch(done, lot, tables)
    return done


def _network(tree: Tree, tables: Tables) -> Network:
    return network_of(site_of_text(written(tree), str(tree["site"]), tables), tables)


def _told_of(network: Network, tables: Tables) -> list[Piece]:
    """What people complain of: fixtures and gullies, the lowest on its way to the sewer first."""
    found = [
        p
        for p in network.pieces.values()
        if (p.hole is not None and (p.hole.fixture or p.hole.toilet or p.hole.kind == "gully"))
        or (p.kind == "cap" and p.name != "capped end")
    ]
    return sorted(
        found,
        key=lambda p: (_rank(p, tables), sum(network.pieces[k].along for k in network.downstream(p.id))),
    )


def _rank(piece: Piece, tables: Tables) -> int:
    """Water shows first where it is low: a floor drain, a gully, a toilet or a bath before a basin."""
    kind = tables.fixtures.get((piece.hole.fixture if piece.hole else None) or "")
    if kind is None:
        return 1 if "toilet" in piece.name else 0
    return {"floor drain": 0, "toilet": 1}.get(kind.name, 2 if kind.level == "low" else 3)


def _spot(network: Network, lot: Lot, tables: Tables) -> Piece:
    """Somewhere in the pipe below a fixture, by length; what usually gives trouble counts as more metres."""
    passed = {key for p in _told_of(network, tables) for key in network.downstream(p.id)}
    weights = []
    for piece in network.pieces.values():
        if piece.kind in ("pipe", "drop", "belly", "joint", "bend", "junction") and piece.id in passed:
            trouble = tables.trouble_metres.get(piece.kind)
            weights.append((piece, piece.along + (trouble.likely if trouble else 0.0)))
    return lot.weighed(weights)


def _water(tree: Tree, network: Network, spot: Piece, holding: str, lot: Lot) -> None:
    """Some have looked into an opening: above a held spot water stands, elsewhere it is dry."""
    if holding == "unknown":
        return
    by_name = {p.name: p for p in network.openings()}
    for line in tree["lines"]:
        for piece in line["pieces"]:
            hole = by_name.get(piece.get("opening", ""))
            if hole is None or "there" in piece or hole.hole is None or not lot.chance(0.3):
                continue
            if hole.hole.kind in ("roof vent", "air admittance valve") or hole.hole.toilet:
                continue
            stands = holding == "yes" and spot.id in network.downstream(hole.id)
            piece["water"] = "standing" if stands else "dry"


def _stretch(tree: Tree, lot: Lot, tables: Tables) -> str:
    """A stretch between two named places, one of those that the complaint points to."""
    sheet = site_of_text(written(tree), str(tree["site"]), tables)
    network = network_of(sheet, tables)
    found = [
        s
        for s in suspects(network, sheet.model.task.complaint, tables)[:3]
        if all(network.pieces[end].kind in _NAMED for end in (s.span[0], s.span[-1]))
    ]
    return lot.one_of(found).words if found else "suspect section"
