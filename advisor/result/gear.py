"""Gear as the plan sees it at one opening: what stops it, where it rather does not get there."""

from __future__ import annotations

import numpy as np

from advisor.quantity import show_reading
from advisor.result.chances import chance_words
from advisor.result.routes import stopped
from advisor.result.stops import stop_words
from advisor.result.study import Study


def stopped_with(study: Study, opening: str, loadout: str) -> tuple[str, str] | None:
    """How unlikely it is to get there with that gear, and why; None where it may, or where no way is.

    A way that shows a part says so as the plan does, with the chance to see that part; why only where the
    plan takes it for stopped.
    """
    ways = (
        each for each in study.outcomes if each.route.opening.name == opening and each.loadout.name == loadout
    )
    best = max(ways, key=lambda each: each.part_chance * each.route.covers, default=None)
    if best is None or best.chance >= study.drawn.likely("unlikely_share"):
        return None
    chance = chance_words(study).say(best.part_chance)
    if best.route.covers < 1:
        chance = f"part, {best.route.covers:.0%} of it: {chance}"
        if best.part_chance >= study.drawn.likely("least_chance"):
            return chance, ""
    stop = stopped(best, study)
    at = f" at {show_reading(stop.at_m, study.units)}" if np.isfinite(stop.at_m) and stop.at_m > 0 else ""
    return chance, stop_words(stop, at)
