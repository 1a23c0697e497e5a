"""Entries, places and depths of a report in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime

from advisor.outcome.attempts import STEADY, called
from advisor.push.log.kinds import (
    FIND,
    HELD,
    KINDS,
    KINKED,
    LOOKED,
    MACHINE,
    MARK,
    PASSED,
    RESET,
    SIGHTING,
    STOPPED,
    TRY,
    UNDO,
    WATER,
    WEDGED,
)
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import BEHIND, MOUTHS_SEEN, sign_names
from advisor.push.log.sign_words import sign_words
from advisor.push.now.counted import Apart
from advisor.push.now.datum import Datum
from advisor.push.now.never_passed import outrun
from advisor.push.now.seen import Run
from advisor.push.report.marks import Spot
from advisor.quantity import Dimension, Units, show, show_counter, show_tape, show_told
from advisor.site.history import History
from advisor.tables.open_past import with_open
from advisor.tables.stuck import StuckFile
from advisor.tables.where import WhereFile


def technique_words(entry: Entry) -> str:
    """What was tried, as plan and card call it; what was no gentle push is not called one."""
    technique = str(entry.data.get("technique"))
    if technique != STEADY:
        return technique
    return GENTLY if entry.data.get("force") in (None, "light") else called(STEADY)


def lengths(units: Units) -> Callable[[float], str]:
    """Shows a length in m in those units."""
    return lambda metres: show(metres, Dimension.LENGTH, units)


def when(time: datetime, seconds: bool = False) -> str:
    """Day and time by the clock of this place."""
    return time.astimezone().strftime("%Y-%m-%d %H:%M:%S" if seconds else "%Y-%m-%d %H:%M")


def zone(entry: Entry) -> str:
    """How far the clock of this place was from UTC then."""
    off = entry.happened_at.astimezone().strftime("%z")
    return f"UTC{off[:3]}:{off[3:5]}"


def clock(hours: float) -> str:
    """A position on the wall of the pipe as a clock face, 12 at the top."""
    minutes = round(hours % 12 * 60)
    return f"{minutes // 60 % 12 or 12}:{minutes % 60:02}"


def said(entry: Entry, name: str, units: Units) -> str:
    """One value of an entry in its unit."""
    value = entry.data[name]
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    number = float(value or 0.0)
    if name == "clock":
        return clock(number)
    if entry.kind == RESET or name == "stood":
        return show_counter(number, units)
    if name in _TAPED:
        return show_tape(number, units)
    unit = KINDS[entry.kind][name].unit
    if unit and name in _WORKED_OUT:
        return show(number, unit, units)
    return (
        show_told(number, unit, units) if unit else (f"{number:.0f}" if entry.kind == UNDO else f"{number:g}")
    )


GENTLY = "a gentle push"
_TAPED = ("depth", "from_a", "from_b", "between")  # above ground
_WORKED_OUT = (
    "distance",
    "sure",
    "book",
    "low",
    "high",
    "run",
    "off",
)  # by the tracker and the planner: no finer than they know it


SEEN = {
    "nothing": "nothing new",
    "tie-in": "another pipe joins",
    "bend": "a bend",
    "bore": "the pipe changes size",
    "material": "the pipe changes material",
    "two mouths": MOUTHS_SEEN,
    "chamber": "a chamber with an open channel",
    "standing water": "standing water",
    "trap": "a trap, where the pipe dips under water",
    "end": "the end of the pipe",
}

OUTCOME_WORDS = {
    PASSED: "it passed",
    HELD: "still held",
    WEDGED: "wedged, it came neither way",
    KINKED: "rod or spring kinked",
}


def entry_words(
    entry: Entry,
    units: Units,
    numbers: Mapping[int, int],
    table: StuckFile,
    back: bool = False,
    over: str | None = None,
) -> str:
    """What an entry says for whoever reads the report; how the plan came to it is left out.

    `numbers` gives finds and marks, by the number of their entry, that by which the report calls them;
    `table` says in words what was seen and felt at a stop, and `back` that it was on the way back;
    `over`, what became of a try that was told as passed, if not that.
    """
    data = entry.data
    if entry.kind == SIGHTING:
        seen = SEEN.get(str(data.get("what")), str(data.get("what")))
        named = f" ({data['name']})" if data.get("name") else ""
        to = f", to {data['material']}" if data.get("material") else ""
        size = f", about {said(entry, 'size', units)}" if data.get("size") is not None else ""
        note = f". {data['note']}" if data.get("note") else ""
        dry = ", the standing water ended there" if data.get("dry") else ""
        dry = ", its end was not seen" if data.get("dry") is False else dry
        return f"{seen}{dry}{named}{to}{size}{note}"
    if entry.kind == STOPPED:
        signs = sign_words(sign_names(entry), table)
        note = f". {data['note']}" if data.get("note") else ""
        stood = f", the picture stood from {said(entry, 'stood', units)} on" if "stood" in data else ""
        held = "it was held when drawn back" if back else "it went no further"
        return f"{held}{f' ({signs})' if signs else ''}{stood}{note}"
    named = str(data.get("name") or data.get("text") or "")
    what = with_open(str(data.get("what") or ""), entry_text(entry, "open"))
    head = ": ".join(filter(None, (what, named)))
    number = numbers.get(entry.number)
    lead = {FIND: f"No. {number}: ", MARK: f"No. {number}, mark: "}.get(
        entry.kind, f"{entry.kind}{': ' if head else ''}"
    )
    if entry.kind == TRY:
        outcome = str(data["outcome"])
        out = ", all of the rod drawn out for it" if data.get("outside") else ""
        asked = not out and data["technique"] in table.rigged_outside.head_out
        untold = "; that the rod was drawn out for it was not told" if asked else ""
        return f"tried {technique_words(entry)}{out}: {over or OUTCOME_WORDS.get(outcome, outcome)}{untold}"
    if entry.kind == MACHINE:
        by = f"in by {data['opening']}" if data.get("opening") else ""
        rod = "all of the rod out" if data.get("outside") else "a rod in the pipe, or nobody knows"
        head = "; ".join(filter(None, (head, by, str(data.get("direction") or ""), rod)))
    told = {"what", "name", "text", "clock", "photo", "way", "book", "planned", "sure", "line", "distance"}
    told |= {
        "open",
        "opening",
        "direction",
        "outside",
        "low",
        "high",
        "somewhere",
        "past",
        "run",
        "off",
    }  # stand with the place
    if entry.kind == WATER:
        seconds = entry.data.get("seconds")
        after = f", seen after {said(entry, 'seconds', units)}" if seconds is not None else ", not seen"
        side = data.get("side") if seconds is not None else None
        after += f", from {side} the lens" if side == BEHIND else f", from {side} of the lens" if side else ""
        return f"water run at {data['fixture']}{after}"
    if entry.kind == LOOKED:
        return f"a little water run by hand: it {'ran away' if data['drains'] else 'stood or rose'}"
    if entry.kind == MARK:
        return f"{lead}{head}"  # its figures stand in a table of their own
    rest = "; ".join(
        f"{name.replace('_', ' ')} {said(entry, name, units)}"
        for name in data
        if name not in told and name in KINDS[entry.kind]
    )
    return "; ".join(filter(None, (f"{lead}{head}", rest)))


MAPS = {"guess": "a map that is a guess", "sketch": "a sketch", "measured": "a measured map"}
WET_CELLAR = {
    "yes": "The cellar was said to be wet; nobody knew when.",
    "when used": "The cellar was said to be wet when water is used.",
    "after rain": "The cellar was said to be wet after rain.",
    "comes up": "Water was said to come up in the cellar.",
}


def history_words(history: History, length: Callable[[float], str], where: WhereFile) -> list[str]:
    """What lies in there, and each time that people remember a machine to have been run, in a line."""
    found = [where.tool_lost.report] if history.tool_lost else []
    for run in history.machine_runs:
        from_ = f" from {run.in_at}" if run.in_at else ""
        back = f"; {' and '.join(run.came_back)} came back" if run.came_back else ""
        when_ = f" {run.when}" if run.when else ""
        to = f"{length(run.to.likely)} in" if run.to else "nobody knows how far in"
        still = f" {where.machine_end.report}" if run is history.last_run else ""
        found.append(f"A machine was run{when_}{from_}, {to}{back}.{still}")
    return found


def apart_words(each: Apart, units: Units) -> str:
    """Counter and sheet that disagree, with both numbers."""
    counter, sheet = show_counter(each.counter, units), show(each.sheet, Dimension.LENGTH, units)
    says = {
        "reached": f"what was to be seen was told to end at {counter} by the counter, by the sheet {sheet}",
        "passed": f"the lens came {counter} in by the counter, {sheet} by the sheet, from what it passed",
        "beyond": f"the lens came {counter} in by the counter; the sheet draws no more than {sheet} of pipe",
    }[each.how]
    return (
        f"Counter and sheet do not agree: from {each.opening} {says}. One of them is off, or the head went "
        "another way than was taken: before anybody digs, locate the place above ground."
    )


def why_words(runs: Sequence[Run]) -> str:
    """Why pushes ended as they did; of several each with its opening, for it is no reason of another.

    What ended one of them is no reason any more where another came further in the same way.
    """
    told = [
        (run, why)
        for run in runs
        if run.ended and (why := entry_text(run.ended, "why")) and not outrun(run, runs)
    ]
    return "; ".join(f"the push in from {run.opening}: {why}" if len(runs) > 1 else why for run, why in told)


def redrawn_words(runs: Sequence[Run]) -> tuple[str, ...]:
    """The pushes that began by another sheet, for whoever goes by their places."""
    if not runs:
        return ()
    began = ", ".join(f"in from {run.opening} {when(run.started.happened_at)}" for run in runs)
    told = (
        f"The sheet was changed since these pushes began: {began}. Lengths, turns or openings are others. "
        "How far down a line their finds and marks are is by the sheet of then, all else by that of now; "
        "counter readings stand. Before anybody digs, locate the place above ground."
    )
    return (told,)


def place_words(spot: Spot, units: Units, datum: Callable[[str], Datum]) -> str:
    """Where a find or mark is along the pipes and above ground, whatever the counter showed there.

    `datum`: from where lengths of a line count.
    """
    parts, length = [], lengths(units)
    if spot.reading is not None:
        lead = "counter " if spot.reading.as_shown else ""
        parts.append(f"{lead}{spot.reading.words(units)} from {spot.opening}")
    elif spot.counter is not None:
        parts.append(f"counter {show_counter(spot.counter, units)}")
    if spot.line is not None and spot.distance is not None:
        zero = datum(spot.line)
        place = zero.point(spot.distance, length)
        parts += spot.doubt.words(
            units,
            place,
            lambda low, high: zero.between(low, high, length),
            lambda low, high: zero.span(low, high, length),
        )
    if spot.ground is not None:
        zero = datum(spot.ground.line)
        parts.append(
            spot.ground.words(units, lambda down: zero.point(down, lambda m: show_counter(m, units)))
        )
    if spot.clock is not None:
        parts.append(f"at {clock(spot.clock)}")
    if spot.locate:
        parts.append("LOCATE IT ABOVE GROUND BEFORE DIGGING")
    return "; ".join(filter(None, parts)) or "not told"
