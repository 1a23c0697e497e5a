"""Openings that were to be pushed from and did not open: kept in the log, known to every plan of the job."""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from advisor.errors import BadInput
from advisor.push.kinds import SHUT, START
from advisor.push.log import Entry, Log


def shut_openings(standing: Iterable[Entry]) -> tuple[str, ...]:
    """Those that did not open and from which no push has begun since."""
    found: dict[str, None] = {}
    for entry in standing:
        if entry.kind == SHUT:
            found[str(entry.data["opening"])] = None
        elif entry.kind == START:
            found.pop(str(entry.data["opening"]), None)
    return tuple(found)


def shut_in(path: Path) -> tuple[str, ...]:
    """Those of a log; none where there is no log, or none that can be read: `advisor log` tells of that."""
    with suppress(BadInput):
        if path.is_file():
            log = Log.read(path)
            try:
                return shut_openings(log.standing())
            finally:
                log.close()
    return ()
