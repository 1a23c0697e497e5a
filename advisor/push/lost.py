"""What pushes of a job have lost for its plan: openings that do not open, gear that kinked or stayed in.

Kept in the log and known to every plan of the job until the log says otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from advisor.kit.model import Kit, KitPart
from advisor.plan import Case
from advisor.push.kinds import FIND, KINKED, MACHINE, SHUT, START, TRY
from advisor.push.left_in import left_in
from advisor.push.log import Entry, standing_in
from advisor.push.seen import Run, runs_of
from advisor.push.sighting import wedged
from advisor.push.went_in import readings_of
from advisor.result.barred import LeftIn
from advisor.result.wedged import Wedged
from advisor.site.history import BROKEN
from advisor.tables.load import Tables
from advisor.tables.where import number


@dataclass(frozen=True)
class Lost:
    """Openings by name; the rod and spring of gear that kinked: nobody says which of them it was; the pushes
    that ended with their gear in the pipe; what wedged a head at a hard spot; whether the pipe was
    seen broken.
    """

    shut: tuple[str, ...] = ()
    kinked: frozenset[KitPart] = frozenset()
    left_in: tuple[LeftIn, ...] = ()
    wedged: tuple[Wedged, ...] = ()
    broken: bool = False

    def known_to(self, case: Case) -> Case:
        """The case that knows of it."""
        return replace(
            case,
            shut=self.shut,
            kinked=self.kinked,
            left_in=self.left_in,
            broken=self.broken,
            wedged=self.wedged,
        )


def lost_of(standing: Sequence[Entry], kit: Kit, tables: Tables) -> Lost:
    """What is lost as the log stands.

    An opening is no more once a push began there; rod and spring, once a push began with them for which it
    was said that what kinked is renewed; head and rod in the pipe, once they are said to be out.
    """
    shut: dict[str, None] = {}
    kinked: set[KitPart] = set()
    for entry in standing:
        data = entry.data
        if entry.kind == SHUT:
            shut[str(data["opening"])] = None
        elif entry.kind == START:
            shut.pop(str(data["opening"]), None)
            if data.get("renewed"):
                kinked -= kit.can_kink(str(data.get("loadout")))
        elif entry.kind == TRY and data.get("outcome") == KINKED:
            kinked |= kit.can_kink(str(data.get("loadout")))
    runs = runs_of(standing)
    left = _left_in(standing, runs, kit, tables)
    broken = any(_broken(entry, tables) for entry in standing)
    return Lost(tuple(shut), frozenset(kinked), left, _wedged(runs), broken)


def lost_in(path: Path, kit: Kit, tables: Tables) -> Lost:
    """That of a log; nothing where there is none that can be read."""
    return lost_of(standing_in(path), kit, tables)


def _left_in(standing: Sequence[Entry], runs: Sequence[Run], kit: Kit, tables: Tables) -> tuple[LeftIn, ...]:
    """Those of pushes that have ended: a head that is held in an open one is still in somebody's hands."""
    readings, found = readings_of(standing), []
    for run, entry in left_in(runs, number(tables.where.travel.cell)):
        if run.ended is None:
            continue
        rod = None if entry.kind == START else readings[entry.number].inside
        gear, ports = run.loadout or "", run.ports
        found.append(LeftIn(run.started.number, run.opening, ports, gear or "the gear", kit.parts(gear), rod))
    return tuple(found)


def _broken(entry: Entry, tables: Tables) -> bool:
    """Whether it tells a find that is a break, or soil or bits of pipe that a machine brought."""
    if entry.kind == FIND:
        return tables.finds.is_broken(str(entry.data["what"]))
    return entry.kind == MACHINE and entry.data.get("brought") == BROKEN


def _wedged(runs: Sequence[Run]) -> tuple[Wedged, ...]:
    """What wedged at a hard spot of the plan, each once; of other places only a sentence tells."""
    found = (
        Wedged(run.opening, run.ports, str(entry.data["spot"]), str(entry.data["technique"]))
        for run in runs
        for entry in run.entries
        if wedged(entry) and entry.data.get("spot")
    )
    return tuple(dict.fromkeys(found))
