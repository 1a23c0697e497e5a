"""Find the hard fitting: which place on the way takes the most chance; look-alikes stand side by side."""

from __future__ import annotations

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.steady import steady
from advisor.practice.cause import variant_of
from advisor.practice.drill import Ask, Drill, Option
from advisor.practice.glossary import drill_of
from advisor.practice.place import drain, fitting, in_a_hundred, story, way_words
from advisor.practice.scene import School, may_push, open_to_push, shuffled
from advisor.practice.values import doubt
from advisor.quantity import Dimension, show
from advisor.result.study import Study
from advisor.worlds.draws import Array

MOST = 6


def make(school: School, seed: int, after: str) -> Drill:
    """A way with at least three fittings, one of which takes chance."""
    spare = None
    for study in school.sites(seed, may_push):
        if not open_to_push(study):
            continue
        for ranked in study.ranked[:4]:
            if ranked.outcome.chance < study.drawn.likely("drill_chance") or not _suits(
                study, ranked.outcome
            ):
                continue
            found = of_way(study, ranked.outcome, seed)
            if found.about != after:
                return found
            spare = spare or found
    assert spare is not None, "no way with a hard fitting"
    return spare


def _suits(study: Study, outcome: RouteOutcome) -> bool:
    falls = [fall for _, fall, _ in _places(study, outcome)]
    return len(falls) >= 3 and max(float(fall.mean()) for fall in falls) >= study.drawn.likely("drill_loss")


def of_way(study: Study, outcome: RouteOutcome, seed: int) -> Drill:
    """The drill of one way in."""
    failing = study.tables.costs["failing"].likely
    places = _places(study, outcome)
    worst = max(places, key=lambda place: float(place[1].mean()))
    options = []
    for index, fall, why in places:
        missed = worst[1] - fall
        options.append(
            Option(
                _words(study, outcome, index),
                float(missed.mean()) * failing,
                doubt(worst[1] * failing, fall * failing, np.ones(study.worlds)),
                float(missed.mean()),
                (*why, f"In all it stops a gentle push {in_a_hundred(float(fall.mean()))}."),
            )
        )
    ordered = tuple(options[i] for i in shuffled(seed, "fitting", len(options)))
    hint = (
        "A long curve turns a head gently, a short or square one stops it. How short is each turn, and "
        "which way is it swept?"
    )
    about = _words(study, outcome, worst[0]).split(", at ")[0]
    told = (
        *story(study),
        f"You go in at {way_words(study, outcome)}, with {outcome.loadout.name}.",
    )
    question = "Which place will stop the head most, could it come that far?"
    asks = (Ask(question, ordered, hint, loses="overlooks trouble that counts as"),)
    return drill_of(study, "fitting", seed, about, told, asks, drain(study, [outcome]))


def _places(study: Study, outcome: RouteOutcome) -> list[tuple[int, Array, tuple[str, ...]]]:
    """(passage, chance lost to a gentle push there in each world, why) for every fitting on the way.

    What is judged is the fitting alone, as if the head stood before it.
    """
    hard = {spot.index: spot for spot in outcome.spots}
    found: list[tuple[int, Array, tuple[str, ...]]] = []
    for index, shape in enumerate(outcome.geometries):
        if shape.turn.way == "none" and not np.isfinite(np.asarray(shape.ledge)).any():
            continue
        spot = hard.get(index)
        if spot is not None:
            found.append((index, spot.spot.plain.stuck, variant_of(spot, study)))
        elif not hard or index < max(hard):
            missed = _missed(outcome, index)
            easy = float(missed.mean()) < study.drawn.likely("drill_easy")
            gear = outcome.loadout.name
            why = f"Nothing there hinders {gear} much." if easy else "Little of the push is left there."
            found.append((index, missed, (why,)))
    return sorted(found, key=lambda place: -float(place[1].mean()))[:MOST]


def _missed(outcome: RouteOutcome, index: int) -> Array:
    shape, station = outcome.geometries[index], outcome.march.stations[index]
    return np.asarray(1 - _passes(outcome, shape, station.force), np.float32)


def _passes(outcome: RouteOutcome, shape: object, force: Array) -> Array:
    some = next(iter(outcome.spots), None)
    if some is None:
        return np.ones_like(force)
    kit, drawn = some.spot.kit, some.spot.drawn
    return steady(shape, force, kit, drawn).passes  # type: ignore[arg-type]


def _words(study: Study, outcome: RouteOutcome, index: int) -> str:
    passage = outcome.route.passages[index]
    at = show(float(outcome.march.stations[index].at.mean()), Dimension.LENGTH, study.units)
    if passage.step is not None:
        return f"{passage.step.kind}, at {at}"
    turns = {"branch": "out of the branch", "down": "from below", "up": "from above"}
    name = fitting(study, passage.piece)
    told = f"{name}, {turns.get(passage.enters, '')}" if passage.piece.kind == "junction" else name
    return f"{told}, at {at}"
