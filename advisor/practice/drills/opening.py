"""Choose the opening: graded by what the whole job costs where one begins there, against the best."""

from __future__ import annotations

import numpy as np

from advisor.explain.how import minute_terms
from advisor.outcome.assess import RouteOutcome
from advisor.practice.cause import cause
from advisor.practice.drill import Ask, Drill, Option
from advisor.practice.glossary import drill_of
from advisor.practice.place import drain, how_it_ends, story, way_words
from advisor.practice.scene import SIGNS, School, drains, not_known, open_to_push, pick, shuffled, verdicts
from advisor.practice.values import doubt, next_ways, order_costs, weights_after
from advisor.result.build import known_first
from advisor.result.study import Study
from advisor.rulebase.rule import Caution
from advisor.rulebase.trace import Firing
from advisor.worlds.draws import Array

MOST = 5
_NOT_YET = "none yet: first something else must be done here"
WITH_VERDICT = 5  # one drill in so many is of a site where no camera goes in


def make(school: School, seed: int, after: str) -> Drill:
    """A site with at least two ways in, or one where nobody pushes yet."""
    forbidden = pick(seed, "verdict", WITH_VERDICT) == 0
    study = next(s for s in school.sites(seed, drains) if open_to_push(s) and len(ways_in(s)) >= 2)
    if forbidden:
        study = school.forbidden(study, SIGNS[pick(seed, "sign", len(SIGNS))])
    return of_site(study, seed)


def of_site(study: Study, seed: int) -> Drill:
    """The drill of one site."""
    leaders = ways_in(study)
    best = leaders[0]
    least = _costs(study, best)
    options = [_option(study, outcome, best, least) for outcome in leaders]
    options.append(_not_yet(study, best, least))
    if verdicts(study):
        options[-1] = Option(_NOT_YET, 0.0, why=tuple(cause(verdicts(study)[0])))
    elif not_known(study):
        options[-1] = Option(
            _NOT_YET, 0.0, why=(f"Not known is not no. First {'; '.join(known_first(study))}.",)
        )
    ordered = tuple(options[i] for i in shuffled(seed, "opening", len(options)))
    hint = (
        "Three things end a push: an opening that is not there or does not open, a hard turn, the length. "
        "Ask each opening all three."
    )
    if _stands_against(study):
        hint = "Read what is told of the line before you look at the openings."
    asks = (Ask("Which opening do you go in at?", ordered, hint),)
    told = (*story(study), "Lengths and turns count from the rim of the opening.")
    return drill_of(study, "opening", seed, best.route.opening.name, told, asks, drain(study, leaders))


def ways_in(study: Study) -> list[RouteOutcome]:
    """The best way in by each opening that shows the whole target, best first."""
    found: dict[str, RouteOutcome] = {}
    for ranked in study.ranked:
        if ranked.outcome.route.covers >= 1:
            found.setdefault(ranked.outcome.route.opening.id, ranked.outcome)
    return list(found.values())[:MOST]


def _option(study: Study, outcome: RouteOutcome, best: RouteOutcome, least: Array) -> Option:
    own = least if outcome is best else _costs(study, outcome)
    unsafe = next(
        (f.conclusion.caution or Caution(f.rule_id, "warning", f.because) for f in _stands_against(study)),
        None,
    )
    return Option(
        way_words(study, outcome),
        float(own.mean() - least.mean()),
        doubt(own, least, np.ones(study.worlds)),
        best.chance - outcome.chance,
        _why(study, outcome, best),
        unsafe,
    )


def _stands_against(study: Study) -> tuple[Firing, ...]:
    """What forbids a push; and what may, as long as nobody knows."""
    return (*verdicts(study), *not_known(study))


def _costs(study: Study, outcome: RouteOutcome) -> Array:
    """Minutes, float32[N], of going in there and, where it fails, on as is best then: as the plan's order."""
    gone = ((outcome.route.id, outcome.loadout.name),)
    return order_costs(study, [outcome, *next_ways(study, gone, weights_after(study, gone))])


def _why(study: Study, outcome: RouteOutcome, best: RouteOutcome) -> tuple[str, ...]:
    """How often it gets there, what ends it most, why, and the minutes that set it apart from the best.

    Those are of this way by itself: what comes after it where it fails is in what the choice costs.
    """
    lines = list(how_it_ends(study, outcome))
    if outcome is not best:
        own, least = minute_terms(study, outcome), minute_terms(study, best)
        gaps = sorted(((own[key] - least[key], key) for key in own), key=lambda gap: -abs(gap[0]))
        lines += [f"By itself, {key}: {gap:+.0f} min against the best" for gap, key in gaps if abs(gap) >= 1]
        return tuple(lines)
    later = [o for o in study.settled.attempts if o is not best and o.route.id != best.route.id]
    if later:
        lines.append(f"Where it fails, next comes {later[0].route.opening.name}.")
    return tuple(lines)


def _not_yet(study: Study, best: RouteOutcome, least: Array) -> Option:
    failing = study.tables.costs["failing"].likely
    why = ("Nothing here forbids a push: it drains, no gas, no cleaner. Waiting costs the job.",)
    return Option(
        _NOT_YET, failing - float(least.mean()), doubt(np.full_like(least, failing), least,
        np.ones(study.worlds)), best.chance, why,
    )  # fmt: skip
