"""The pushes of a report: when, from which opening and which way, with what, how far, how it ended."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace

from advisor.errors import BadInput
from advisor.push.before.way_taken import told_way
from advisor.push.log.kinds import AS_PLANNED, END, HAD_OUT, UNKNOWN, UP, WATER
from advisor.push.log.log import entry_text
from advisor.push.log.sighting import lens_at
from advisor.push.log.went_in import Reading, readings_of
from advisor.push.now.counted import at_farthest, leads_there
from advisor.push.now.datum import beside
from advisor.push.now.facing import facing
from advisor.push.now.one_push import Push
from advisor.push.now.seen import Run, way_in
from advisor.push.now.way_gone import doubt_words, mouth_gone
from advisor.push.report.parts import Section
from advisor.push.report.words import lengths, when
from advisor.result.chances import chance_words
from advisor.result.study import Study

_PASSED = "by what was recognized on the way"
_KIND = "by the kind of the opening on the sheet, for nothing on the way was recognized"
_ROD = "only by how far the rod went, for nothing on the way was recognized"


def pushes_section(runs: tuple[Run, ...], study: Study) -> Section:
    """One row a push, and who pushed."""
    rows = [
        (
            when(run.started.happened_at),
            f"{run.opening}{_way(run, study)}",
            run.loadout or "not told",
            _far(run, study),
            _ended(run, study),
        )
        for run in runs
    ]
    names = dict.fromkeys(filter(None, (entry_text(run.started, "operator") for run in runs)))
    by = [f"Pushed by {', '.join(names)}."] if names else []
    ways = dict.fromkeys(way for run in runs if (way := way_in(run, study.network)) is not None)
    by += filter(None, (beside(way, study.network, lengths(study.units)) for way in ways))
    return Section("Pushes", tuple(by), ("when", "in at", "with", "farthest", "end"), tuple(rows))


def _way(run: Run, study: Study) -> str:
    """Which way it was told to lead; where nobody knew, what the screen told of it at the farthest place and
    what that rests on."""
    asked = run.direction == UNKNOWN or any(entry.kind == WATER for entry in run.entries)
    now = at_farthest(run, study) if asked else None
    if now is not None and now.contrary is not None:
        said = "" if run.direction in (UNKNOWN, AS_PLANNED) else f", told as {run.direction}"
        return f"{said}; not settled which way: {now.contrary.water.fixture} water came otherwise than it can"
    way, _ = doubt_words(run.way, run.opening, study.tables.in_pipe)
    if way:
        return way
    if run.direction != UNKNOWN:
        return "" if run.direction == AS_PLANNED else f", {run.direction}{_into(run, study)}"
    told = None if now is None else facing(now.fix, chance_words(study).say)
    if now is None or told is None:
        return ", direction not known"
    rests = _PASSED if told_way(now) else _KIND if now.push.course.way_told else _ROD
    return f", direction not told; where it was farthest {told}, {rests}"


def _into(run: Run, study: Study) -> str:
    """Into which mouth of a channel it went, as told, else by what it passed; nothing where neither tells."""
    told, gone = entry_text(run.started, "mouth"), None
    with suppress(BadInput):  # the sheet has that opening no more
        gone = mouth_gone(Push(study, run.started).tracker, run.entries) if run.direction == UP else None
    if gone in (None, told):
        return f" into {told}" if told else ""
    return f" into {gone} by what it passed" + (f", told as into {told}" if told else "")


def _far(run: Run, study: Study) -> str:
    """How far in the lens was, the counter set anew or not, and where a head stays how far in that is."""
    readings, found = readings_of(run.entries), list[Reading]()
    for entry in run.entries:
        stays = entry.kind == END and entry.data.get("out") is False
        at = entry.counter if stays else lens_at(entry)
        if at is not None and entry.counter is not None:
            read = readings[entry.number]
            found.append(replace(read, shown=at, inside=read.inside - (entry.counter - at)))
    return max(found, key=lambda read: read.inside).words(study.units) if found else "no reading"


def _ended(run: Run, study: Study) -> str:
    if run.ended is None:
        return "not ended in the log"
    told = run.ended.data.get("reached")
    words = "" if told is None else "target reached" if told is True else "target not reached"
    if run.hardly is not None:
        said = chance_words(study).say(run.hardly)
        words = study.tables.in_pipe.hardly_reached.report.format(chance=said)
    if told is True and not leads_there(run, study):
        words = "told as target reached, but the way that it went by what it passed does not lead there"
    if words and run.of_part:
        words = f"{words} ({entry_text(run.started, 'target')})"
    left = "the head stays in the pipe" if run.ended.data.get("out") is False else ""
    out = next((entry for entry in run.entries if entry.kind == HAD_OUT), None)
    if out is not None:
        left = f"the head stayed in the pipe; said to be out {when(out.happened_at)}"
    return "; ".join(filter(None, (words, entry_text(run.ended, "why"), left))) or "not told"
