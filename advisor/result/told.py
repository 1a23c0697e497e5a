"""What is told before anything is opened: each hazard once, what to ask, how openings are opened."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from advisor.result.model import AskNote, AssumedNote, CautionNote, OpenNote, Plan, RouteNote, Stopped
from advisor.result.way_model import FoundNote, MetStopNote
from advisor.rulebase.rule import GRAVEST_FIRST

_NAMED = 3  # layout: of a sentence; of more it tells how many, and the list of openings has them all
_ONE_PLACE = 0.05  # m; layout: a stop and its row, read by the same counter


def few(names: Iterable[str]) -> str:
    """Names in a sentence, the first of them where they are many."""
    told = list(names)
    more = [f"and {len(told) - _NAMED} more"] if len(told) > _NAMED else []
    return " ".join((", ".join(told[:_NAMED]), *more))


def first_told(plan: Plan) -> tuple[str | None, ...]:
    """What stands before all else of a plan, in order: where nobody pushes before something is done or known,
    that comes before what was seen."""
    step = (plan.first_step, *plan.seen.told) if plan.until else (*plan.seen.told, plan.first_step)
    return (*plan.left_in, *step, plan.doubt, plan.out)


def each_once(notes: Iterable[CautionNote]) -> tuple[CautionNote, ...]:
    """Each hazard in its gravest word, in the order in which they come."""
    found: dict[str, CautionNote] = {}
    for note in notes:
        kept = found.get(note.id)
        if kept is None or GRAVEST_FIRST.index(note.word) <= GRAVEST_FIRST.index(kept.word):
            found[note.id] = note
    return tuple(found.values())


def cautions_told(plan: Plan, ways: Sequence[RouteNote]) -> tuple[CautionNote, ...]:
    """Of the site, of these ways in, and of what is opened besides."""
    of_ways = (note for way in ways for note in way.cautions)
    return each_once((*plan.cautions, *of_ways, *(note for each in plan.to_open for note in each.cautions)))


def asks_told(plan: Plan, ways: Sequence[RouteNote]) -> tuple[AskNote, ...]:
    """What nobody has said of the same, each hazard once."""
    found: dict[str, AskNote] = {}
    of_ways = (note for way in ways for note in way.ask)
    for note in (*plan.ask, *of_ways, *(note for each in plan.to_open for note in each.ask)):
        found.setdefault(note.caution.id, note)
    return tuple(found.values())


def found_on(plan: Plan, way: RouteNote) -> tuple[FoundNote, ...]:
    """What pushes of the job met on a way, the nearest first; what held one with the chance to pass it."""
    told = _found_on(plan, way)
    notes = [note for note in told if not note.counted or any(_one_place(note, each) for each in way.stops)]
    for stop in way.stops:
        near = (each for each in notes if _one_place(each, stop))
        row = min(near, key=lambda each: abs(each.at_m - stop.at_m), default=None)
        if row is None:
            notes.append(_row_of(stop, way))
        else:
            notes[notes.index(row)] = row.model_copy(update={"do": f"{row.do} {stop.says}", "mild": False})
    return _in_one(sorted(notes, key=lambda note: note.at_m))


def _one_place(note: FoundNote, stop: MetStopNote) -> bool:
    return abs(note.at_m - stop.at_m) < _ONE_PLACE


def _in_one(notes: Sequence[FoundNote]) -> tuple[FoundNote, ...]:
    """What was met at one place as one row, the strictest: of two, one may be all that is read, or all that
    finds room."""
    rows: list[FoundNote] = []
    for note in notes:
        if not rows or note.at_m - rows[-1].at_m >= _ONE_PLACE:
            rows.append(note)
            continue
        strict, other = sorted((rows[-1], note), key=_strictness, reverse=True)
        # "Slowly, no blow" is told by "Slowly, no blow, not into it" as well.
        more = (each for each in _sentences(other.do) if each.rstrip(".") not in strict.do)
        met = (each for each in other.see.split("; ") if each not in strict.see.split("; "))
        rows[-1] = strict.model_copy(
            update={
                "see": "; ".join((strict.see, *met)),
                "do": " ".join((strict.do, *more)),
                "said": (*strict.said, *other.said),
                "desk": " ".join(filter(None, (strict.desk, other.desk))),
            }
        )
    return tuple(rows)


def _strictness(note: FoundNote) -> tuple[bool, ...]:
    return note.not_past, bool(note.first), note.not_into, not note.mild


def _sentences(told: str) -> list[str]:
    return re.split(r"(?<=[.?!])\s", told)


def _row_of(stop: MetStopNote, way: RouteNote) -> FoundNote:
    return FoundNote(
        opening=way.opening,
        ports=(way.leaves,),
        at_m=stop.at_m,
        at_low_m=stop.at_low_m,
        what=stop.see,
        see=stop.see,
        do=f"{stop.do} {stop.says}",
        missed=stop.missed,
        not_past=False,
        left="",
    )


def _found_on(plan: Plan, way: RouteNote) -> tuple[FoundNote, ...]:
    """What they saw on it.

    Where it ends at one of them, nobody goes on because another did not come into view so far in; what lies
    behind it has no row, but for what is not to be passed either.
    """
    notes, end, bar = _lie_on(plan, way), way.ended, ended_at(plan, way)
    if end is None or bar is None:
        return notes
    return tuple(
        note if note.not_past or note.at_m < end.at_low_m else note.model_copy(update={"missed": bar.missed})
        for note in notes
        if note.not_past or note.at_m <= end.at_high_m
    )


def ended_at(plan: Plan, way: RouteNote) -> FoundNote | None:
    """Which of them ends it."""
    end, on_it = way.ended, _lie_on(plan, way)
    return next((note for note in on_it if end and note.not_past and note.at_m == end.at_m), None)


def found_elsewhere(plan: Plan, way: RouteNote | None) -> tuple[FoundNote, ...]:
    """And what they saw on others: it may lie in the same pipe."""
    gear = way.loadout.name if way is not None else ""
    return tuple(
        note for note in plan.found if note.left and (way is None or not note.lies_on(*way.led, gear))
    )


def _lie_on(plan: Plan, way: RouteNote) -> tuple[FoundNote, ...]:
    on_it = (note for note in plan.found if note.lies_on(*way.led, way.loadout.name))
    no_guide = way.loadout.guide is None
    return tuple(
        note.model_copy(update={"do": note.bare}) if no_guide and note.bare else note for note in on_it
    )


_WHERE_TO = {"with": "downstream", "against": "upstream", "both": "down, then up"}


def way_called(way: RouteNote | Stopped, ways: Sequence[RouteNote | Stopped]) -> str:
    """The opening of a way, with where the rod goes from there if another of the ways goes elsewhere."""
    others = {each.direction for each in ways if each.opening == way.opening}
    return f"{way.opening} ({_WHERE_TO[way.direction]})" if way.direction and len(others) > 1 else way.opening


def assumed_near(plan: Plan, way: RouteNote) -> list[AssumedNote]:
    """What was assumed of one way in: of its lines, its opening and its kit."""
    gear = (way.loadout.head, way.loadout.spring, way.loadout.rod, way.loadout.guide)
    names = {run.line for run in way.runs} | {way.opening} | {name for name in gear if name}
    return [note for note in plan.assumed if any(name in note.about for name in names)]


def opening_steps(to_open: Sequence[OpenNote]) -> list[tuple[str, tuple[str, ...]]]:
    """How openings are opened, those that are opened alike together."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for note in to_open:
        if note.steps:
            alike.setdefault(note.steps, []).append(note.opening)
    return [(" or ".join(names), steps) for steps, names in alike.items()]
