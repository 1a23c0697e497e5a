"""What is offered at the beginning of a push: openings, the way each leads, and the gear for it."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import DOWN, UP
from advisor.result.before import ruled_out
from advisor.result.build import no_way_in
from advisor.result.gear import stopped_with
from advisor.result.study import Study


def openings(study: Study) -> list[str]:
    """Openings, those of the order of attempts first."""
    first = [each.route.opening.name for each in study.settled.attempts]
    ranked = [each.outcome.route.opening.name for each in study.ranked]
    drawn = [piece.name for piece in study.network.openings()]
    return list(dict.fromkeys((*first, *ranked, *drawn)))


def only_way(study: Study, opening: str) -> str | None:
    """Which way it leads where it can lead one way only: behind a fixture or a roof, with pipe on one side.

    Of a cleanout it is asked whatever is drawn: a plug tells nobody on which side of it pipe lies.
    """
    piece = next(each for each in study.network.openings() if each.name == opening)
    assert piece.hole is not None
    ways = [told for port, told in (("down", DOWN), ("up", UP)) if (piece.id, port) in study.network.links]
    at_an_end = study.tables.openings[piece.hole.kind].place in ("fixture", "roof")
    return ways[0] if at_an_end and len(ways) == 1 else None


def opening_offered(study: Study, opening: str) -> str:
    """An opening as it is offered: with why, where the plan rules it out or has no way in from it."""
    why = ruled_out(study, opening)
    if why is not None:
        return f"{opening} (ruled out: {why[:1].lower()}{why[1:]})"
    none = next((each.why for each in no_way_in(study) if each.opening == opening), None)
    return opening if none is None else f"{opening} (no way in: {none})"


def gear_offered(study: Study, opening: str, names: Sequence[str]) -> tuple[str, dict[str, str]]:
    """What stops all gear alike, told once, and each name as it is offered.

    Where the plan finds that gear rather does not get there, how unlikely it is stands with it, and why: not
    of an opening that is ruled out whatever goes in, which was offered with the reason. What kinked says so
    alone: the plan goes nowhere with it.
    """
    kinked = {each.name for each in study.kit.loadouts if not study.barred.sound(each)}
    out = ruled_out(study, opening) is not None
    stops = {
        name: None if out else stopped_with(study, opening, name) for name in names if name not in kinked
    }
    alike = len({stop and stop[1] for stop in stops.values()}) == 1
    offered, of_all = {f"{name} (rod or spring kinked)": name for name in names if name in kinked}, ""
    for name, stop in stops.items():
        chance, why = stop or ("", "")
        offered[f"{name} ({chance if alike or not why else f'{chance}: {why}'})" if stop else name] = name
        of_all = why if alike else ""
    ordered = {told: name for name in names for told, of in offered.items() if of == name}
    return (f"With any gear: {of_all}." if of_all else ""), ordered


def planned_here(study: Study, opening: str) -> str:
    """Which of the gear that is offered is planned; where none is, where the plan goes in instead."""
    order = list(dict.fromkeys(each.route.opening.name for each in study.settled.attempts))
    if opening in order:
        return "The first is planned."
    instead = f"it goes in at {', then '.join(order)}" if order else "leaving the job undone costs least"
    return f"None is planned here. By the plan {instead}."


def gear_names(study: Study, opening: str) -> list[str]:
    """The kit that may go in, the planned one first, what kinked last; nothing that lies in the drain."""
    there = (each for each in study.kit.loadouts if not study.barred.lies_there(each))
    kit = sorted(there, key=lambda each: not study.barred.sound(each))
    ranked = (*study.settled.attempts, *(each.outcome for each in study.ranked))
    planned = [each.loadout.name for each in ranked if each.route.opening.name == opening]
    return list(dict.fromkeys((*planned, *(each.name for each in kit))))
