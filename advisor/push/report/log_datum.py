"""From where the lengths along a line in a log count: from the opening of their push, as that push told them.

The log keeps them from the upper end of the line. From there they are told where the sheet cannot be read or
was drawn anew since, or where nothing that a tape can be put to stands on the line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from advisor.push.log.kinds import START
from advisor.push.log.log import Entry, entry_number, entry_text, undone
from advisor.push.log.redrawn import redrawn
from advisor.push.now.datum import Datum, datum_of
from advisor.push.now.seen import runs_of
from advisor.site.network import Network

ALONG = ("distance", "low", "high")  # what an entry tells along a line
UPPER_END = "the upper end of the line"


@dataclass(frozen=True)
class Counted:
    """From where the lengths of one entry count, and why, where that is not as its push told them."""

    datum: Datum
    why: str = ""

    @property
    def counts_from(self) -> str:
        """It by its name."""
        return self.datum.name if self.datum.at > 0 else UPPER_END

    def down(self, length: float | None) -> float | None:
        """A length along the line, m down it from there, to a millimetre; up it is less than nothing."""
        return None if length is None else round(length - self.datum.at, 3)


def counted_from(entries: Iterable[Entry], network: Network | None) -> Mapping[int, Counted]:
    """It for each entry that tells lengths along a line, by its number; no `network`: nobody can read the
    sheet."""
    entries = tuple(entries)
    gone, began, found = undone(entries), None, dict[int, Counted]()
    for entry in entries:
        if entry.kind == START and entry.number not in gone:
            began = entry
        if any(entry_number(entry, name) is not None for name in ALONG):
            found[entry.number] = _counted(entry_text(entry, "line") or "", began, network)
    return found


def _counted(line: str, began: Entry | None, network: Network | None) -> Counted:
    why = ""
    if network is None:
        why = "the sheet of this job cannot be read"
    elif line not in network.lines or (began is not None and redrawn(began, network)):
        why = "the sheet was drawn anew since"
    if why or network is None:
        return Counted(Datum(line, 0.0, "", used=False, sure=True), why)
    return Counted(datum_of(line, runs_of(() if began is None else (began,)), network))
