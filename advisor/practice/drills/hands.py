"""Set the hands: how far from the opening, and how long a stroke for a quick push."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from advisor.mechanics.hand import euler_load
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY, attempts
from advisor.outcome.facts import free_hand, safe
from advisor.outcome.forces import march_route
from advisor.outcome.spot import Spot
from advisor.outcome.steady import steady
from advisor.practice.drill import Ask, Drill, Option, harmful
from advisor.practice.glossary import drill_of
from advisor.practice.place import caution, drain, in_a_hundred, trouble, way_words
from advisor.practice.scene import School, drains, open_to_push, pick
from advisor.practice.values import doubt, standing
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.worlds.draws import Array

TIMES_SAFE = (0.1, 0.3, 0.95, 1.8, 3.5, 6.0)  # of what is safe; four in a row are offered
OFFERED = 4
LOOKED_AT = 2  # sites, for one where the stroke matters


@dataclass(frozen=True)
class Stroked(Spot):
    """A spot with a stroke chosen by the trainee; one that is too long folds and carries nothing on."""

    chosen: float = 0.0

    @property
    def hand_stroke(self) -> Array:
        """The stroke that the hands give: none where the free rod folds first."""
        longest = super().hand_stroke
        return np.where(longest >= self.chosen, np.float32(self.chosen), 0).astype(np.float32)


def make(school: School, seed: int, after: str) -> Drill:
    """The best way into a site, with another rod than `after` where there is one."""
    spare, looked = None, 0
    for study in school.sites(seed, drains):
        if not open_to_push(study) or not study.settled.attempts:
            continue
        looked += 1
        if spare is not None and looked > LOOKED_AT:
            break
        found = of_way(study, study.settled.attempts[0], seed)
        if len(found.asks) == 2 and found.about != after:
            return found
        spare = spare or found
    assert spare is not None, "no site to push at"
    return spare


def of_way(study: Study, outcome: RouteOutcome, seed: int) -> Drill:
    """The drill of one way in; the stroke is asked where a quick push has something to win."""
    asks = [_distance(study, outcome, seed)]
    stroke = next((i for i, s in enumerate(outcome.spots) if _quick_wins(study, outcome, i)), None)
    if stroke is not None:
        asks.append(_stroke(study, outcome, stroke, seed))
    rod = outcome.loadout.rod.name
    story = (
        *trouble(study),
        f"You push {outcome.loadout.name} in at {way_words(study, outcome)}.",
        f"{rod}: it gives way sideways between hand and opening when the free part is too long.",
    )
    return drill_of(study, "hands", seed, rod, story, tuple(asks), drain(study, [outcome], open_with=False))


def _distance(study: Study, outcome: RouteOutcome, seed: int) -> Ask:
    most = safe(free_hand(study.drawn, outcome.loadout), study.drawn)
    weights = np.ones(study.worlds)
    times_safe = offered(seed, "distance")
    told = [_at(study, outcome, most * times) for times in times_safe]
    best = min(told, key=lambda each: float(each.cost.mean()))
    options = []
    for times, here in zip(times_safe, told, strict=True):
        folds, distance = float(here.folds.mean()), show(most * times, Dimension.LENGTH, study.units)
        why = (
            "Cause: a free rod that is pushed folds sideways. Twice as long, it carries a quarter.",
            f"At {distance} it folds under a steady push {in_a_hundred(folds)}; "
            f"you take hold {here.grips:.0f} times on the way.",
        )
        options.append(
            Option(
                distance,
                float(here.cost.mean() - best.cost.mean()),
                doubt(here.cost, best.cost, weights),
                float(best.chance.mean() - here.chance.mean()),
                why,
            )
        )
    bare = "What comes back on the rod is sewage, and now and then a needle."
    options.append(
        harmful("a bare hand on the rod, to feel it better", bare, caution(study, "sewage"), options)
    )
    hint = "Half the free length carries four times the push. But every grip takes a moment."
    return Ask("How far from the opening do you hold the rod?", tuple(options), hint)


def offered(seed: int, key: str) -> tuple[float, ...]:
    """Four in a row, the smallest first; which of them is safe differs from drill to drill."""
    first = pick(seed, f"offered/{key}", len(TIMES_SAFE) - OFFERED + 1)
    return TIMES_SAFE[first : first + OFFERED]


@dataclass(frozen=True)
class _Held:
    cost: Array
    chance: Array
    folds: Array
    grips: float


def _at(study: Study, outcome: RouteOutcome, distance: float) -> _Held:
    """Hands at a distance: the push that arrives, what it reaches, and the time that the grips take."""
    drawn, costs = study.drawn, study.tables.costs
    kit = drawn.kit(outcome.loadout)
    wanted = drawn.limit("push_force")
    carries = np.asarray(euler_load(kit.stiffness, distance, drawn.limit("end_factor_loose")))
    force = np.minimum(wanted, carries).astype(np.float32)
    march = march_route(outcome.route.passages, outcome.geometries, drawn, kit, force)
    chance: Array = (march.reach >= march.end.at).astype(np.float32)
    for spot in outcome.spots:
        here = steady(spot.spot.shape, march.stations[spot.index].force, kit, drawn).passes
        missed = np.ones_like(here)
        for name, count in spot.order:
            if name != STEADY:
                missed = missed * (1 - spot.chance(name)) ** count
        chance = np.asarray(chance * (1 - (1 - here) * missed), np.float32)
    folds = (carries < wanted).astype(np.float32)
    grips = float(march.end.at.mean()) / distance
    harm = folds * drawn.limit("kink_share") * costs["kink"].likely
    minutes = grips * drawn.likely("regrip") / 60
    return _Held(minutes + harm + (1 - chance) * costs["failing"].likely, chance, folds, grips)


def _quick_wins(study: Study, outcome: RouteOutcome, index: int) -> bool:
    spot = outcome.spots[index]
    return float(spot.chance("quick push").mean()) > study.drawn.likely("worth_trying")


def _stroke(study: Study, outcome: RouteOutcome, index: int, seed: int) -> Ask:
    spot = outcome.spots[index]
    here = standing(study, outcome, index, {STEADY: 1})
    most = safe(spot.spot.hand_stroke, study.drawn)
    gain = np.asarray(here.switch - here.beyond)
    chances = []
    times_safe = offered(seed, "stroke")
    for times in times_safe:
        tried = Stroked(
            spot.spot.shape,
            spot.spot.station,
            spot.spot.kit,
            spot.spot.drawn,
            spot.spot.plain,
            chosen=most * times,
        )
        chances.append(attempts(tried)["quick push"].chance * spot.allowed["quick push"])
    share = here.weights / here.weights.sum()
    best = max(chances, key=lambda chance: float((share * chance * gain).sum()))
    options = []
    for times, chance in zip(times_safe, chances, strict=True):
        stroke, mean = show(most * times, Dimension.LENGTH, study.units), float((share * chance).sum())
        why = (
            "Cause: the bends behind the head eat part of the stroke; too long a stroke folds the rod "
            "between the hands.",
            f"With {stroke} a quick push passes {in_a_hundred(mean)}.",
        )
        options.append(
            Option(
                stroke,
                float((share * (best - chance) * gain).sum()),
                doubt(best * gain, chance * gain, here.weights),
                float((share * (best - chance)).sum()),
                why,
            )
        )
    hint = "Long enough that something arrives behind the bends, short enough that the rod does not fold."
    at = show(float(spot.spot.station.at.mean()), Dimension.LENGTH, study.units)
    return Ask(f"A quick push at {at}: how long is the stroke between your hands?", tuple(options), hint)
