"""Choose the opening: graded by the planner's score of each way in against the best."""

from __future__ import annotations

import numpy as np

from advisor.explain.how import minute_terms
from advisor.outcome.assess import RouteOutcome
from advisor.practice.drill import Ask, Drill, Option
from advisor.practice.place import cause, story, way_words
from advisor.practice.scene import SIGNS, School, open_to_push, pick, shuffled, verdicts
from advisor.practice.values import doubt
from advisor.ranking.score import score
from advisor.result.routes import stopped
from advisor.result.study import Study

MOST = 5
_NOT_YET = "none yet: first something else must be done here"
WITH_VERDICT = 5  # one drill in so many is of a site where no camera goes in


def make(school: School, seed: int, after: str) -> Drill:
    """A site with at least two ways in, or one where nobody pushes yet."""
    forbidden = pick(seed, "verdict", WITH_VERDICT) == 0
    study = next(s for s in school.sites(seed) if open_to_push(s) and len(ways_in(s)) >= 2)
    if forbidden:
        study = school.forbidden(study, SIGNS[pick(seed, "sign", len(SIGNS))])
    return of_site(study, seed)


def of_site(study: Study, seed: int) -> Drill:
    """The drill of one site."""
    leaders = ways_in(study)
    best = leaders[0]
    options = [_option(study, outcome, best) for outcome in leaders]
    options.append(_not_yet(study, best))
    if verdicts(study):
        options[-1] = Option(_NOT_YET, 0.0, why=tuple(cause(verdicts(study)[0])))
    ordered = tuple(options[i] for i in shuffled(seed, "opening", len(options)))
    hint = "Count the turns and think which way the branches are swept; far and straight beats near and bent."
    if verdicts(study):
        hint = "Read what is told of the line before you look at the openings."
    asks = (Ask("Which opening do you go in at?", ordered, hint),)
    return Drill("opening", seed, best.route.opening.name, story(study, leaders), asks)


def ways_in(study: Study) -> list[RouteOutcome]:
    """The best way in by each opening that shows the whole target, best first."""
    found: dict[str, RouteOutcome] = {}
    for ranked in study.ranked:
        if ranked.outcome.route.covers >= 1:
            found.setdefault(ranked.outcome.route.opening.id, ranked.outcome)
    return list(found.values())[:MOST]


def _option(study: Study, outcome: RouteOutcome, best: RouteOutcome) -> Option:
    own, least = score(outcome, study.tables), score(best, study.tables)
    unsafe = ""
    for firing in verdicts(study):
        told = firing.conclusion.caution
        unsafe = unsafe or (told.text if told else firing.because)
    return Option(
        way_words(study, outcome),
        float(own.mean() - least.mean()),
        doubt(own, least, np.ones(study.worlds)),
        best.chance - outcome.chance,
        _why(study, outcome, best),
        unsafe,
    )


def _why(study: Study, outcome: RouteOutcome, best: RouteOutcome) -> tuple[str, ...]:
    """Cause at the place that stops it, then the terms in minutes that set it apart from the best."""
    stop = stopped(outcome, study.reader)
    lines: list[str] = []
    hardest = outcome.hardest
    fired = [f for r in (hardest.rulings if hardest else ()) for f in r.firings]
    troubles = [f for f in fired if f.outcome and f.rule.conclusion.troubles]
    if outcome.chance < study.drawn.likely("likely_share"):
        at_hole = stop.passage == "the opening itself"
        lines.append(f"It most often ends at: {stop.passage}{f' ({stop.why})' if at_hole else ''}.")
        troubles = [] if at_hole else troubles
    if troubles:
        lines += cause(troubles[0])
    lines.append(f"It sees the target in {outcome.chance:.0%} of the cases.")
    if outcome is not best:
        own, least = minute_terms(study, outcome), minute_terms(study, best)
        gaps = sorted(((own[key] - least[key], key) for key in own), key=lambda gap: -abs(gap[0]))
        lines += [f"{key}: {gap:+.0f} min against the best" for gap, key in gaps if abs(gap) >= 1]
    return tuple(lines)


def _not_yet(study: Study, best: RouteOutcome) -> Option:
    failing = study.tables.costs["failing"].likely
    least = score(best, study.tables)
    why = ("Nothing here forbids a push: it drains, no gas, no cleaner. Waiting costs the job.",)
    return Option(
        _NOT_YET, failing - float(least.mean()), doubt(np.full_like(least, failing), least,
        np.ones(study.worlds)), best.chance, why,
    )  # fmt: skip
