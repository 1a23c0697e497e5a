"""What was seen and what was not, in sentences for whoever pays: from where to where, and how it is known."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from advisor.push.now.counted import leads_there
from advisor.push.now.datum import Datum
from advisor.push.now.never_passed import NotPassed
from advisor.push.now.seen import Coverage, Run
from advisor.push.track.leg import NO_DISTANCE
from advisor.quantity import show_counter
from advisor.result.study import Study

_BY = {
    "counter": "the counter",
    "passed": "the counter, and which way it went by what the lens passed",
    "sheet": "the places on the sheet to which entries were tied, for nothing else tells which way it went",
}
_END_UNSEEN = "The end was not seen: the line may be longer."
_NONE: Mapping[float, str] = MappingProxyType({})
NAMED = ("opening", "junction", "stopper", "end")


def measures(study: Study) -> Callable[[float], str]:
    """Shows a length as finely as a counter does: what was seen, what not and the whole have to add up."""
    return lambda metres: show_counter(metres, study.units)


def seen_words(
    cover: Coverage,
    runs: tuple[Run, ...],
    study: Study,
    datum: Datum,
    stops: tuple[NotPassed, ...] = (),
    denied: bool = False,
    finds: Mapping[float, str] = _NONE,
) -> tuple[str, ...]:
    """How much, from where to where, and by what it is known; `stops` were never passed, that the end was
    reached is `denied` by whoever pushed, and `finds` are where it ends, by their m down the line."""
    line, length = cover.line, measures(study)
    came = [f"{length(far)} in from {run.opening}" for run in runs if (far := run.went_in or 0.0) > 0]
    if cover.seen_length <= 0:
        says = f" It came {' and '.join(came)}: that this was {line} is not shown." if came else ""
        return (
            f"By the log nothing of {line}, which was to be seen, is shown to have passed the lens.{says}",
        )

    spans = " and ".join(
        f"from {_place(study, cover, runs, datum, low, finds, begins=True)} to "
        f"{_place(study, cover, runs, datum, high, finds, begins=False)}"
        for low, high in cover.seen
    )
    whole = length(cover.length)
    rests = {"counter": cover.by_counter, "passed": cover.by_passed, "sheet": cover.by_sheet}
    known = "; in part by ".join(_BY[name] for name, holds in rests.items() if holds)
    unsure = ""
    if not cover.met:
        unsure = " Nothing on the way was recognized: the line may be another, or longer."
    elif not cover.end_seen and not cover.unseen:
        unsure = f" {_END_UNSEEN}"
    if cover.unsure and cover.unseen:
        unsure += " Further on it is not sure which way the rod went."
        unsure += f" By the counter the lens came {' and '.join(came)}." if came else ""
    lead = f"{length(cover.seen_length)} of the {whole} of {line} that were to be seen, {spans}"
    # That all of it was seen is no claim of the counter where no place on it was recognized.
    says = f"Seen: {lead}."
    if stops and not cover.unseen:
        says = (
            f"Not all of {line} was seen, though by the sheet as much rod went in as there is pipe, {whole}. "
            "The head was stopped on the way and never came past."
        )
    elif not cover.unseen and (not cover.met or (denied and not cover.end_seen)):
        says = f"By the counter only, as much rod went in as there is pipe: {lead}. The end was not seen."
        unsure = unsure.replace(f" {_END_UNSEEN}", " The line may be longer.")
    if cover.counted is not None:
        unsure += f" The end was seen: by the counter that was {length(cover.counted)} of it."
    return (says, f"How far is known by {known}. {whole} is its length by the sheet.{unsure}")


def unseen_words(
    cover: Coverage,
    runs: tuple[Run, ...],
    study: Study,
    datum: Datum,
    stops: tuple[NotPassed, ...] = (),
    why: str = "",
    denied: bool = False,
    finds: Mapping[float, str] = _NONE,
) -> tuple[str, ...]:
    """What of it is not shown to have been seen, why, and beside it the operator's word that all was, or
    where the counter has all of it that the end was not reached."""
    reached = any(run.told_reached and leads_there(run, study) for run in runs)
    told = " The operator says that all was seen." if reached else ""
    because = f" Why: {why}." if why else ""
    found = []
    for low, high in cover.unseen:
        # What was not seen goes round the trap between two plugs, what was seen never does.
        ends = [(low, False), (high, True)]
        if high <= datum.at:  # told as the span is: from what lies next to where it counts from
            ends.reverse()
        named = [
            f"{word} {name}"
            for word, (at, begins) in zip(("from", "to"), ends, strict=True)
            if (name := _name(study, cover, runs, at, begins=begins) or finds.get(at))
        ]
        span = datum.span(low, high, measures(study))
        between = f" ({' '.join(named)})" if named else ""
        found.append(f"Not shown to have been seen: {span}{between}.{because}{told}")
    # A counter tells how far a stop is from its own opening, and never how much lies behind it.
    both = len({stop.opening for stop in stops}) > 1
    if both or (stops and not cover.unseen):
        where = (
            "between where the head was stopped from either side"
            if both
            else "beyond where the head was stopped"
        )
        known = "How long that is nobody knows."
        found.append(f"Not seen: what lies {where}. {_held(stops, study)}. {known}{because}")
    elif denied and not cover.unseen:
        found.append(f"The operator says that the end of it was not reached.{because}")
    return tuple(found)


def _held(stops: tuple[NotPassed, ...], study: Study) -> str:
    """Where the head was stopped, each from its own opening."""
    shown = " and ".join(f"{measures(study)(stop.inside)} in from {stop.opening}" for stop in stops)
    return f"The head was stopped {shown}"


def _place(
    study: Study,
    cover: Coverage,
    runs: tuple[Run, ...],
    datum: Datum,
    at: float,
    finds: Mapping[float, str],
    begins: bool,
) -> str:
    """A point of the line by the name of what stands there, else by how far down it is, and by what."""
    by_counter = (cover.by_counter or cover.by_passed) and not cover.by_sheet
    # Where the way is not sure further on, no counter stood there.
    how = " at the least" if cover.unsure else " by the counter" if by_counter else ""
    place, here = datum.point(at, measures(study), "it"), f" ({finds[at]})" if at in finds else ""
    return _name(study, cover, runs, at, f"; by the sheet {place}", begins) or f"{place}{how}{here}"


def _name(
    study: Study, cover: Coverage, runs: tuple[Run, ...], at: float, place: str = "", begins: bool = False
) -> str:
    """What stands at a point of a line, where it has a name; and its place, where nobody knows of it.

    Of what the sheet has at one spot, as the plugs on both sides of a trap: what a rod went in by, else the
    last of it where something `begins` there, and the first where something ends.
    """
    network, near = study.network, study.drawn.likely("same_place")
    tops, went_in = network.positions(cover.line), {run.opening for run in runs}
    pieces = [network.pieces[each] for each in network.lines[cover.line]]
    found = [each for each in pieces if each.kind in NAMED and each.name and abs(tops[each.id] - at) < near]
    if not found:
        return ""
    at_once = [each for each in found if abs(tops[each.id] - tops[found[0].id]) < NO_DISTANCE]
    piece = ([each for each in at_once if each.name in went_in] or at_once)[-1 if begins else 0]
    known = piece.id in cover.met or piece.name in went_in
    if piece.hole is not None and piece.hole.there < 1 and not known:
        return f"{piece.name} (not known to be there{place})"
    return f"where {piece.name} joins" if piece.kind == "junction" else piece.name
