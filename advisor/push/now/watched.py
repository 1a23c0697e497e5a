"""How water is run in a line that was known to back up: watched still, by what is known of whether it drains.

That it ran away once gives leave for one fixture at a time. What backed it up may stand there still, or hold
anew where it was cleared.
"""

from __future__ import annotations

from advisor.push.now.known_drains import THE_LINE, Known
from advisor.push.now.now import Now
from advisor.push.now.warned import site_cautions
from advisor.result.study import Study

_LIVE = "wet-cellar-mains"  # a caution of the site


def watched_words(now: Now) -> str:
    """How water is run that may be run; empty where nothing backed up, or nothing may be run yet."""
    line, row = now.line, now.push.study.tables.in_pipe.drained_before
    if not line.backed or now.water_allowed is False or line.known < Known.RAN:
        return ""  # no water, or what bars it is told
    uncleared = row.watched_met if line.backed == THE_LINE else row.watched
    words = uncleared if line.known < Known.CLEARED else row.watched_cleared
    words = row.none_left if line.none_left else words
    return " ".join((words.format(what=and_words(line.backed)), *from_stairs(now.push.study)))


def afterwards(study: Study, places: tuple[str, ...]) -> str:
    """How water is run once a push is over: as the report has it, so the way home."""
    return " ".join((study.tables.finds.after.water.format(places=and_words(places)), *from_stairs(study)))


def from_stairs(study: Study) -> tuple[str, ...]:
    """Where whoever watches stays, if the cellar may be live."""
    return (study.tables.in_pipe.drained_before.from_stairs,) if mains_live(study) else ()


def mains_live(study: Study) -> bool:
    """Whether whoever stands in the wet of the cellar may stand in live mains."""
    return bool(site_cautions(study, (_LIVE,)))


def and_words(names: tuple[str, ...]) -> str:
    """Names in a sentence, all of them."""
    return " and ".join(filter(None, (", ".join(names[:-1]), *names[-1:])))
