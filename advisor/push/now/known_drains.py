"""What is known of whether the line drains, in four values, and what of the job was known to back up.

The one place that holds it: whatever runs water, or says how it is run, asks here, and names the next step
from that value. What backed the line up may stand there still, as long as it is not surely cleared.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from enum import IntEnum

from advisor.outcome.attempts import CLEANED
from advisor.outcome.facts import Circumstances
from advisor.push.log.found import may_hold_water
from advisor.push.log.kinds import FIND, MACHINE, PASSED, STOPPED, TRY
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.sighting import sign_names
from advisor.push.now.backs_up import CLEARED_NOW, ran_away, water_was_run
from advisor.push.now.drains import holds_water, last_seen
from advisor.push.now.held_back import HeldBack
from advisor.push.now.one_push import Push
from advisor.site.mouths import has_channel
from advisor.site.used import lies_lowest
from advisor.tables.load import Tables

THE_LINE = ("the line",)


class Known(IntEnum):
    """What is known of it, from the weakest."""

    NOTHING = 0  # nobody looked, it stands, or it was stopped since
    LOOKED = 1  # it stood low with no water run, or so the sheet says
    RAN = 2  # water that was run ran away, watched
    CLEARED = 3  # so it did just now, and what backed it up was told or seen to be cleared before that


@dataclass(frozen=True)
class Line:
    """What is known of the line; `backed` is what of the job backs up or may, nothing where nothing ever did.

    `not_into` are the fixtures that were told to back up or to run slow, or whose own pipe ends over a gully
    that was, `lowest` those that lie lowest.
    `ordered` is whether the smallest flow comes first all through the push, by what was known as it began.
    """

    known: Known
    backed: tuple[str, ...]
    not_into: frozenset[str]
    lowest: frozenset[str]
    ordered: bool
    all_of_them: frozenset[str] = frozenset()  # the fixtures, but for what is in use and what comes up anyhow

    @property
    def not_yet(self) -> frozenset[str]:
        """What nobody is told to run, whatever ran away, till the line is surely cleared."""
        return self.not_into if self.backed and self.known < Known.CLEARED else frozenset()

    @property
    def none_left(self) -> bool:
        """Whether that is all of them: none of the list may be run."""
        return bool(self.all_of_them) and self.all_of_them <= self.not_yet


def line_of(
    push: Push,
    entries: Sequence[Entry],
    told_back: Sequence[HeldBack],
    drains: bool | None,
    doubtful: bool,
) -> Line:
    """`entries` are those since the push began; `drains` is what they show, `doubtful` whether that is first
    to be seen, `told_back` what earlier pushes told that may hold water back."""
    given, chart = push.study.circumstances, push.tracker.chart
    told = (push.began, *entries)
    cut = _cleared(told)
    backed = _backed(push, told, 0, told_back)
    known = _known(told, drains, doubtful)
    if known is Known.RAN and backed and not _backed(push, told, cut, told_back):
        known = Known.CLEARED
    bad = {*given.backs_up, *given.slow}
    low = (name for name, at in chart.fixtures.items() if _lowest(push, at))
    return Line(
        known,
        backed,
        frozenset(name for name, at in chart.fixtures.items() if name in bad or _runs_into(push, at, bad)),
        frozenset(low),
        bool(given.backs_up or told_back),
        frozenset(chart.fixtures) - push.laundry - {push.opening.name},
    )


def watched_at(given: Circumstances) -> tuple[str, ...]:
    """Where somebody watches as water is run: at what backs up or stands, else at what is slow."""
    return given.backs_up or given.slow


def _runs_into(push: Push, piece: str, bad: Collection[str]) -> bool:
    """Whether its own pipe ends over, or in, one of these that is no chamber: there it comes up."""
    network, tables = push.study.network, push.study.tables
    below = (network.pieces[each] for each in network.downstream(piece))
    line = network.pieces[piece].line
    return any(
        each.line == line and each.name in bad and each.hole is not None and not has_channel(each, tables)
        for each in below
    )


def _lowest(push: Push, piece: str) -> bool:
    return lies_lowest(push.study.network, push.study.network.pieces[piece], push.study.tables)


def _known(told: Sequence[Entry], drains: bool | None, doubtful: bool) -> Known:
    seen = last_seen(told)
    if seen is None or drains is not True:
        return Known.NOTHING if doubtful or drains is False else Known.LOOKED
    return Known.RAN if not doubtful and water_was_run(told[seen[0]]) else Known.LOOKED


def _backed(push: Push, told: Sequence[Entry], cut: int, told_back: Sequence[HeldBack]) -> tuple[str, ...]:
    """What backs up or may, by the entries from `cut` on; of what was known before only with all of them."""
    since, tables = told[cut:], push.study.tables
    if not cut and push.study.circumstances.backs_up:
        return push.study.circumstances.backs_up
    stood = any(each.data.get("drains") is False for each in since)
    met = any(_may_hold(each, tables) for each in since)
    before = not cut and any(not each.cleared(told, tables.where) for each in told_back)
    return THE_LINE if stood or met or before else ()


def _cleared(told: Sequence[Entry]) -> int:
    """From which of the entries on nothing of before counts: it was told as cleared, or a cutter or a
    cleaning came through with all of the rod out, and water that was run then ran away."""
    found, through = 0, False
    for place, entry in enumerate(told):
        clean = entry.kind == TRY and entry.data.get("technique") == CLEANED
        clean = (clean and entry.data.get("outcome") == PASSED) or entry.kind == MACHINE
        through = through or (clean and entry.data.get("outside") is True)
        if (through and ran_away(entry)) or CLEARED_NOW in (entry_text(entry, "told") or ""):
            found, through = place + 1, False
    return found


def _may_hold(entry: Entry, tables: Tables) -> bool:
    """Whether it tells of what holds water, seen: a stop that only held the head is none."""
    if entry.kind == FIND:
        return may_hold_water(entry, tables.finds)
    return entry.kind == STOPPED and holds_water(sign_names(entry), tables.stuck)
