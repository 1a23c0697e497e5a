"""What matters: the unknowns, by how many minutes knowing them could save."""

from __future__ import annotations

import numpy as np
from pydantic import BaseModel, ConfigDict

from advisor.quantity import MINUTE
from advisor.ranking.worth import blocks, worth
from advisor.result.decisions import decisions
from advisor.result.study import Study
from advisor.site.fields import AssumedName
from advisor.site.pieces import OpeningEntry
from advisor.worlds.draws import Array

LOOKED_AT = 24  # unknowns that move the costs most are looked at closely


class Matter(BaseModel):
    """One unknown and the minutes that knowing it could save."""

    model_config = ConfigDict(frozen=True)

    unknown: str
    minutes: float
    sure: bool  # stands clear of what shuffled worlds score


def what_matters(study: Study) -> tuple[Matter, ...]:
    """Every unknown worth half a minute or more, the worthiest first.

    The decisions are the openings and leaving the job undone. An unknown is the uniform that draws it: its
    blocks are blocks of the quantity, whatever its distribution.
    """
    costs = decisions(study)
    weights = np.ones(study.worlds)
    drawn = study.drawn.worlds.drawn_keys()
    spread = {key: _moved(study.drawn.worlds.uniform(key), costs) for key in drawn}
    keys = sorted(spread, key=lambda key: (-spread[key], key))[:LOOKED_AT]
    found = []
    least = study.drawn.likely("least_minutes") / MINUTE
    for key in keys:
        each = worth(blocks(study.drawn.worlds.uniform(key)), costs, weights)
        if each.minutes >= least:
            found.append(Matter(unknown=in_words(key), minutes=each.minutes, sure=each.real))
    return tuple(sorted(found, key=lambda matter: (-matter.minutes, matter.unknown)))


def not_looked_at(study: Study) -> tuple[str, ...]:
    """Openings of which nobody has said whether they are there, or of which kind."""
    found = []
    for piece in study.network.openings():
        entry, hole = piece.entry, piece.hole
        if hole is not None and isinstance(entry, OpeningEntry):
            unseen = entry.kind is None or isinstance(entry.kind, AssumedName)
            if 0 < hole.there < 1 or (hole.there == 1 and unseen):
                found.append(piece.name)
    return tuple(found)


_LAST = {
    "opens": "whether {} opens",
    "there": "whether {} is there",
    "open minutes": "how long {} takes to open",
    "close minutes": "how long {} takes to close",
    "kind": "which fitting it is: {}",
    "length": "the length of {}",
    "material": "the material of {}",
    "condition": "the condition inside {}",
    "bore left": "how much bore is left in {}",
    "bore": "the bore of {}",
    "friction": "how the rod slides in {}",
    "radius": "the radius of {}",
    "angle": "the angle of {}",
    "throat": "the sweep of {}",
    "leg": "the legs of {}",
    "curl": "which way the rod's curl points at {}",
    "core": "the core of {}",
    "stiffness": "the stiffness of {}",
    "reel": "how much rod is on {}",
}


def in_words(key: str) -> str:
    """The key of a drawn quantity as a reader says it."""
    if key.startswith("limit/"):
        return f"our figure for {key.removeprefix('limit/').replace('_', ' ')}"
    if key.startswith("model error/"):
        return f"how far the model of the {key.removeprefix('model error/')} is off"
    if key.startswith("offset/"):
        _, technique, way = key.split("/")
        return f"how this crew's {technique} does at a {way}"
    place, _, last = key.rpartition("/")
    words = ", ".join(part.split(":")[-1] for part in reversed(place.split("/")))
    return _LAST.get(last, last + " of {}").format(words)


def _moved(uniform: Array, costs: Array) -> float:
    """How far the mean costs of the decisions move from one block to another, relative to each other."""
    groups = blocks(uniform)
    means = np.stack([costs[:, groups == g].mean(axis=1) for g in range(int(groups.max()) + 1)])
    gaps = means - means.min(axis=1, keepdims=True)
    return float(gaps.std(axis=0).max())
