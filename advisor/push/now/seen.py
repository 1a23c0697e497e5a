"""How much of what was to be seen the lens has passed: by the counter, and where it cannot tell by the sheet.

On the safe side: what the log does not show to have passed the lens counts as not seen. From the opening to
where the stretch begins it is as far as the push read it there, else as the sheet has it, and no more of the
stretch is counted than it has. Which way it went the start of the push tells, else what was passed, if sure.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from advisor.push.log.kinds import (
    AS_PLANNED,
    DOWN,
    END,
    HAD_OUT,
    MARK,
    PORTS,
    SHUT,
    START,
    UNKNOWN,
    UP,
)
from advisor.push.log.log import Entry, entry_text
from advisor.push.log.went_in import lens_in
from advisor.push.now.stretches import joined, long
from advisor.push.now.way_gone import WayGone
from advisor.push.track.depth import path, path_length
from advisor.push.track.leg import NO_DISTANCE, Leg
from advisor.site.network import Network, Piece
from advisor.site.target import Target
from advisor.tables.load import Tables


@dataclass(frozen=True)
class Run:
    """One push: where from, how far in the lens was at the farthest, m, and what the operator said at last.

    That it follows the counter where that was set anew on the way.
    """

    opening: str
    direction: str  # which way the opening leads, as it was told at the start
    loadout: str | None
    started: Entry
    went_in: float | None  # nothing where it was not read
    ended: Entry | None
    points: tuple[tuple[str, float], ...]  # line and m down it of everything tied to the plan
    entries: tuple[Entry, ...]
    gone: str | None = None  # which way it went by what it passed, where somebody has looked at that
    hardly: float | None = None  # how likely it reached what it went for, told so, but hardly by the tracker
    of_part: bool = False  # whether that was no more than a part of what was to be seen

    def told_to(self, port: str) -> bool:
        """Whether the way told is the one by a port of the opening; in older logs any is that was known."""
        return self.direction == AS_PLANNED or PORTS.get(self.direction) == (port,)

    @property
    def ports(self) -> tuple[str, ...]:
        """The ports of the opening that it may have gone by."""
        return PORTS.get(self.direction, PORTS[UNKNOWN])

    @property
    def way(self) -> WayGone:
        """The way that was told, and that by which the push is taken."""
        told = str(self.started.data.get("direction") or self.direction)
        return WayGone(told, self.direction)

    @property
    def told_reached(self) -> bool:
        """Whether the operator said at the end that all of it was seen."""
        return self.ended is not None and self.ended.data.get("reached") is True and not self.of_part

    @property
    def reached(self) -> bool:
        """The same, where counter and sheet do not speak against it."""
        return self.told_reached and self.hardly is None


@dataclass(frozen=True)
class Coverage:
    """The stretch that was to be seen and what of it was, all in m down one line.

    `by_counter`, `by_passed` and `by_sheet` say what it rests on: the counter alone, the counter on the way
    that is known by what the lens passed, and the places to which entries are tied. `unsure` is whether
    more rod went in than it is sure on which way. `met` is what of the map was told on the way, by the ids of
    its pieces; `end_seen` whether that was an end of it; `counted` what the counter tells up to an end seen.
    """

    line: str
    low: float
    high: float
    seen: tuple[tuple[float, float], ...]
    by_counter: bool = False
    by_passed: bool = False
    by_sheet: bool = False
    unsure: bool = False
    met: frozenset[str] = frozenset()
    end_seen: bool = True
    counted: float | None = None

    def seen_to(self, at: float, slack: float, counted: float) -> Coverage:
        """The same up to an end that was seen, where no more than that is wanting and the way is sure."""
        gaps = [gap for gap in self.unseen if at in gap and gap[1] - gap[0] <= slack]
        if not gaps or not self.seen or self.unsure:
            return self
        seen = joined([*self.seen, *gaps], self.low, self.high)
        return replace(self, seen=seen, counted=counted if self.counted is None else self.counted)

    @property
    def length(self) -> float:
        """How long the stretch is."""
        return self.high - self.low

    @property
    def seen_length(self) -> float:
        """How much of it was seen."""
        return long(self.seen)

    @property
    def unseen(self) -> tuple[tuple[float, float], ...]:
        """What of it was not seen."""
        found, at = [], self.low
        for low, high in self.seen:
            if low > at:
                found.append((at, low))
            at = max(at, high)
        return tuple([*found, (at, self.high)] if at < self.high else found)


def runs_of(standing: Iterable[Entry]) -> tuple[Run, ...]:
    """The pushes of a log, in order; what was told before the first start belongs to none."""
    standing = tuple(standing)
    out = [entry for entry in standing if entry.kind == HAD_OUT]
    return tuple(
        _run([*told, *(entry for entry in out if entry.data.get("push") == told[0].number)])
        for told in pushes_told(standing)
    )


def pushes_told(standing: Iterable[Entry]) -> list[list[Entry]]:
    """The entries of each push, its start first."""
    runs: list[list[Entry]] = []
    for entry in standing:
        if entry.kind == START:
            runs.append([entry])
        elif runs and entry.kind not in (SHUT, HAD_OUT):
            runs[-1].append(entry)
    return runs


def _run(entries: list[Entry]) -> Run:
    start = entries[0]
    far = [max(inside, 0.0) for inside in lens_in(entries).values()]
    points = []
    for entry in entries:
        line, distance = entry.data.get("line"), entry.data.get("distance")
        if isinstance(line, str) and isinstance(distance, int | float) and entry.kind != MARK:
            points.append((line, float(distance)))
    loadout = entry_text(start, "loadout")
    direction = str(start.data.get("direction") or AS_PLANNED)
    ended = next((entry for entry in entries if entry.kind == END), None)
    opening = str(start.data["opening"])
    went_in = max(far, default=None)
    return Run(opening, direction, loadout, start, went_in, ended, tuple(points), tuple(entries))


@dataclass(frozen=True)
class Taken:
    """The likeliest way of a push, how many m of it are sure, and whether what was passed tells it; `came` is
    how many m of it the lens came in at the least, where counter and sheet part."""

    legs: tuple[Leg, ...]
    until: float
    by_passed: bool
    came: float
    port: str  # by which it leaves the opening, as it is told


def coverage_of(
    runs: Iterable[Run],
    network: Network,
    tables: Tables,
    target: Target,
    taken: Callable[[Run], Taken | None],
    read: Callable[[Run], Mapping[str, float]],
) -> Coverage:
    """What of the stretch the pushes have shown; `taken` gives the way of a push as far as it is sure, `read`
    how far in each landmark that it passed was by its counter, m, by the id of its piece."""
    low, high = stretch_of(network, target)
    found: list[tuple[float, float]] = []
    by_counter = by_passed = by_sheet = unsure = False
    for run in runs:
        counted = _counted(run, network, tables, target.line, (low, high), read)
        shown = counted
        # Known is only which way the opening leads: at a fork the rod may still have left the line.
        way = None if counted == [] else taken(run)
        as_told = way is not None and run.direction in (DOWN, UP) and run.told_to(way.port)
        if way is not None and (way.by_passed or as_told):
            went_in = run.went_in or 0.0
            passed = along(way.legs, min(went_in, way.until, way.came), target.line)
            if counted is None or long(joined(passed, low, high)) < long(counted) - NO_DISTANCE:
                shown = passed if passed or counted is not None else None
                by_passed |= bool(shown) and way.by_passed
                by_counter |= bool(shown) and not way.by_passed
                unsure |= went_in > way.until
        by_counter |= bool(shown) and shown is counted
        if shown is None:
            shown = _tied(run, network, target.line)
            by_sheet |= bool(shown)
        found += shown
    rests = (by_counter, by_passed, by_sheet, unsure)
    return Coverage(target.line, low, high, joined(found, low, high), *rests)


def stretch_of(network: Network, target: Target) -> tuple[float, float]:
    """From where to where on its line the target runs, m."""
    tops = network.positions(target.line)
    span = [piece for piece in target.span if piece in tops]
    low = min((tops[piece] for piece in span), default=0.0)
    return low, max((tops[piece] + network.pieces[piece].along for piece in span), default=0.0)


def _tied(run: Run, network: Network, line: str) -> list[tuple[float, float]]:
    """What one push has shown of a line by the places on the sheet to which its entries are tied."""
    here = [distance for name, distance in run.points if name == line]
    start = way_in(run, network)
    if start is not None and start.line == line:
        here.append(network.positions(line)[start.id])
    return [(min(here), max(here))] if len(here) > 1 else []


def way_in(run: Run, network: Network) -> Piece | None:
    """The opening of a push; nothing where the sheet has it no longer."""
    return next((piece for piece in network.openings() if piece.name == run.opening), None)


def _counted(
    run: Run,
    network: Network,
    tables: Tables,
    line: str,
    stretch: tuple[float, float],
    read: Callable[[Run], Mapping[str, float]],
) -> list[tuple[float, float]] | None:
    """What one push has shown of a stretch by its counter; None: it cannot tell."""
    start, went_in = way_in(run, network), run.went_in
    if start is None or went_in is None:
        return None
    low, high = stretch
    for way in (path(network, start.id, line, at) for at in stretch):
        # An end that lies at the opening itself is reached whichever way was told.
        if way is None or not (way.length < NO_DISTANCE or run.told_to(way.leads(network, start, tables))):
            return None
    ends = [(path_length(network, tables, start, line, at), at) for at in stretch]
    reached = [(length, at) for length, at in ends if length is not None]
    if len(reached) < 2:
        return None
    (near, at), (far, other) = sorted(reached)
    # From an opening inside the stretch either way may have been taken: then only what was tied to it counts.
    if far - near < (high - low) - 1e-6:
        return None
    if went_in <= 0:
        return []
    # What was seen where the stretch begins tells better than the sheet how far in that is.
    tops, passed = network.positions(line), read(run)
    near = next(
        (m for piece, m in passed.items() if piece in tops and abs(tops[piece] - at) < NO_DISTANCE), near
    )
    on = min(went_in - near, high - low)
    if on <= 0:
        return []
    return [(at, at + on) if other > at else (at - on, at)]


def along(legs: Iterable[Leg], went_in: float, line: str) -> list[tuple[float, float]]:
    """The parts of a line that lie on the first `went_in` m of a way."""
    found = []
    for leg in legs:
        on = min(leg.length, went_in - leg.start)
        if leg.line == line and leg.fall and on > 0:
            end = leg.place + leg.fall * on
            found.append((min(leg.place, end), max(leg.place, end)))
    return found
