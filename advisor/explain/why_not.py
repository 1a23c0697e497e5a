"""Why not: the terms in minutes that set a route apart from the leader, or the conditions that ruled out a
technique, and by how much."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from advisor.explain.how import minute_terms
from advisor.explain.reason import Reason, Story, of_rule
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import NO_TRY
from advisor.quantity import MINUTE
from advisor.ranking.order import begun_with
from advisor.ranking.settle import option_of
from advisor.result.attempts import next_note, next_words
from advisor.result.chances import chance_words
from advisor.result.routes import stopped
from advisor.result.spots import place_name
from advisor.result.stops import stop_words
from advisor.result.study import Study


def why_not_route(study: Study, outcome: RouteOutcome, ended: Collection[str] = ()) -> Story:
    """Why a route does not lead; of the routes that `ended` at what a push met no chance is told."""
    leader = study.ranked[0].outcome
    name, first = outcome.route.opening.name, leader.route.opening.name
    if name == first and outcome is not leader:  # it is the gear that differs
        name, first = (f"{each.route.opening.name} with {each.loadout.name}" for each in (outcome, leader))
    if outcome.shut:  # no minutes of an opening into which nothing goes are worth telling
        text = f"{name} is left out"
        why = stop_words(stopped(outcome, study))
        return Story(about=text, story=(why,), tree=Reason(text=f"{text}: {why}", of="rule"))
    if outcome is leader:
        text = f"{name} does lead"
        others = dict.fromkeys(r.outcome.route.opening.name for r in study.ranked)
        others.pop(name)
        ask = (f"Ask about another, by its name: {', '.join(others)}",) if others else ()
        return Story(about=text, story=ask, tree=Reason(text=text, of="chance"))
    own, best = minute_terms(study, outcome), minute_terms(study, leader)
    terms = sorted(((own[key] - best[key], key) for key in own), reverse=True)
    under = [
        Reason(text=f"{key}: {gap:+.0f} minutes against {first}", of="minutes", value=gap)
        for gap, key in terms
    ]
    total = sum(gap for gap, _ in terms)
    stops = f"what stops it: {stop_words(stopped(outcome, study))}"
    words = chance_words(study)
    if outcome.chance >= words.likely and _shown(outcome) >= _shown(leader):
        # What rarely ends it ends the other as often: that is not why it does not lead.
        stops = f"nothing stops it oftener than {first}: getting there is {words.say(outcome.chance)}"
    under.append(Reason(text=stops, of="chance"))
    if outcome.route.covers < 1:
        under.insert(0, Reason(text=f"one push shows {outcome.route.covers:.0%} of the target", of="chance"))
    nexts = (next_note(place, study, ended) for place in range(len(study.settled.attempts)))
    told = [note for note in nexts if note and name in [each.opening for each in note.worth]]
    then = [next_words(note, words) for note in told[:1]]
    text = f"{name}{' by itself' if then else ''} costs {total:+.0f} minutes against {first}"
    if total < 0:
        text = (
            f"{name} by itself costs {-total:.0f} minutes less than {first}; first in "
            f"the order, with the others after it, {_first(study, outcome):.0f} minutes more"
        )
    elif round(total) == 0:
        text = f"{name} is as good as {first}: less than a minute apart"
    under += [Reason(text=each, of="chance") for each in then]
    least = study.drawn.likely("least_minutes") / MINUTE
    story = [f"{key}: {gap:+.0f} minutes" for gap, key in terms if gap > least][: 1 if then else 2]
    return Story(
        about=text,
        story=(*story, stops, *then),
        tree=Reason(text=text, of="minutes", value=total, under=tuple(under)),
    )


def _shown(outcome: RouteOutcome) -> int:
    """The chance to see all of it, as a reader tells two apart."""
    return round(100 * outcome.chance)


def _first(study: Study, outcome: RouteOutcome) -> float:
    """What the best order that begins with a route costs over the one that was found, min."""
    whole = [r.outcome for r in study.ranked if r.outcome.route.covers >= 1]
    options = [option_of(o) for o in whole if o.chance >= study.drawn.likely("least_chance")]
    failing, most = study.tables.costs["failing"].likely, round(study.drawn.likely("most_openings"))
    begun = begun_with(option_of(outcome), options, failing, np.ones(study.drawn.worlds.n), most)
    return begun.minutes - study.settled.order.minutes


def why_not_technique(study: Study, outcome: RouteOutcome, index: int, technique: str) -> Story:
    """Why a technique is not tried, or not first, at a hard spot."""
    hard = outcome.spots[index]
    place = place_name(hard, study.reader)
    ruled_out = [r.rejected[technique] for r in hard.rulings if technique in r.rejected]
    if ruled_out:
        under = tuple(of_rule(firing) for firing in ruled_out)
        text = f"{technique} is ruled out at {place}"
        story = tuple(dict.fromkeys(firing.because for firing in ruled_out))[:3]
        return Story(about=text, story=story, tree=Reason(text=text, of="rule", under=under))
    order = [name for name, _ in hard.order]
    if technique in NO_TRY:
        text = f"{technique} is no try of its own at {place}: it is a habit, another kit or another way"
        return Story(about=text, story=(), tree=Reason(text=text, of="rule"))
    stuck = hard.spot.plain.stuck

    def per_chance(name: str) -> tuple[float, float, float]:
        chance, minutes = hard.tries[name].worth(hard.chance(name), stuck)
        return chance, minutes, minutes / max(chance, 1e-6)

    chance, minutes, ratio = per_chance(technique)
    did = hard.came_of(technique) or f"{chance:.0%} a try for {minutes:.0f} minutes"
    called = f"{technique} comes first" if order[1:2] == [technique] else technique
    under_list = [Reason(text=f"{called}: {did}", of="minutes", value=chance)]
    story_list = [under_list[0].text]
    least = study.tables.limits["worth_trying"].likely
    if technique not in order:
        story_list.append(
            f"less than {least:.0%} a try is not worth the minutes"
            if chance < least
            else "more tries here cost more minutes than going elsewhere"
        )
    # What hardly ever passes costs no minutes a pass that are worth telling.
    for name in order[1:] if chance >= least else ():
        if name == technique:
            break
        other, cost, other_ratio = per_chance(name)
        gap = ratio - other_ratio
        text = f"{other:.0%} a try for {cost:.0f} minutes, {gap:.0f} minutes less a pass"
        came = hard.came_of(name) or (hard.came_of(technique) and f"{technique} {did}")
        text = f"{name} comes first: {came or text}"
        under_list.append(Reason(text=text, of="minutes", value=other))
        story_list.append(text)
    text = f"{technique} at {place}"
    return Story(
        about=text, story=tuple(story_list[:3]), tree=Reason(text=text, of="minutes", under=tuple(under_list))
    )
