"""A broken or open-jointed place that soil or bits of pipe tell of: somewhere, and it may hold a head."""

from __future__ import annotations

import numpy as np

from advisor.outcome.drawn import Drawn
from advisor.outcome.facts import Facts
from advisor.worlds.draws import Array


def held_by_break(site: Facts, length: Array, drawn: Drawn) -> Array:
    """The chance that it holds the head on a way of that length, m, in each world, float32[N].

    It may be anywhere: the longer the way, the likelier it lies on it.
    """
    worlds = drawn.worlds
    if site.get("site.broken") is not True:
        return np.zeros(worlds.n, np.float32)
    there = worlds.uniform("a broken place") < drawn.limit("broken_there")
    on_it = np.minimum(length / drawn.limit("broken_within"), 1)
    return np.asarray(there * on_it * drawn.limit("broken_holds"), np.float32)
