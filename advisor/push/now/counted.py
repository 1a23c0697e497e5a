"""How far in a push went by its counter and by the lengths of the sheet, where the two are not one."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from advisor.errors import BadInput
from advisor.push.log.kinds import PASSED, PORTS, TRY, UNKNOWN
from advisor.push.log.log import Entry
from advisor.push.log.sighting import Seen
from advisor.push.log.went_in import lens_in, readings_of
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import Run, stretch_of, way_in
from advisor.push.track.depth import path, path_length
from advisor.result.study import Study
from advisor.tables.where import number

# By what the sheet was set against the counter: the operator's word that all was seen, landmarks that were
# passed, or that the sheet draws no pipe as far in.
How = Literal["reached", "passed", "beyond"]

_SAME = 1e-6  # arithmetic: two sums of one reading


@dataclass(frozen=True)
class Apart:
    """A push of which counter and sheet disagree: m in from its opening by each, and how that is known."""

    opening: str
    counter: float
    sheet: float
    how: How


def apart(run: Run, study: Study) -> Apart | None:
    """Where counter and sheet part by more than is told beside the opening; None where they agree."""
    counter = run.went_in
    if counter is None:
        return None
    slack = study.tables.where.sure.may_part(counter)
    ends = _ends(run, study)
    sheet: float | None
    how: How
    # Who went on past what was to be seen ran more counter than the way to it, and nothing is off.
    short = bool(ends) and counter < max(ends.values())
    if ends and run.told_reached and leads_there(run, study) and (short or _nothing_beyond(ends, study)):
        sheet, how = max(ends.values()), "reached"
    elif ends and counter > max(ends.values()) + slack and _past_all(run, ends, study):
        sheet, how = max(ends.values()), "beyond"
    else:
        sheet, how = _by_what_was_passed(run, study), "passed"
    if sheet is None or abs(sheet - counter) <= slack:
        return None
    return Apart(run.opening, counter, sheet, how)


def _ends(run: Run, study: Study) -> dict[float, float]:
    """The way in from the opening to both ends of the target, m, by their place on its line; else nothing."""
    network, target = study.network, study.wanted
    start = way_in(run, network)
    if start is None:
        return {}
    ways = {
        at: path_length(network, study.tables, start, target.line, at) for at in stretch_of(network, target)
    }
    known = {at: way for at, way in ways.items() if way is not None}
    return known if len(known) == len(ways) else {}


def leads_there(run: Run, study: Study) -> bool:
    """Whether the way that it went by what it passed may lead to an end of what was to be seen."""
    network, target = study.network, study.wanted
    start = way_in(run, network)
    if start is None:
        return True  # the sheet has it no more: nothing speaks against it
    ways = (path(network, start.id, target.line, at) for at in stretch_of(network, target))
    known = [way for way in ways if way is not None]
    return not known or any(
        way.leads(network, start, study.tables) in PORTS.get(run.gone or "", PORTS[UNKNOWN]) for way in known
    )


def _past_all(run: Run, ends: dict[float, float], study: Study) -> bool:
    """Whether it was told that the opening leads to the farther end, behind which nothing is drawn."""
    at = max(ends, key=lambda each: ends[each])
    start = way_in(run, study.network)
    way = None if start is None else path(study.network, start.id, study.target.line, at)
    return (
        start is not None
        and way is not None
        and run.told_to(way.leads(study.network, start, study.tables))
        and _nothing_beyond(ends, study)
    )


def _nothing_beyond(ends: dict[float, float], study: Study) -> bool:
    """Whether the farther end of the target is the end of all that is drawn there."""
    network, line = study.network, study.wanted.line
    pieces, far = network.lines[line], max(ends, key=lambda at: ends[at])
    last, port = (pieces[0], "up") if far == min(ends) else (pieces[-1], "down")
    edge = network.positions(line)[last] + (network.pieces[last].along if port == "down" else 0.0)
    return abs(edge - far) < study.drawn.likely("same_place") and (last, port) not in network.links


def _by_what_was_passed(run: Run, study: Study) -> float | None:
    now = at_farthest(run, study)
    if now is None or not any(isinstance(sighting, Seen) for sighting in now.sightings):
        return None  # nothing was passed that tells
    # Where it is not sure on which line the head was, a mean over several is no place.
    if now.off_map or now.fix.best.chance < number(now.push.tracker.chart.where.sure.name_two_below):
        return None
    return now.along if now.apart else None


def at_farthest(run: Run, study: Study) -> Now | None:
    """The push as it stood where it was farthest in; None where the sheet has its opening no longer."""
    told, lens = run.entries[1:], lens_in(run.entries)
    rods = {number: read.inside for number, read in readings_of(run.entries).items()}
    at = ((i, each.get(entry.number)) for i, entry in enumerate(told) for each in (rods, lens))
    far = -inf if run.went_in is None else run.went_in
    last = max((i for i, inside in at if inside is not None and abs(inside - far) < _SAME), default=-1)
    return _as_it_stood(run, told[: last + 1], study)


def at_entry(run: Run, entry: Entry, study: Study) -> Now | None:
    """The push as it stood once that was told; None where the sheet has its opening no longer."""
    return _as_it_stood(run, run.entries[1 : run.entries.index(entry) + 1], study)


def ran_across_in(run: Run, study: Study) -> dict[int, str]:
    """The tries told as passed by which the head ran straight across a double fitting, and into what."""
    passed = any(entry.kind == TRY and entry.data.get("outcome") == PASSED for entry in run.entries)
    now = _as_it_stood(run, run.entries[1:], study) if passed else None
    return {} if now is None else now.astray


def _as_it_stood(run: Run, entries: tuple[Entry, ...], study: Study) -> Now | None:
    try:
        return Now(Push(study, run.started), entries)
    except BadInput:
        return None
