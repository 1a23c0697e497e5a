"""A checked site sheet to a network: lines laid out piece by piece, then joined."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from advisor.errors import BadInput, Fault
from advisor.evidence import Evidence, Grade
from advisor.quantity import Chances, Dimension, Known, Stated
from advisor.site import pieces as p
from advisor.site.believed import Believed
from advisor.site.joining import Laid, join_lines, name_unknown_fittings, refuse_circles
from advisor.site.lies import line_place
from advisor.site.names import fixture_kind
from advisor.site.network import Hole, Network, Piece, Wall, join, likely
from advisor.site.reached_in import without_chamber
from advisor.site.sheet import LineSheet, SiteSheet
from advisor.strict_yaml import Sheet
from advisor.tables.load import Tables

_ONE = 1e-6  # m: a stated position may round to the piece before it


def network_of(sheet: Sheet[SiteSheet], tables: Tables) -> Network:
    """Lay out and join every line; raises BadInput where positions contradict each other."""
    site = sheet.model
    builder = _Builder(sheet, tables)
    for index, line in enumerate(site.lines):
        builder.lay(index, line)
    if builder.faults:
        raise BadInput(builder.faults)
    join_lines(builder.laid, site)
    refuse_circles(builder.laid, sheet)
    name_unknown_fittings(builder.laid, site, builder.believed)
    network = Network(
        site.site,
        site.region,
        site.built,
        builder.laid.pieces,
        {name: tuple(ids) for name, ids in builder.laid.lines.items()},
        builder.laid.links,
        site.map,
        tuple(builder.believed.assumed),
    )
    return without_chamber(network, tables).looked_beside()


@dataclass
class _State:
    """What holds along a line until something changes it."""

    line: LineSheet
    place: str
    wall: Wall
    slope: Known
    changes: int = 0
    since: str = "the top"
    counts: dict[str, int] = field(default_factory=dict)
    run: float = 0.0  # likely m since the last opening above
    guessed: str | None = None  # the pipe of unknown length since the last known position


class _Builder:
    def __init__(self, sheet: Sheet[SiteSheet], tables: Tables) -> None:
        self.sheet, self.site, self.tables = sheet, sheet.model, tables
        self.laid = Laid({}, {}, {}, {})
        self.believed = Believed(self.site, tables)
        self.faults: list[Fault] = []

    def lay(self, index: int, line: LineSheet) -> None:
        place = line_place(line)
        size = self.believed.size(line.line, line.size, place)
        wall = self.believed.wall(line.line, place, size, line.material, line.condition, line.laid)
        state = _State(line, place, wall, self.believed.slope(line.line, line.slope, size))
        self.laid.lines[line.line] = []
        for number, entry in enumerate(line.pieces):
            self._reach(state, entry, index, number)
            self._entry(state, entry, number, index)

    def _reach(self, state: _State, entry: p.Entry, index: int, number: int) -> None:
        """Running footage: the pipe up to a stated position is what is missing so far."""
        at = entry.at
        if at is None:
            return
        known, guessed = state.run, state.guessed
        if guessed is not None:
            known -= likely(self.laid.pieces[guessed].length)
        low, gap, high = at.low - known, at.likely - known, at.high - known
        if gap < -_ONE or (guessed is not None and gap < _ONE):
            self.faults.append(
                self.sheet.fault(
                    "at: this lies above the piece before it; expected footage from the opening above",
                    *("lines", index, "pieces", number, "at"),
                )
            )
        elif gap > _ONE:
            stated = Stated(max(low, 0.0), gap, high, at.rough, at.assumed)
            length = self.believed.length(stated, self._length_of("pipe", state))
            if guessed is None:
                self._add(state, "pipe", "pipe", length=length)
            else:
                # The footage tells how long the unknown pipe is.
                self.laid.pieces[guessed] = replace(self.laid.pieces[guessed], length=length)
                self.believed.forget_length()
                state.run = known + likely(length)
        state.guessed = None

    def _entry(self, state: _State, entry: p.Entry, number: int, index: int) -> None:
        mark = {"landmark": entry.landmark, "entry": entry}
        if isinstance(entry, p.ChangeEntry):
            self._change(state, entry.change)
        elif isinstance(entry, p.PipeEntry | p.BellyEntry | p.DropEntry | p.RiseEntry):
            kind = next(key for key in ("pipe", "belly", "drop", "rise") if hasattr(entry, key))
            length = self.believed.length(getattr(entry, kind), self._length_of(kind, state), kind)
            upright = kind in ("drop", "rise")
            laid = self._add(state, kind, entry.name or kind, length=length, vertical=upright, entry=entry)
            if kind == "pipe" and entry.pipe is None:  # type: ignore[union-attr]
                state.guessed = laid.id
            if entry.landmark:
                # What marks a run of pipe is met at its lower end, as one walks down the line.
                self._add(state, "mark", entry.landmark, landmark=entry.landmark, vertical=upright)
        elif isinstance(entry, p.BendEntry):
            self._bend(state, entry)
        elif isinstance(entry, p.JunctionEntry):
            self._junction(state, entry)
        elif isinstance(entry, p.OpeningEntry):
            self._opening(state, entry)
        elif isinstance(entry, p.FixtureEntry):
            self._fixture(state, entry, first=number == 0)
        elif isinstance(entry, p.JointEntry):
            step = self.believed.given(entry.step, f"step of the joint in {state.line.line}")
            self._add(state, "joint", f"{entry.joint} joint", length=step, **mark)
        elif isinstance(entry, p.TrapEntry | p.ValveEntry | p.TankEntry):
            key = next(k for k in ("trap", "valve", "tank") if hasattr(entry, k))
            name = entry.name or getattr(entry, key)
            fitting = self.believed.told(
                getattr(entry, key), self.tables.stoppers, f"{key} in {state.line.line}"
            )
            self._add(state, "stopper", name, fitting=fitting, **mark)
        elif isinstance(entry, p.CappedEntry):
            self._add(state, "cap", entry.name or "capped end", **mark)
        elif isinstance(entry, p.EndEntry):
            self._add(state, "end", entry.end, fitting=self.believed.ends_in(entry, state.line), **mark)

    def _length_of(self, kind: str, state: _State) -> str:
        return f"length of a {kind} in {state.line.line}, below {state.since}"

    def _bend(self, state: _State, entry: p.BendEntry) -> None:
        about = f"bend in {state.line.line}, below {state.since}"
        told = entry.bend if entry.there is not False else None
        laid = self._add(
            state,
            "bend",
            entry.name or entry.bend or "bend",
            fitting=self.believed.told(told, self.tables.bends, about) if told else None,
            angle=self.believed.given(entry.angle, f"angle of the {about}", Dimension.ANGLE),
            roll=self.believed.given(entry.roll, f"roll of the {about}", Dimension.ANGLE),
            landmark=entry.landmark,
            entry=entry,
        )
        if entry.there is False:  # it keeps its id, so that the bends behind it keep theirs
            self.laid.pieces[laid.id] = replace(laid, kind="mark", angle=None, roll=None)

    def _opening(self, state: _State, entry: p.OpeningEntry) -> None:
        if entry.there == 0:
            # Its place keeps its name, so that a stretch may be told by it; otherwise it is plain pipe.
            self._add(state, "mark", entry.opening, landmark=entry.landmark, entry=entry)
            return
        about = f"kind of {entry.opening}"
        if entry.kind:
            kind = self.believed.told(entry.kind, self.tables.openings, about).likeliest
        else:
            kind = "floor cleanout" if self.site.region == "north america" else "inspection chamber"
            self.believed.assume(about, kind, Chances(((kind, 1.0),), Evidence(Grade.JUDGEMENT, "own")))
        hole = Hole(
            kind,
            entry.water,
            bool(entry.buried),
            self.believed.depth(kind, entry.opening, entry.depth),
            self.believed.opens(kind, entry.opens, entry.water),
            size=self.believed.one(entry.size, f"size of {entry.opening}") if entry.size else None,
            there=self.believed.there(entry),
            opened=self.believed.opened(kind, entry),
            deepest=self.believed.most(entry.depth),
            crawl=False if entry.cellar and entry.crawl is None else entry.crawl,
        )
        self._add(state, "opening", entry.opening, hole=hole, landmark=entry.landmark, entry=entry)
        state.run, state.guessed = 0.0, None

    def _junction(self, state: _State, entry: p.JunctionEntry) -> None:
        fitting = self._junction_kind(entry.fitting, entry.joined_by, state)
        piece = self._add(
            state,
            "junction",
            entry.name or entry.joined_by,
            fitting=fitting,
            side=entry.side,
            branch=entry.joined_by,
            upside_down=bool(entry.upside_down),
            landmark=entry.landmark,
            entry=entry,
        )
        if entry.drawn is not False:
            self.laid.arms[piece.id] = entry.joined_by

    def _junction_kind(self, name: str | None, arm: str, state: _State) -> Chances | None:
        about = f"fitting where {arm} joins {state.line.line}"
        return self.believed.told(name, self.tables.junctions, about) if name else None

    def _fixture(self, state: _State, entry: p.FixtureEntry, first: bool) -> None:
        """At the top of a line a fixture is its start; further down it is a short arm that joins."""
        kind = self.tables.fixtures[fixture_kind(entry, self.tables)]
        label = entry.label or entry.fixture
        # A trap in the wall (a standpipe) or in the floor (a bath) cannot be taken off: there is no way in.
        opening = kind.opening if entry.trap is None else None
        hole = Hole(opening, entry.water, fixture=kind.name, short_entry=not first) if opening else None
        if first:
            self._add(
                state, "opening" if hole else "cap", label, hole=hole, landmark=entry.landmark, entry=entry
            )
            state.run = 0.0
            return
        arm = self._free_line(f"{label} arm")
        usual = kind.outlet_nominal[self.site.region]
        size = (
            self.believed.one(entry.size, f"size of {arm}")
            if entry.size
            else Known(usual.likely, usual.evidence)
        )
        inner = LineSheet(line=arm, kind="branch", pieces=())
        wall = self.believed.wall(arm, "branch", size, None, None)
        inside = _State(inner, "branch", wall, self.believed.slope(arm, None, size))
        self.laid.lines[arm] = []
        self._add(inside, "opening" if hole else "cap", label, hole=hole, entry=entry)
        length = (
            self.believed.length(entry.arm, f"length of {arm}")
            if entry.arm
            else self.tables.typical["fixture arm"]
        )
        self._add(inside, "pipe", "trap arm", length=length)
        fitting = self._junction_kind(entry.fitting, label, state)
        piece = self._add(
            state,
            "junction",
            label,
            fitting=fitting,
            side=entry.side,
            branch=arm,
            landmark=entry.landmark,
            entry=entry,
        )
        self.laid.arms[piece.id] = arm

    def _free_line(self, name: str) -> str:
        """Two basins without a label have two arms."""
        taken = {*self.laid.lines, *(line.line for line in self.site.lines)}
        return next(n for n in (name, *(f"{name} ({i})" for i in range(2, len(taken) + 3))) if n not in taken)

    def _change(self, state: _State, change: p.Change) -> None:
        state.changes += 1
        name = f"{state.line.line}/from {state.since} ({state.changes})"
        size = self.believed.one(change.size, f"size of {name}") if change.size else state.wall.nominal
        state.place = change.kind or state.place
        if change.material or change.condition or change.kind:
            # Outside the building other pipe is usual, so there the material is open again.
            material = change.material or (None if change.kind else state.wall.material)
            wall = self.believed.wall(name, state.place, size, material, change.condition, state.line.laid)
        else:
            wall = replace(state.wall, id=name, nominal=size)
        if abs(size.value - state.wall.nominal.value) > _ONE:
            self._add(state, "reducer", "change of size")
        if change.slope:
            state.slope = self.believed.one(change.slope, f"slope of {name}", Dimension.SLOPE)
        state.wall = wall

    def _add(self, state: _State, kind: str, name: str, **more: object) -> Piece:
        line = state.line.line
        entry = more.get("entry")
        # An opening that is not there still parts the pipe before it from the pipe behind it.
        named = isinstance(entry, p.Entry) and (entry.name is not None or isinstance(entry, p.OpeningEntry))
        if kind in ("opening", "junction", "end", "stopper", "cap") or more.get("landmark") or named:
            key = f"{line}/{kind}:{name}"
            if key in self.laid.pieces:
                state.counts[key] = state.counts.get(key, 1) + 1
                key = f"{key} ({state.counts[key]})"
            state.since = str(more.get("landmark") or name)
        else:
            count = state.counts.get(f"{state.since}/{kind}", 0) + 1
            state.counts[f"{state.since}/{kind}"] = count
            key = f"{line}/after {state.since}/{kind} {count}"
            while key in self.laid.pieces:
                count += 1
                key = f"{line}/after {state.since}/{kind} {count}"
        piece = Piece(key, kind, name, line, state.wall, slope=state.slope, **more)  # type: ignore[arg-type]
        self.laid.pieces[key] = piece
        if self.laid.lines[line]:
            join(self.laid.links, (self.laid.lines[line][-1], "down"), (key, "up"))
        self.laid.lines[line].append(key)
        state.run += piece.along
        return piece
