"""Whether a push gets there, for the front; behind it what to open when not, and how that was found."""

from __future__ import annotations

from advisor.card.content import KEPT, Line
from advisor.quantity import Dimension, Units, show, show_reading
from advisor.result.model import Plan, RouteNote
from advisor.result.readings import AT_OPENING, at_opening


def gets_there(plan: Plan, route: RouteNote, target: str) -> str:
    """Of what the `target` is a part, and the chance of the whole push; nothing where none is told."""
    share = plan.target.told.removeprefix(target) if target else ""
    return f"{share}{_chance(plan, route, f'{target}{share}')}"


def _chance(plan: Plan, route: RouteNote, target: str) -> str:
    """The chance of the whole push, behind the words of its `target`."""
    if route.ended:
        return ""
    say = plan.chance_words.say
    chance = f"{route.covers:.0%} of it {say(route.part_chance)}" if route.covers < 1 else say(route.chance)
    # Behind another share it would be taken for more of that.
    return f". Getting there: {chance}" if target.endswith(")") else f", {chance}"


def fallback_lines(plan: Plan, route: RouteNote) -> tuple[Line, ...]:
    """What the order of attempts has after this way, in its own words."""
    say = plan.chance_words.say
    told = (
        f"{step.opening}, {step.loadout}" + ("" if step.chance is None else f": {say(step.chance)}")
        for step in plan.attempts
        if (step.opening, step.loadout) != (route.opening, route.loadout.name)
    )
    return tuple(Line(text, KEPT) for text in told)


def chance_lines(plan: Plan, route: RouteNote, units: Units) -> tuple[Line, ...]:
    """From the opening to the far end: what each hard spot leaves of the chance."""
    say = plan.chance_words.say
    found = [
        f"{AT_OPENING if at_opening(p) else show_reading(p.at_m, units)}, {p.name}: "
        f"gently {say(p.chance_plain)}, with all {say(p.chance)}"
        for p in route.passages
    ]
    reach, length = (show(value, Dimension.LENGTH, units) for value in (route.reach_m, route.length_m))
    found.append(f"In the middle case the push lasts {reach}; the way is {length}.")
    if not route.ended:
        cases = f"over {plan.worlds:,} cases of what is not known"
        found.append(f"To see all of it and come back: {say(route.chance)}, {cases}.")
    if plan.weak:
        found.append("Weak ground: " + "; ".join(plan.weak) + ".")
    return tuple(Line(text, KEPT) for text in found)
