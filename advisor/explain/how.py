"""How a conclusion came about: a route's chance, a hard spot, down to tables and mechanics."""

from __future__ import annotations

import numpy as np

from advisor.evidence import ASSUMED
from advisor.explain.reason import Reason, Story, of_belief, of_rule
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.opens import opens_share
from advisor.outcome.walk import HardSpot
from advisor.quantity import Dimension, Known, never_certain, show
from advisor.result.ends import BREAK, EARLIER, LENGTH, OPENING, ends_of
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.result.why_hard import reasons
from advisor.worlds.spread import middle


def how_route(study: Study, outcome: RouteOutcome) -> Story:
    """How the chance and the minutes of a route came about."""
    units, walk = study.units, outcome.walk
    opens = float(walk.survive[0].mean())
    arrives = float((outcome.march.reach >= outcome.march.end.at).mean())
    spots = [_spot(study, outcome, index) for index in range(len(outcome.spots))]
    # A reader wants what costs most: the steps that lose the most cases, the worst first.
    ends = ends_of(outcome, study.reader)
    ended = {end.where: end.share for end in ends if end.spot is None}
    broken = ended.get(BREAK, 0.0)
    held = f"the pipe may be broken, anywhere on the way: that ends {broken:.0%} of the pushes"
    breaks = (Reason(text=held, of="chance", value=broken),) if broken else ()
    met = tuple(
        Reason(
            text=f"{end.why}: {end.share:.0%} of the pushes, by what came of it there",
            of="chance",
            value=end.share,
        )
        for end in ends
        if end.where == EARLIER
    )
    reach = show(middle(outcome.march.reach), Dimension.LENGTH, units)
    length = show(middle(outcome.march.end.at), Dimension.LENGTH, units)
    parts = (
        Reason(
            text=f"the opening opens in {opens:.0%} of the cases",
            of="chance",
            value=opens,
            under=_opening(study, outcome),
        ),
        *spots,
        Reason(
            text=f"the way is {length}; in the middle case the push lasts {reach}; "
            f"it lasts all the way in {arrives:.0%}, were nothing else to hold the head",
            of="mechanics",
            value=arrives,
            under=_push(study, outcome),
        ),
        _minutes(study, outcome),
        *breaks,
        *met,
        *(of_rule(f) for f in outcome.route_firings if f.outcome and f.rule.conclusion.troubles),
    )
    text = (
        f"{outcome.route.opening.name} with {outcome.loadout.name} sees the target in "
        f"{never_certain(outcome.chance):.0%} of {study.worlds:,} cases, "
        f"in {float(walk.minutes.mean()):.0f} minutes on average"
    )
    if never_certain(outcome.chance) < outcome.chance:
        text += " (more by what is drawn, but no push is certain)"
    tree = Reason(text=text, of="chance", value=outcome.chance, under=parts)
    losses = [
        (ended.get(OPENING, 0.0), parts[0].text),
        (ended.get(LENGTH, 0.0), parts[1 + len(spots)].text),
        *((broken, each.text) for each in breaks),
        *((each.value or 0.0, each.text) for each in met),
        *((end.share, spots[_place(outcome, end.spot)].text) for end in ends if end.spot is not None),
    ]
    story = [
        words for loss, words in sorted(losses, reverse=True) if loss > study.drawn.likely("least_loss")
    ][:3]
    nothing = (*(each.text for each in (*breaks, *met)), "nothing on the way is hard for this kit")[:1]
    return Story(about=text, story=tuple(story) or nothing, tree=tree)


def _place(outcome: RouteOutcome, spot: HardSpot) -> int:
    return next(index for index, each in enumerate(outcome.spots) if each is spot)


def how_spot(study: Study, outcome: RouteOutcome, index: int) -> Story:
    """How a hard spot was judged."""
    tree = _spot(study, outcome, index)
    story = [each.text for each in tree.under if each.of.startswith("rule")][:3]
    return Story(about=tree.text, story=tuple(story) or (tree.text,), tree=tree)


def how_technique(study: Study, outcome: RouteOutcome, index: int, technique: str) -> Story:
    """How a technique that is tried at a hard spot was judged: its chance, what it has to come past there."""
    hard = outcome.spots[index]
    tried = _try(hard, technique, dict(hard.order)[technique])
    asks = [r.required[technique] for r in hard.rulings if technique in r.required]
    under = (*(of_rule(each) for each in asks), *_spot(study, outcome, index).under)
    came = hard.came_of(technique)
    words = [tried.text, *([f"{technique} {came}"] if came else [])]
    words += [each.text for each in under if each.of.startswith("rule")]
    text = f"{technique} at {place_name(hard, study.reader)}"
    return Story(
        about=text,
        story=tuple(dict.fromkeys(words))[:3],
        tree=Reason(text=text, of="chance", value=tried.value, under=(tried, *under)),
    )


def _spot(study: Study, outcome: RouteOutcome, index: int) -> Reason:
    hard = outcome.spots[index]
    plain, whole = float(hard.spot.plain.passes.mean()), float(hard.with_techniques.mean())
    rules = tuple(of_rule(each.firing).model_copy(update={"text": each.say()}) for each in reasons(hard))
    tries = tuple(_try(hard, name, count) for name, count in hard.order)
    return Reason(
        text=f"{place_name(hard, study.reader)}: a gentle push passes {plain:.0%}, all that pays {whole:.0%}",
        of="chance",
        value=whole,
        under=(*rules, *_margins(study, hard), *tries),
    )


def _try(hard: HardSpot, name: str, count: int) -> Reason:
    stuck = hard.spot.plain.stuck if name != hard.order[0][0] else np.ones_like(hard.spot.plain.passes)
    chance = float((hard.chance(name) * stuck).sum() / max(float(stuck.sum()), 1e-6))
    attempt = hard.tries[name]
    return Reason(
        text=f"{name}: {chance:.0%} a try, {attempt.minutes:.0f} minutes each and "
        f"{attempt.set_up_minutes:.0f} to set up, at most {count}",
        of="minutes",
        value=chance,
    )


def _margins(study: Study, hard: HardSpot) -> tuple[Reason, ...]:
    """The mechanics with their numbers, and under them the table values that they rest on."""
    shape, units = hard.spot.shape, study.units
    passage, tables = shape.passage, study.tables
    wall = passage.wall_out
    material, nominal = wall.material.likeliest, wall.nominal.value
    condition = wall.condition.likeliest
    values = [
        of_belief(f"material of {wall.id}", wall.material, Dimension.COUNT, units),
        of_belief(f"sound bore of {material}", tables.bore(material, nominal), Dimension.LENGTH, units),
        of_belief(
            f"share of it left, {condition}", tables.bore_factor(material, condition), Dimension.SHARE, units
        ),
        of_belief(
            f"friction of rod on {material}",
            tables.friction(material, condition, study.drawn.wet),
            Dimension.COUNT,
            units,
        ),
    ]
    if passage.piece.fitting is not None and passage.step is None:
        values.append(of_belief("what it may be", passage.piece.fitting, Dimension.COUNT, units))
    told = {
        "bore over head": shape.fits,
        "longest head that turns over this head": shape.rigid,
        "curve of the rod over its smallest": shape.rod_radius,
        "slide over the rim": shape.ledge,
        "gap between roots over head": shape.gap,
    }
    reasons = []
    for words, margin in told.items():
        usual = middle(np.asarray(margin))
        if np.isfinite(usual):
            short = float((np.asarray(margin) < 1).mean())
            text = f"{words}: {usual:.2f} in the middle case, too little in {short:.0%} of the cases"
            reasons.append(Reason(text=text, of="mechanics", value=usual, under=tuple(values)))
    force = middle(hard.spot.station.force)
    left = show(max(force, 0.0), Dimension.FORCE, units)
    reasons.append(Reason(text=f"push left there: {left}", of="mechanics", value=force, under=tuple(values)))
    return tuple(reasons)


def _push(study: Study, outcome: RouteOutcome) -> tuple[Reason, ...]:
    limits, units = study.tables.limits, study.units
    rod = outcome.loadout.rod
    return (
        of_belief("sustained push of a hand", limits["push_force"], Dimension.FORCE, units),
        of_belief("push wanted at the tip", limits["tip_force"], Dimension.FORCE, units),
        of_belief("coiling factor", limits["helical_factor"], Dimension.COUNT, units),
        of_belief(f"core of {rod.name}", rod.core, Dimension.LENGTH, units),
        of_belief(f"rod on {rod.name}", rod.length, Dimension.LENGTH, units),
    )


def _opening(study: Study, outcome: RouteOutcome) -> tuple[Reason, ...]:
    hole = outcome.route.opening.hole
    assert hole is not None
    before = " that was opened before" if hole.opened else ""
    share = opens_share(hole, study.tables)
    opens = of_belief(f"a {hole.kind}{before} opens", share, Dimension.SHARE, study.units)
    if hole.there == 1:
        return (opens,)
    return (of_belief("there is one", Known(hole.there, ASSUMED), Dimension.SHARE, study.units), opens)


def _minutes(study: Study, outcome: RouteOutcome) -> Reason:
    under = tuple(
        Reason(text=f"{words}: {minutes:.0f}", of="minutes", value=minutes)
        for words, minutes in minute_terms(study, outcome).items()
    )
    total = sum(each.value or 0.0 for each in under)
    return Reason(text=f"minutes in all: {total:.0f}", of="minutes", value=total, under=under)


def minute_terms(study: Study, outcome: RouteOutcome) -> dict[str, float]:
    """The terms of a route's score in minutes; they add up to its score."""
    walk = outcome.walk
    failing = study.tables.costs["failing"].likely
    opening, pushing = float(walk.opening_minutes.mean()), float(walk.pushing_minutes.mean())
    return {
        "opening, closing and cleaning up": opening,
        "pushing in and drawing back": pushing,
        "tries at hard spots": float(walk.minutes.mean()) - opening - pushing,
        "harm to head and rod": float(walk.harm_minutes.mean()),
        "cost of failing": (1 - outcome.chance) * failing,
    }


def shown(reason: Reason) -> str:
    """The reason as one line with its grade and source."""
    tail = ", ".join(part for part in (reason.grade, reason.source) if part)
    return f"{reason.text} [{tail}]" if tail else reason.text
