"""What pushes of the job told that no head goes past: told by mistake, it is taken back in any later one."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from advisor.push.before.found_before import heeded
from advisor.push.log.cleared import cleared_since
from advisor.push.log.log import Entry
from advisor.push.log.went_in import readings_of
from advisor.push.now.seen import pushes_told
from advisor.push.report.words import when
from advisor.quantity import show_counter
from advisor.result.study import Study


def barring(study: Study, standing: Sequence[Entry]) -> list[tuple[Entry, str]]:
    """Each with the words by which it is chosen, the first told first."""
    words, readings = study.tables.in_pipe.found_before, readings_of(standing)
    place = {entry.number: index for index, entry in enumerate(standing)}
    found = []
    for run in pushes_told(standing):
        for entry in run:
            since = partial(cleared_since, standing, place[entry.number], study.tables.where)
            heed = heeded(entry, study.tables, since)
            if heed is not None and heed.not_past and entry.number in readings:
                says = words.told.format(
                    what=heed.told,
                    opening=run[0].data["opening"],
                    reading=show_counter(readings[entry.number].inside, study.units),
                    when=when(entry.happened_at),
                )
                found.append((entry, says))
    return found
