"""What pushes of a job told of a way, as rows of its plan: finds, and water that stood in the pipe."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import shorten

from advisor.push.kinds import FIND, PORTS, SIGHTING, UNKNOWN
from advisor.push.left_stops import pushes_by_way
from advisor.push.log import Entry, entry_text
from advisor.push.sighting import POOL
from advisor.push.went_in import readings_of
from advisor.result.study import Study
from advisor.result.way_model import FoundNote

_LONGEST = 120  # layout: letters of a row; log and report tell the rest


def found_before(study: Study, standing: Sequence[Entry]) -> tuple[FoundNote, ...]:
    """Each by its reading, the nearest first, as the next push from there that goes its way comes to it.

    What has no reading can be put nowhere.
    """
    readings = readings_of(standing)
    if not any(_told(entry) and entry.number in readings for entry in standing):
        return ()
    words = study.tables.stuck.found_before
    found: dict[FoundNote, None] = {}
    for (opening, way), runs in pushes_by_way(study, standing).items():
        for entry in (entry for run in runs for entry in run):
            what = _told(entry)
            if what and entry.number in readings:
                note = FoundNote(
                    opening=opening,
                    ports=PORTS.get(way, PORTS[UNKNOWN]),
                    at_m=readings[entry.number].inside,
                    see=words.see.format(what=shorten(what, _LONGEST, placeholder=" ...")),
                    do=words.do,
                    missed=words.missed,
                )
                found[note] = None
    return tuple(sorted(found, key=lambda note: note.at_m))


def _told(entry: Entry) -> str | None:
    """What it was; None of everything else."""
    if entry.kind == SIGHTING and entry.data["what"] == POOL:
        return POOL
    return entry_text(entry, "what") if entry.kind == FIND else None
