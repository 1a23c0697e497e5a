"""The order of attempts as plain data: what to try after what, and when to leave each."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from advisor.ranking.order import best_order
from advisor.ranking.settle import gear_after, left_after, option_of
from advisor.result.ends import ITSELF, opening_end
from advisor.result.leave import leave_notes
from advisor.result.model import ChanceWords, PassageNote, Plan, RouteNote, TechniqueNote
from advisor.result.order_model import AttemptNote, ComparedNote, NextNote, WorthNote
from advisor.result.study import Study
from advisor.result.way_model import ShutNote, onward_words

_NOT_THERE = "Not there? Say so on the sheet and plan again: another way or part may be worth it."


def attempt_notes(study: Study, ended: Collection[str]) -> tuple[AttemptNote, ...]:
    """The steps of the best order, each with the tries that pay at its hard spots; `ended` are the routes of
    which no chance is told."""
    attempts = study.settled.attempts
    notes, known = [], True
    for place, outcome in enumerate(attempts):
        known = known and outcome.route.id not in ended
        notes.append(
            AttemptNote(
                opening=outcome.route.opening.name,
                loadout=outcome.loadout.name,
                chance=study.settled.order.step_chances[place] if known else None,
                leave=tuple(leave_notes(outcome, attempts[place + 1 :], study)),
                shut=_shut(place, study, ended),
                next=next_note(place, study, ended),
            )
        )
    if study.settled.change is not None:
        gear, chance = study.settled.change
        last = AttemptNote(
            opening=gear.route.opening.name,
            loadout=gear.loadout.name,
            chance=chance if known else None,
            leave=(),
            shut=None,
            next=None,
        )
        notes.append(last)
    return tuple(notes)


def _shut(place: int, study: Study, ended: Collection[str]) -> ShutNote | None:
    """What is left to do where an opening of the order does not open, if it may well not.

    The order goes on where a push has failed, mostly at what stops the next one too. Where nothing was pushed
    another opening may be worth its minutes after all: so it is found anew over the cases that are left.
    """
    settled, drawn = study.settled, study.drawn
    outcome = settled.attempts[place]
    chance = opening_end(outcome).share
    if outcome.way.closed or chance < drawn.likely("notable_share"):
        return None
    tried = {each.route.opening.id for each in settled.attempts[: place + 1]}
    left = 1 - outcome.walk.survive[0].astype(np.float64)
    left = left * left_after(settled.attempts[:place], drawn.worlds.n)
    if not left.any():  # what came before it leaves no case in which anybody stands before it
        return None
    least = drawn.likely("least_chance")
    others = [
        option_of(each.outcome)
        for each in settled.ranked
        if each.outcome.route.covers >= 1
        and each.outcome.chance >= least
        and each.outcome.route.opening.id not in tried
        and each.outcome.route.id not in ended
    ]
    most = round(drawn.likely("most_openings"))
    order = best_order(others, study.tables.costs["failing"].likely, left, most)
    names = {each.route.id: each.route.opening.name for each in study.outcomes}
    onward = names[order.names[0]] if order.names else None
    return ShutNote(
        chance=chance,
        there=outcome.route.opening.hole is not None and outcome.route.opening.hole.there == 1,
        onward=onward,
        onward_chance=order.step_chances[0] if order.names else 0.0,
    )


def next_note(place: int, study: Study, ended: Collection[str]) -> NextNote | None:
    """What an opening of the order is worth beside those that by themselves come before it, if there are any.

    What stopped the push before it mostly stops the same gear in the same pipe: so these may be worth little.
    """
    settled = study.settled
    before, (mine, *_) = settled.attempts[:place], settled.attempts[place:]
    tried = {each.route.opening.id for each in (*before, mine)}
    left = left_after(before, study.drawn.worlds.n)
    if not before or not left.any() or any(each.route.id in ended for each in (*before, mine)):
        return None
    least = study.drawn.likely("least_chance")
    alone = next(each.score for each in settled.ranked if each.outcome is mine)
    geared = gear_after(before, study.usable, study.tables)
    passed_over = [
        geared.get(each.outcome.route.id, each.outcome)
        for each in settled.ranked
        if each.outcome.route.covers >= 1
        and each.outcome.chance >= least
        and each.outcome.route.opening.id not in tried
        and each.outcome.route.id not in ended
        and (each.score < alone or round(100 * each.outcome.chance) > round(100 * mine.chance))
    ]
    worth = tuple(
        WorthNote(
            opening=each.route.opening.name,
            chance=float(np.average(each.reached, weights=left)),
            minutes=float(np.average(each.walk.minutes, weights=left)),
        )
        for each in (mine, *passed_over)
    )
    after = tuple(each.route.opening.name for each in before)
    return NextNote(after=after, worth=worth) if passed_over else None


def next_words(note: NextNote, words: ChanceWords) -> str:
    """Why an opening is next though others by themselves come before it."""
    worth = "; ".join(
        f"{each.opening} {words.say(each.chance)}, {each.minutes:.0f} minutes" for each in note.worth
    )
    why = f"Why {note.worth[0].opening} is next: what stopped one push may stop another."
    return f"{why} Where {' and '.join(note.after)} failed: {worth}."


def listed_words(plan: Plan, shown: int) -> list[str]:
    """By what the openings stand as they do, where their chances and minutes alone do not tell."""
    words, told = plan.chance_words, [each.next for each in plan.attempts if each.next is not None]
    found = [next_words(each, words) for each in told]
    open_ways = (route for route in plan.routes[1:shown] if route.blocked_by != ITSELF)
    if any(not route.ended and route.chance < words.least for route in open_ways):
        last = f"Those that hardly reach it (under {words.least:.0%}) stand last"
        found.append(f"{last}, the likeliest first, whatever their minutes.")
    return found


def compared_notes(study: Study) -> tuple[ComparedNote, ...]:
    """What rules of thumb would cost."""
    names = {outcome.route.id: outcome.route.opening.name for outcome in study.outcomes}
    return tuple(
        ComparedNote(
            rule=rule,
            openings=tuple(names[each] for each in order.names),
            minutes=order.minutes,
            chance=order.chance,
        )
        for rule, order in study.settled.simple.items()
    )


def shut_case(note: ShutNote) -> str:
    """The case that a note of a shut opening is for; of one that is there only that it does not open."""
    return "It does not open" if note.there else "Not there, or it does not open"


def shut_words(plan: Plan, note: ShutNote) -> str:
    """What to do where an opening is not there or does not open.

    Without it the stretches of the drain are others, and so what is gone for: of one that is shut alone it is
    known that nothing is left.
    """
    chance = f", {plan.chance_words.say(note.onward_chance)}" if note.onward else ""
    then = onward_words(note.onward)
    told = f"Do not force it. {then[0].upper()}{then[1:]}{chance}."
    return told if note.there or note.onward else f"{_NOT_THERE} There but shut? {told}"


def doubted(plan: Plan, technique: TechniqueNote) -> str:
    """A technique by its name, with what came of it there before, or a chance that nobody should count on."""
    words, chance = plan.chance_words, technique.chance
    if technique.before:
        return f"{technique.name} ({technique.before})"
    return (
        technique.name
        if chance is None or chance > words.unlikely
        else f"{technique.name}, {words.say(chance)}"
    )


def quick_push_told(route: RouteNote) -> bool:
    """Whether a quick push may be used anywhere on a way."""
    told = (each for note in route.passages for each in note.techniques if each.name == "quick push")
    return any(each.verdict in ("try", "required", "allowed") for each in told)


def to_do(plan: Plan, note: PassageNote) -> list[TechniqueNote]:
    """What to do at a hard spot, in its order; to go elsewhere only where there is an elsewhere."""
    elsewhere = len({each.opening for each in plan.attempts}) > 1
    return [
        each
        for each in note.techniques
        if each.verdict in ("try", "required") and (elsewhere or each.name != "other opening")
    ]
