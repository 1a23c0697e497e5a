"""A log as a table that a spreadsheet opens, and as JSON."""

from __future__ import annotations

import csv
import io
import json
from datetime import datetime

from advisor.errors import cell
from advisor.push.kinds import KINDS
from advisor.push.log import Entry, standing, undone
from advisor.push.went_in import readings_of

_FIRST = ("number", "undone", "told at UTC", "happened at UTC", "kind", "counter m", "in from opening m")


def csv_of(entries: tuple[Entry, ...]) -> str:
    """One line an entry, the undone ones too; lengths in m, times UTC. No cell is taken for a formula.

    Beside what the counter showed stands how far in from the opening that is; nothing for what is undone.
    """
    names = list(dict.fromkeys(name for says in KINDS.values() for name in says))
    gone, inside = undone(entries), _inside(entries)
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow([*_FIRST, *names])
    for entry in entries:
        first = [
            entry.number,
            "yes" if entry.number in gone else "no",
            iso(entry.told_at),
            iso(entry.happened_at),
        ]
        counter = "" if entry.counter is None else entry.counter
        said = [_cell(entry.data.get(name)) for name in names]
        table.writerow([*first, cell(entry.kind), counter, inside.get(entry.number, ""), *said])
    return text.getvalue()


def json_of(entries: tuple[Entry, ...]) -> str:
    """A list of entries, the undone ones too; lengths in m, times UTC."""
    gone, inside = undone(entries), _inside(entries)
    rows = [
        {
            "number": entry.number,
            "undone": entry.number in gone,
            "told_at": iso(entry.told_at),
            "happened_at": iso(entry.happened_at),
            "kind": entry.kind,
            "counter": entry.counter,
            "in_from_opening": inside.get(entry.number),
            "data": dict(entry.data),
        }
        for entry in entries
    ]
    # Escaped to ASCII: neither control nor bidi characters reach a screen raw.
    return json.dumps(rows, indent=2) + "\n"


def iso(time: datetime) -> str:
    """A time as a standard writes it, in UTC."""
    return time.isoformat(timespec="seconds").replace("+00:00", "Z")


def _inside(entries: tuple[Entry, ...]) -> dict[int, float]:
    """m in from the opening, to a millimetre, by the number of the entry."""
    return {number: round(each.inside, 3) for number, each in readings_of(standing(entries)).items()}


def _cell(value: object) -> object:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, float | int) else cell(str(value))
