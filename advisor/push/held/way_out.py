"""How to get a held head out again: the pull it should take, the pull never to pass, and what may help."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from advisor.outcome.facts import safe_pull
from advisor.outcome.forces import march_route
from advisor.outcome.geometry import Geometry
from advisor.push.held.freeing import WATER, first_that_fits
from advisor.push.now.course import Course, Met
from advisor.quantity import Dimension, show, show_reading
from advisor.tables.stuck import StuckFile
from advisor.tables.where import number
from advisor.worlds.spread import below, middle

_NOTHING: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True)
class WayOut:
    """Pulls in N; `rims` are places behind the head, m from the hand, whose rim faces it on the way back."""

    pull: float
    pull_high: float
    limit: float
    ask_from: float
    rims: tuple[tuple[str, float], ...]
    water: bool | None
    steps: tuple[str, ...]


def way_out(
    course: Course,
    met: Met | None,
    at: float,
    water: bool | None,
    barred: Mapping[str, str] = _NOTHING,
    folded: bool = False,
    kinked: bool = False,
    watched: str = "",
) -> WayOut:
    """The way back from a hard spot, or from `at` m in on the wanted route where none was foreseen.

    `water` is whether it may be run: yes, no, or first to be seen (None). `barred` are the techniques that no
    step may be made of, with the reason. How water is `watched`, where anything was known to back up.
    """
    study = course.study
    drawn, kit = study.drawn, study.drawn.kit(course.loadout)
    outcome = met.outcome if met else course.wanted
    tell = study.tables.stuck.tell
    limit = safe_pull(drawn, course.loadout) * (number(tell.kinked_pull) if kinked else 1)
    pull = high = 0.0
    rims: list[tuple[str, float]] = []
    if outcome is not None:
        stations = outcome.march.stations
        behind = [i for i, each in enumerate(stations) if middle(each.at) <= at + 1e-6]
        last = met.hard.index if met else (behind[-1] if behind else 0)
        passages, shapes = outcome.route.passages[: last + 1], list(outcome.geometries[: last + 1])
        pulls = march_route(passages, shapes, drawn, kit).pull
        if met is None:  # of the last of them only so much of the rod lies in there
            before = (
                march_route(passages[:-1], shapes[:-1], drawn, kit).pull if last else np.zeros_like(pulls)
            )
            begins, ends = (middle(each.at) for each in (*stations, outcome.march.end)[last : last + 2])
            inside = min((at - begins) / (ends - begins), 1.0) if ends > begins else 1.0
            pulls = before + max(inside, 0.0) * (pulls - before)
        pull, high = middle(pulls), below(pulls, 0.9)
        rims = [
            (shape.passage.piece.name, middle(station.at))
            for shape, station in zip(shapes, stations, strict=False)
            if _rim_behind(shape) > drawn.likely("notable_share")
        ]
    way = WayOut(pull, high, limit, number(tell.hard_pull) * limit, tuple(rims), water, ())
    return replace(way, steps=_steps(way, course, barred, watched, folded, kinked))


def _rim_behind(shape: Geometry) -> float:
    return float(np.mean(np.asarray(shape.ledge_back) < 1))


def rim_step(name: str, at: float, barred: Mapping[str, str], course: Course) -> str:
    """What to do where a rim faces the head on the way back, `at` m from the hand."""
    step = first_that_fits(course.study.tables.stuck.way_out.rim, barred)
    return step.format(reading=show_reading(at, course.study.units), name=name)


def _steps(
    way: WayOut,
    course: Course,
    barred: Mapping[str, str],
    watched: str = "",
    folded: bool = False,
    kinked: bool = False,
) -> tuple[str, ...]:
    table, units = course.study.tables.stuck, course.study.units

    def force(newtons: float) -> str:
        return show(newtons, Dimension.FORCE, units)

    steps = ["Stop pushing. Mark the rod at the opening with tape."]
    if kinked:
        steps.append(course.study.tables.in_pipe.kinked.pull)
    if folded:
        steps.append("Draw back slowly and watch: doubled rod straightens only if it has room.")
    if way.pull_high > 0:
        most = f", at most {force(way.pull_high)}."
        if way.pull_high > way.ask_from:
            most = f", perhaps more than {force(way.ask_from)}: see below before that."
        if way.pull > way.ask_from:
            most = f". That is more than {force(way.ask_from)}: see below first."
        steps.append(f"Draw back by hand, evenly. It should take about {force(way.pull)}{most}")
    else:
        steps.append("Draw back by hand, gently and evenly.")
    steps += [rim_step(name, at, barred, course) for name, at in way.rims]
    steps += [first_that_fits(rows, barred) for rows in (table.way_out.holds, table.way_out.string)]
    steps.append(_water_words(way.water, barred.get(WATER), table, watched))
    steps.append(
        f"Before any pull over {force(way.ask_from)}: stop and tell the owner what may break "
        "or stay in the pipe. Go on only with their clear yes."
    )
    steps.append(
        f"Never pull more than {force(way.limit)}. "
        "Never a winch, a truck or a lever: what breaks stays in there."
    )
    steps.append(table.way_out.stays)
    return tuple(steps)


def _water_words(water: bool | None, barred: str | None, table: StuckFile, watched: str) -> str:
    if water and barred is not None:
        return table.way_out.no_water.format(why=barred)
    if water:
        says = "A little water run behind it wets it. The line drains; stop at once if it rises."
        return f"{says} {watched}".rstrip()
    if water is False:
        return "No water: it must not be run in this line now."
    until = "No water until you have seen that the line drains and know that no cleaner was poured in."
    # Whoever has seen that it drains must not take it that water is free then.
    return until if barred is None else f"{until} {table.way_out.nor_then.format(why=barred)}"
