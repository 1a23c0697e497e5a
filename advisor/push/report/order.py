"""What was told on the way, push by push, and the photos of it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from advisor.push.log.kinds import END, HAD_OUT, OFFERED, PASSED, START, STOPPED
from advisor.push.log.log import Entry, entry_text
from advisor.push.now.seen import Run
from advisor.push.report.parts import Section
from advisor.push.report.words import clock, when


def order_section(
    runs: tuple[Run, ...],
    read: Callable[[Entry], str],
    words: Callable[[Entry], str],
    undrawn: tuple[str, ...] = (),
) -> Section:
    """Each entry that tells of the way, with its reading; of several pushes each under a row of its own.

    What of it is `undrawn` on the sheet stands beside them.

    The same stop told again, with nothing more and the head not away from there since, is told once.
    """
    rows: list[tuple[str, str, str]] = []
    for run in runs:
        if len(runs) > 1:
            rows.append(("", "", f"push of {when(run.started.happened_at)}, in from {run.opening}:"))
        stops: set[tuple[str, str, str]] = set()  # as they were told since the head came to where it is
        for entry in run.entries:
            if entry.kind not in (START, END, OFFERED, HAD_OUT):
                hours = entry.data.get("clock")
                at = clock(float(hours)) if isinstance(hours, int | float) else ""
                row = (read(entry), at, words(entry))
                if row[0] not in ("", *(stop[0] for stop in stops)) or entry.data.get("outcome") == PASSED:
                    stops.clear()
                if entry.kind != STOPPED or row not in stops:
                    rows.append(row)
                if entry.kind == STOPPED:
                    stops.add(row)
    lines = undrawn if rows else ("Nothing was logged on the way.",)
    return Section("Seen in this order", lines, ("counter", "clock", "what") if rows else (), tuple(rows))


def photos_section(standing: Iterable[Entry], numbers: Mapping[int, int]) -> Section | None:
    """Each photo with the kind of entry that it belongs to, and its number."""
    rows = [
        (photo, f"no. {numbers[entry.number]}, {entry.kind}" if entry.number in numbers else entry.kind)
        for entry in standing
        if (photo := entry_text(entry, "photo"))
    ]
    return Section("Photos", (), ("file", "of"), tuple(rows)) if rows else None
