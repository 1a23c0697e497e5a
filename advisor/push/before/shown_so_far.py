"""What pushes of a job have shown for its plan so far: openings that open or do not, gear that kinked or
stayed in, what was tried, a broken pipe, the last machine run.

Kept in the log and known to every plan of the job until the log says otherwise.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property

from advisor.errors import BadInput
from advisor.kit.model import Kit, KitPart
from advisor.plan import Case
from advisor.push.before.left_in import left_in
from advisor.push.before.stops_counted import Led, stops_counted
from advisor.push.log.kinds import FIND, KINKED, MACHINE, PASSED, PORTS, SHUT, START, TRY, UNKNOWN
from advisor.push.log.log import Entry
from advisor.push.log.machine_run import last_run
from advisor.push.log.sighting import wedged
from advisor.push.log.went_in import readings_of
from advisor.push.now.seen import Run, runs_of
from advisor.push.now.way_gone import WayGone, doubt_words, way_by_map
from advisor.result.barred import LeftIn
from advisor.result.stopped_before import StoppedBefore
from advisor.result.tried_before import TriedBefore
from advisor.site.build import network_of
from advisor.site.history import BROKEN, MachineRun
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet
from advisor.strict_yaml.model import Sheet
from advisor.tables.load import Tables


@dataclass(frozen=True)
class ShownSoFar:
    """Openings by name that do not open, and that do; the rod and spring of gear that kinked: nobody says
    which of them it was; the pushes that ended with their gear in the pipe; what was tried at a hard
    spot; whether the pipe was seen broken; the last machine run that a push tells; what came of places that
    held a push and that no plan has as hard.
    """

    shut: tuple[str, ...] = ()
    kinked: frozenset[KitPart] = frozenset()
    left_in: tuple[LeftIn, ...] = ()
    tried: tuple[TriedBefore, ...] = ()
    broken: bool = False
    opened: tuple[str, ...] = ()
    machine_run: MachineRun | None = None
    stops: tuple[StoppedBefore, ...] = ()

    def known_to(self, case: Case, going_on: int = 0, elsewhere: bool = False) -> Case:
        """The case that knows of it; of the push that began with that entry only what wedged, for it weighs
        its other tries and its stops itself: these only ways from `elsewhere` are to know of."""
        stops = (
            replace(each, under_way=going_on) if elsewhere else each.without(going_on) for each in self.stops
        )
        return replace(
            case,
            shut=self.shut,
            kinked=self.kinked,
            left_in=self.left_in,
            broken=self.broken,
            tried=tuple(each for each in self.tried if each.wedged or each.push != going_on),
            stops=tuple(each for each in stops if each.visits),
            opened=self.opened,
            machine_run=self.machine_run,
        )


def shown_by(
    standing: Sequence[Entry], kit: Kit, tables: Tables, sheet: Sheet[SiteSheet] | None = None
) -> ShownSoFar:
    """It as the log stands; the `sheet` tells which way a push went that was told otherwise.

    A shut opening is one no more once a push began there, or a machine went in: it opens then, until it is
    said again not to. So rod and spring, once a push began with them for which it was said that what kinked
    is renewed; so head and rod in the pipe, once they are said to be out.
    """
    opens: dict[str, bool] = {}
    kinked: set[KitPart] = set()
    for entry in standing:
        data = entry.data
        if entry.kind == SHUT:
            opens[str(data["opening"])] = False
        elif entry.kind == START:
            opens[str(data["opening"])] = True
            if data.get("renewed"):
                kinked -= kit.can_kink(str(data.get("loadout")))
        elif entry.kind == MACHINE and data.get("opening"):
            opens[str(data["opening"])] = True
        elif entry.kind == TRY and data.get("outcome") == KINKED:
            kinked |= kit.can_kink(str(data.get("loadout")))
    runs = runs_of(standing)
    ways = _Ways(sheet, tables)
    left = _left_in(standing, runs, kit, ways)
    broken = any(_broken(entry, tables) for entry in standing)
    shut, opened = (tuple(name for name, each in opens.items() if each is told) for told in (False, True))
    run = last_run(standing)
    stops = stops_counted(standing, runs, kit, ways.led, tables)
    return ShownSoFar(shut, frozenset(kinked), left, _tried(runs, kit, ways), broken, opened, run, stops)


class _Ways:
    """Which way pushes went, by a sheet that is drawn only where that is to be known."""

    def __init__(self, sheet: Sheet[SiteSheet] | None, tables: Tables) -> None:
        self.sheet, self.tables = sheet, tables
        self._known: dict[int, tuple[WayGone, str | None]] = {}

    @cached_property
    def _network(self) -> Network | None:
        with suppress(BadInput):  # it is told where the plan is made
            return network_of(self.sheet, self.tables) if self.sheet else None
        return None

    def _by_map(self, run: Run) -> tuple[WayGone, str | None]:
        told = WayGone(run.direction, run.direction)
        if self._network is None:
            return told, None
        if run.started.number not in self._known:
            self._known[run.started.number] = way_by_map(run.entries, self._network, self.tables)
        return self._known[run.started.number]

    def gone(self, run: Run) -> WayGone:
        """As it was told where no sheet says otherwise."""
        return self._by_map(run)[0]

    def led(self, run: Run) -> Led:
        """The ports of the opening that the rod may have gone by, both where the way told is in doubt; and
        the mouth of its channel, where that is sure."""
        gone, mouth = self._by_map(run)
        return (PORTS[UNKNOWN], None) if gone.doubted else (run.ports, mouth)


def _left_in(standing: Sequence[Entry], runs: Sequence[Run], kit: Kit, ways: _Ways) -> tuple[LeftIn, ...]:
    """Those of pushes that have ended: a head that is held in an open one is still in somebody's hands."""
    readings, found = readings_of(standing), []
    for run, entry in left_in(runs):
        if run.ended is None:
            continue
        rod = None if entry.kind == START else readings[entry.number].inside
        # Gear that lies there bars every mouth: nobody goes in beside it on a belief.
        gear, (ports, _) = run.loadout or "", ways.led(run)
        way = doubt_words(ways.gone(run), run.opening, ways.tables.in_pipe)
        found.append(
            LeftIn(run.started.number, run.opening, ports, gear or "the gear", kit.parts(gear), rod, *way)
        )
    return tuple(found)


def _broken(entry: Entry, tables: Tables) -> bool:
    """Whether it tells a find that is a break, or soil or bits of pipe that a machine brought."""
    if entry.kind == FIND:
        return tables.finds.is_broken(str(entry.data["what"]))
    return entry.kind == MACHINE and entry.data.get("brought") == BROKEN


def _tried(runs: Sequence[Run], kit: Kit, ways: _Ways) -> tuple[TriedBefore, ...]:
    """What was tried at hard spots of the plan; of other places only a sentence tells."""
    found = (
        TriedBefore(
            run.opening,
            *ways.led(run),
            str(entry.data["spot"]),
            str(entry.data["technique"]),
            kit.parts(run.loadout or ""),
            entry.data.get("outcome") == PASSED,
            wedged(entry),
            run.started.number,
        )
        for run in runs
        for entry in run.entries
        if entry.kind == TRY and entry.data.get("spot")
    )
    return tuple(dict.fromkeys(found))
