"""What a report recommends: for each find, each shut opening, each stop and where a push was held."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from advisor.push.log.kinds import FIND
from advisor.push.log.log import Entry
from advisor.push.report.advice import Advice
from advisor.push.report.beside import marks_at
from advisor.push.report.depths import unlike_words
from advisor.push.report.marks import Spot
from advisor.push.report.parts import Section
from advisor.push.report.tools import BeforeTools
from advisor.quantity import Units
from advisor.tables.finds import Advised

NOT_TO_DIG = (
    "where it is is not sure enough to dig. Locate it above ground first, with the head in the pipe there."
)


def recommended_section(
    found: tuple[Spot, ...],
    shut: Iterable[tuple[str, str]],
    stops: Iterable[tuple[str, Advised, Entry]],
    held: Sequence[tuple[str, str | None, Entry]],
    advice: Advice,
    units: Units,
    before: BeforeTools,
    then: tuple[str, ...] = (),
) -> Section:
    """The whole section.

    `shut` are openings that do not open, each with its kind, `stops` stops in words, each with what is
    advised and its entry, `held` the places where a push ended and nothing was told that comes before a new
    opening, each with an opening on the way on that opens, and its entry, `before` what comes before
    anything that is sent into the pipe, `then` what comes next, behind all.
    """
    lines: list[str] = []
    told: list[Advised] = []

    def says(row: Advised, entry: int | None = None) -> str:
        told.append(row)
        once = "" if entry is None else before.words(row, entry)
        return f"{once}{row.advice}. {before.says(row)}{' *' if row.evidence.grade.weak else ''}"

    for spot in found:
        if spot.kind != FIND or not (spot.own_advice or spot.advised):
            continue
        if spot.locate:
            made = " and ".join(f"no. {each}" for each in marks_at(spot, found, advice.same_place))
            check = f" Mark {made} was made at the same reading: check it so." if made else ""
            lines.append(f"No. {spot.number}: {NOT_TO_DIG}{check}")
        own = f"The operator: {spot.own_advice}. " if spot.own_advice else ""
        first, *more = [says(row, spot.entry) for row in spot.advised] or [""]
        lines.append(f"No. {spot.number}, {spot.told}: {own}{first}".rstrip())
        lines += [f"No. {spot.number}, as well: {each}" for each in more]
        if spot.to_dig:
            lines += unlike_words(spot, advice, units)
    # A way in comes before a new opening, and behind what is told of the pipe: an object may be a gas pipe.
    lines += [f"{where}: {says(stop, entry.number)}" for where, stop, entry in stops]
    lines += [f"{name} does not open: {says(advice.finds.for_shut(kind))}" for name, kind in shut]
    for place, opens, entry in held:
        short = f", short of {opens}" if opens else ""
        new = advice.finds.between[0] if opens else advice.finds.stopped[0]
        lines.append(f"Stopped {place} by the counter{short}: {says(new, entry.number if opens else None)}")
    if not lines:
        nothing = advice.finds.nothing[0]
        told.append(nothing)
        lines.append(f"{nothing.says} *")
    lines += [f"{each} *" for each in then]
    if then or any(row.evidence.grade.weak for row in told):
        lines.append("* Our judgement, no source.")
    return Section("Recommended", (*before.first, *before.pipes, *lines))
