"""The stops of this push and of earlier ones that went its way: where, what was seen, what came since."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass

from advisor.outcome.attempts import CLEANED, STEADY
from advisor.push.log.kinds import PASSED, STOPPED, TRY
from advisor.push.log.log import Entry
from advisor.push.log.machine_run import ran_past
from advisor.push.log.sighting import NOT_BACK, sign_names, signs_at
from advisor.push.now.evidence import Tried
from advisor.push.now.now import Now
from advisor.push.track.way_back import on_way_back
from advisor.result.study import Study
from advisor.tables.conditions import ROOTS


@dataclass(frozen=True)
class Stop:
    """A stop with `rod` m of it out; `then` is the push as it stood when it was last told.

    `passed` is whether the head came past it since, `by` which technique where a try was told that did,
    `cleared` whether a machine did, `fast` that it was felt to come neither way there, not by a try, and no
    machine did: not past it again, though it came free. `tries` are those of that push, if with the gear of
    this one (`same_gear`); `earlier` tells a push before this one, `back` that the head was held there as it
    was drawn back, not on the way in.
    """

    then: Now
    rod: float
    signs: frozenset[str]
    passed: bool
    by: str
    cleared: bool
    fast: bool
    tries: tuple[Tried, ...]
    earlier: bool
    same_gear: bool
    back: bool

    def reading(self, now: Now) -> float:
        """What the counter shows there as it counts now, m."""
        return now.counted(self.rod)


def stops_told(now: Now) -> Iterator[Stop]:
    """Every place of a stop, the same place once, with all that was told there since it was last cleared."""
    cell, pushes, where = now.push.tracker.chart.cell, (*now.before, now), now.push.study.tables.where
    found: list[Stop] = []
    for index, each in enumerate(pushes):
        rods, later = each.rods, pushes[index + 1 :]
        same_gear = each.push.began.data.get("loadout") == now.push.began.data.get("loadout")
        for place, entry in enumerate(each.entries):
            if entry.kind != STOPPED:
                continue
            rod, signs = rods[place], signs_at(each.entries, place)
            fast = NOT_BACK in sign_names(entry)
            back = on_way_back(rods, place, cell)
            told = next((stop for stop in found if abs(stop.rod - rod) < cell and stop.back is back), None)
            if told is not None:
                found.remove(told)
                signs |= frozenset() if told.cleared else told.signs
                fast = fast or told.fast
            since = (*each.entries[place:], *(entry for push in later for entry in push.entries))
            after = each.entries[place + 1 :]
            ran = any(ran_past(entry, each.push.began, rod, where) for entry in since)
            cleared = ran or bool(_passed(after, CLEANED))
            by = "" if _astray(after, each.astray) else _passed(after)
            further = max([*rods[place:], *(push.belief.furthest for push in later)]) - rod >= cell
            found.append(
                Stop(
                    Now(each.push, each.entries[: place + 1]),
                    rod,
                    signs,
                    (further or bool(by)) and not _astray(after, each.astray),
                    by,
                    cleared,
                    fast and not cleared,
                    each.tries if same_gear else (),
                    each is not now,
                    same_gear,
                    back,
                )
            )
    yield from found


def _astray(after: Sequence[Entry], tries: Container[int]) -> bool:
    """Whether the head only ran straight across the fitting there, before it was stopped again."""
    until = next((i for i, entry in enumerate(after) if entry.kind == STOPPED), len(after))
    return any(entry.number in tries for entry in after[:until])


def by_words(stop: Stop, study: Study) -> str:
    """By what a head came past, behind that it did; nothing where no try was told to have passed."""
    row, by = study.tables.in_pipe.tried_before, stop.by
    if not by:
        return ""
    barred = bool(stop.then.may_be_rooted) and not study.base.matrix.cells[by, ROOTS].allowed
    return row.by.format(technique=row.gently if by == STEADY else by) + (row.in_roots if barred else "")


def _passed(after: Sequence[Entry], by: str | None = None) -> str:
    """The try that passed there before the head was stopped again, by the entries after the stop; "": none.

    `by` is a technique that is done with all of the rod out, and told so.
    """
    for entry in after:
        if entry.kind == STOPPED:
            return ""
        so = by is None or (entry.data.get("technique") == by and entry.data.get("outside") is True)
        if so and entry.kind == TRY and entry.data.get("outcome") == PASSED:
            return str(entry.data["technique"])
    return ""
