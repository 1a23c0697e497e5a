"""The pushes of a job before this one that went in as it does: what stopped them lies ahead of it."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.push.log.kinds import UNKNOWN
from advisor.push.log.log import Entry, entry_text
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import pushes_told
from advisor.push.now.way_gone import OPEN, mouth_gone, way_gone


def earlier(push: Push, standing: Sequence[Entry]) -> tuple[Now, ...]:
    """Those from its opening that did not go the other way, each as it ended, the first first."""
    runs = pushes_told(standing[: standing.index(push.began)] if push.began in standing else standing)
    return tuple(Now(push.begun(run[0]), tuple(run[1:])) for run in runs if same_way(push, run))


def same_way(push: Push, run: Sequence[Entry]) -> bool:
    """Whether a push went in as this one does, or may have: told alike, or by what it passed."""
    start = run[0]
    if start.data["opening"] != push.opening.name:
        return False
    told, led = str(start.data.get("direction") or UNKNOWN), entry_text(push.began, "mouth")
    if led and (gone := mouth_gone(Push(push.study, start).tracker, run)) is not None and gone != led:
        return False  # in another pipe from the very opening on
    if push.direction in OPEN or told == push.direction:
        return True  # told alike it was the same push into the same mouth, wherever that leads
    return way_gone(Push(push.study, start).tracker, run).way in (*OPEN, push.direction)
