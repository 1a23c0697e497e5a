"""What would you bring: which gear for the way in, and what of the rest may stay on the truck."""

from __future__ import annotations

import numpy as np

from advisor.explain.how import minute_terms
from advisor.outcome.assess import RouteOutcome
from advisor.practice.drill import Ask, Drill, Option
from advisor.practice.glossary import drill_of
from advisor.practice.place import caution, drain, how_it_ends, story, way_words
from advisor.practice.scene import School, may_push, open_to_push, shuffled
from advisor.practice.values import doubt
from advisor.ranking.score import score
from advisor.result.routes import route_note
from advisor.result.study import Study

ITEMS = 3  # needed things shown beside the one that is not
# Left behind, these hurt somebody: the hazard whose caution then is told.
_PROTECTS = {
    "fall protection": "roof-fall",
    "ladder": "roof-fall",
    "second person": "roof-fall",
    "barrier": "traffic",
    "battery light": "wet-cellar-mains",
    "battery reel": "wet-cellar-mains",
}
_PEOPLE = ("second person", "a second pair of hands")  # nobody is told to come without help


def make(school: School, seed: int, after: str) -> Drill:
    """A site where the gear makes a difference; another opening than `after`."""
    spare = None
    for study in school.sites(seed, may_push):
        if not open_to_push(study):
            continue
        found = of_site(study, seed)
        if found.about != after:
            return found
        spare = spare or found
    assert spare is not None, "no site to push at"
    return spare


def of_site(study: Study, seed: int) -> Drill:
    """The drill of one site, for its best way in."""
    best = study.ranked[0].outcome
    asks = [_gear(study, best, seed)]
    if left := _left_behind(study, seed):
        asks.append(left)
    told = (*story(study), f"You go in at {way_words(study, best)}.")
    about = best.route.opening.name
    return drill_of(study, "bring", seed, about, told, tuple(asks), drain(study, [best]))


def _gear(study: Study, best: RouteOutcome, seed: int) -> Ask:
    # The best is weighed with the tries that pay, as it was ranked.
    others = (o for o in study.outcomes if o.route.id == best.route.id)
    same = [best if o.loadout.name == best.loadout.name else o for o in others]
    options = []
    least = score(best, study.tables)
    for outcome in same:
        own = score(outcome, study.tables)
        terms, beside = minute_terms(study, outcome), minute_terms(study, best)
        gaps = [f"{key}: {terms[key] - beside[key]:+.0f} min" for key in terms
                if abs(terms[key] - beside[key]) >= 1]  # fmt: skip
        why = (
            "Cause: a stiffer rod carries the push farther but turns less readily; a small head turns where "
            "a large one jams; a guide lifts the nose but makes the head longer.",
            *how_it_ends(study, outcome),
            *gaps,
        )
        options.append(
            Option(
                outcome.loadout.name,
                float(own.mean() - least.mean()),
                doubt(own, least, np.ones(study.worlds)),
                best.chance - outcome.chance,
                why,
            )
        )
    ordered = tuple(options[i] for i in shuffled(seed, "gear", len(options)))
    return Ask("Which gear goes in?", ordered, "How far is it, and how tight is the tightest turn?")


def _left_behind(study: Study, seed: int) -> Ask | None:
    """Nothing is asked where the opening wants nothing."""
    needed = list(route_note(study.ranked[0], 1, study).bring)
    every = {study.reader.call(item) for kind in study.tables.openings.values() for item in kind.bring}
    free = every - {*needed, *_PEOPLE}
    spare = sorted(item for item in free if not any(_alike(item, n) for n in needed))
    if not needed or not spare:
        return None
    keeps = sorted(needed, key=lambda item: item not in _PROTECTS)[:ITEMS]
    back = study.tables.costs["set_up"].likely
    options = [
        Option(
            item,
            back,
            why=(f"It is wanted here; fetching it costs about {back:.0f} min.",),
            unsafe=caution(study, _PROTECTS[item]) if item in _PROTECTS else None,
        )
        for item in keeps
    ]
    odd = spare[shuffled(seed, "spare", len(spare))[0]]
    options.append(Option(odd, 0.0, why=("Nothing at this opening asks for it.",)))
    ordered = tuple(options[i] for i in shuffled(seed, "left", len(options)))
    return Ask(
        "Which of these may stay on the truck?", ordered, "Think the opening through: open, push, close."
    )


def _alike(item: str, other: str) -> bool:
    """A bucket is a bucket, whatever comes with it."""
    small = {"a", "and", "of", "for", "the", "new", "spare", "two", "to", "with"}
    words = [{w.rstrip("s") for w in each.split()} - small for each in (item, other)]
    return bool(words[0] & words[1])
