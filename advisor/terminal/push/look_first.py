"""Whether the line drains, seen before any fixture is run: a cup, a jug, a short run, and a watcher."""

from __future__ import annotations

from advisor.push.log.sighting import is_wet
from advisor.push.now.now import Now
from advisor.push.now.warned import site_cautions
from advisor.push.now.watched import still_watched
from advisor.terminal.choose import BACK, Choice, choose
from advisor.terminal.page import Page

_LIVE = "wet-cellar-mains"  # a caution of the site
_ANY = "lowest fixture"


def to_be_seen(now: Now) -> bool:
    """Whether it is still to be seen, and may be: never with a cleaner in the line."""
    return now.doubtful and not now.push.study.circumstances.chemicals


def look_first(now: Now, page: Page) -> bool | None:
    """How it is seen, in order, and what came of it: it ran away, it stands or rose, or nothing was told."""
    study = now.push.study
    row = study.tables.in_pipe.drained_before
    into = {"look_into": study.look_into, "watch": _watched(now), "fixture": _poured_into(now)}
    wet = any(is_wet(now.entries[place]) for place in now.stops)
    first, *then = (step.format(**into) for step in row.steps)
    page.steps([*([row.falls] if wet else []), first, *from_stairs(now), *then])
    choices = (Choice("y", row.ran_away), Choice("n", row.stands), Choice("d", row.not_looked, also="?"))
    told = {"y": True, "n": False}.get(key := choose(page, row.asked, choices, (BACK,)))
    if told is None and key != BACK.key:
        page.line(row.none_noted)
    return told


def watched_words(now: Now) -> str:
    """How water is run that may be run, in a line that was known to back up; empty where it was not."""
    what = still_watched(now)
    if what is None or now.water_allowed is False or now.doubtful:
        return ""  # no water, or what bars it is told
    row = now.push.study.tables.in_pipe.drained_before
    return " ".join((row.watched.format(what=what), *from_stairs(now)))


def from_stairs(now: Now) -> tuple[str, ...]:
    """Where whoever watches stays, if the cellar may be live."""
    live = site_cautions(now.push.study, (_LIVE,))
    return (now.push.study.tables.in_pipe.drained_before.from_stairs,) if live else ()


def _watched(now: Now) -> str:
    """Where it would come up: the opening in use is open, and may be the lowest of all; none on a roof is."""
    study, opening = now.push.study, now.push.opening
    assert opening.hole is not None
    if study.tables.openings[opening.hole.kind].place == "roof":
        return study.look_into
    return f"{study.look_into} and {opening.name}, which stands open,"


def _poured_into(now: Now) -> str:
    """What runs past the place that may hold it: elsewhere a cup tells nothing."""
    # There it comes up, or the rod is in there.
    off = (*now.push.laundry, *now.backs_up, now.push.opening.name)
    names = [name for name in now.push.smallest if name in now.not_to_run and name not in off]
    return " or ".join(filter(None, (", ".join(names[:-1]), *names[-1:]))) or _ANY
