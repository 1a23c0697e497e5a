"""A log as a table that a spreadsheet opens, and as JSON."""

from __future__ import annotations

import csv
import io
import json
from datetime import datetime

from advisor.errors import cell
from advisor.push.log.kinds import KINDS
from advisor.push.log.log import Entry, entry_number, standing, undone
from advisor.push.log.went_in import readings_of
from advisor.push.report.log_datum import ALONG, Counted, counted_from
from advisor.site.network import Network

# Beside the names of what an entry may say: those lengths count from the opening, not as the log keeps them.
_DOWN = {"distance": "down the line from there m", "low": "at the least m", "high": "at the most m"}
_NAMED = {"distance": "down_line", "low": "at_least", "high": "at_most"}
_FROM = "lengths along the line count from"
_FIRST = ("number", "undone", "told at UTC", "happened at UTC", "kind", "counter m", "in from opening m")


def csv_of(entries: tuple[Entry, ...], network: Network | None = None) -> str:
    """One line an entry, the undone ones too; lengths in m, times UTC. No cell is taken for a formula.

    Beside what the counter showed stands how far in from the opening that is; nothing for what is undone.
    Lengths along a line have a column that says from where they count: by `network` from the opening of their
    push; up the line they are less than nothing.
    """
    listed = dict.fromkeys(name for says in KINDS.values() for name in says)
    names, along = [name for name in listed if name not in ALONG], counted_from(entries, network)
    gone, inside = undone(entries), _inside(entries)
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\n")
    table.writerow([*_FIRST, *names, _FROM, *_DOWN.values()])
    for entry in entries:
        first = [
            entry.number,
            "yes" if entry.number in gone else "no",
            iso(entry.told_at),
            iso(entry.happened_at),
        ]
        counter = "" if entry.counter is None else entry.counter
        said = [_cell(entry.data.get(name)) for name in names]
        counted = along.get(entry.number)
        downs = [None if counted is None else counted.down(entry_number(entry, name)) for name in _DOWN]
        said += [_cell(each) for each in (counted and counted.counts_from, *downs)]
        table.writerow([*first, cell(entry.kind), counter, inside.get(entry.number, ""), *said])
    return text.getvalue()


def json_of(entries: tuple[Entry, ...], network: Network | None = None) -> str:
    """A list of entries, the undone ones too; lengths in m, times UTC, those along a line as in the table."""
    gone, inside, along = undone(entries), _inside(entries), counted_from(entries, network)
    rows = [
        {
            "number": entry.number,
            "undone": entry.number in gone,
            "told_at": iso(entry.told_at),
            "happened_at": iso(entry.happened_at),
            "kind": entry.kind,
            "counter": entry.counter,
            "in_from_opening": inside.get(entry.number),
            "data": {name: value for name, value in entry.data.items() if name not in ALONG},
            "along_line": _along(entry, along.get(entry.number)),
        }
        for entry in entries
    ]
    # Escaped to ASCII: neither control nor bidi characters reach a screen raw.
    return json.dumps(rows, indent=2) + "\n"


def _along(entry: Entry, counted: Counted | None) -> dict[str, object] | None:
    """Lengths along the line of the entry, and from where they count."""
    if counted is None:
        return None
    down = {name: counted.down(entry_number(entry, key)) for key, name in _NAMED.items()}
    return {"counts_from": counted.counts_from, **down}


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
