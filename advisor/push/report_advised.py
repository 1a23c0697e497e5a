"""What a report recommends: for each find, each shut opening, each stop and where a push was held."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from advisor.push.advice import Advice, Advised
from advisor.push.kinds import FIND
from advisor.push.marks import Spot
from advisor.push.report_depths import unlike_words
from advisor.push.report_parts import Section
from advisor.quantity import Units

NOT_TO_DIG = (
    "where it is is not sure enough to dig. Locate it above ground first, with the head in the pipe there."
)


def recommended_section(
    found: Iterable[Spot],
    shut: Iterable[str],
    stops: Iterable[tuple[str, Advised]],
    held: Sequence[str],
    advice: Advice,
    units: Units,
) -> Section:
    """The whole section.

    `shut` are the names of openings that do not open, `stops` stops in words with what is advised for each,
    `held` the places where a push ended and nothing was told that comes before a new opening.
    """
    lines, weak = [], False
    for spot in found:
        if spot.kind != FIND or (spot.own_advice is None and spot.advised is None):
            continue
        row = spot.advised
        star = " *" if row is not None and row.evidence.grade.weak else ""
        weak |= bool(star)
        own = f"The operator: {spot.own_advice}. " if spot.own_advice else ""
        says = f"{row.advice}. {row.says}{star}" if row is not None else ""
        lines.append(f"No. {spot.number}, {spot.words}: {own}{says}".rstrip())
        if spot.locate:
            lines.append(f"No. {spot.number}: {NOT_TO_DIG}")
        if spot.to_dig:
            lines += unlike_words(spot, advice, units)
    for name in shut:
        free = advice.finds.shut[0]
        weak |= free.evidence.grade.weak
        star = " *" if free.evidence.grade.weak else ""
        lines.append(f"{name} does not open: {free.advice}. {free.says}{star}")
    for where, stop in stops:
        weak |= stop.evidence.grade.weak
        star = " *" if stop.evidence.grade.weak else ""
        lines.append(f"{where}: {stop.advice}. {stop.says}{star}")
    for place in held:
        new = advice.finds.stopped[0]
        weak |= new.evidence.grade.weak
        lines.append(f"Stopped {place} by the counter: {new.advice}. {new.says} *")
    if not lines:
        lines.append(f"{advice.finds.nothing[0].says} *")
        weak = True
    if weak:
        lines.append("* Our judgement, no source.")
    return Section("Recommended", tuple(lines))
