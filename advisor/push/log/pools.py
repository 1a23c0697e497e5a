"""Standing water that was told, and whether its end was seen: then it is a sag in a pipe that runs.

Of one whose end nobody saw nothing tells that the line below it runs: it may be full.
"""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import RESET, SIGHTING, START
from advisor.push.log.log import Entry, entry_number
from advisor.push.log.sighting import POOL, is_dry


def is_pool(entry: Entry) -> bool:
    """Whether it tells of standing water."""
    return entry.kind == SIGHTING and entry.data.get("what") == POOL


def waits(entry: Entry) -> bool:
    """Whether it tells of standing water with its end not seen, till that is told."""
    return is_pool(entry) and entry.data.get("dry") is False


def ends_of_pools(entries: Sequence[Entry]) -> dict[int, tuple[int, ...]]:
    """The entries that tell the lens out of standing water, by their place, each with the pools behind it.

    Only further in than where it was told: drawn back out of it the lens has seen no end. Where it was told
    late, with its end not seen, only what tells an end ends it: open pipe seen since was no answer to that.
    """
    found: dict[int, tuple[int, ...]] = {}
    pools: dict[int, float] = {}  # by their place, how far in, whatever the counter was set to since
    off = 0.0
    for place, entry in enumerate(entries):
        if entry.kind == START:
            pools, off = {}, 0.0
        if entry.counter is None:
            continue
        inside = entry.counter + off
        if entry.kind == RESET:
            off = inside - (entry_number(entry, "now") or 0.0)
        elif is_pool(entry):
            pools[place] = inside
        elif entry.kind == SIGHTING and is_dry(entry):
            # Told to end where it was told to begin it was none that fills the pipe.
            ended = entry.data.get("dry") is True
            out = tuple(
                at
                for at, began in pools.items()
                if (ended and inside == began) or (inside > began and (ended or not waits(entries[at])))
            )
            if out:
                found[place] = out
                pools = {at: began for at, began in pools.items() if at not in out}
    return found


def open_pools(entries: Sequence[Entry]) -> tuple[int, ...]:
    """The standing water, by its place among the entries, of which none of them tells the end."""
    ended = {at for out in ends_of_pools(entries).values() for at in out}
    return tuple(at for at, entry in enumerate(entries) if is_pool(entry) and at not in ended)
