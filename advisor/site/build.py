"""A checked site sheet to a network: lines laid out piece by piece, then joined."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from advisor.errors import BadInput
from advisor.evidence import TOLD, Evidence, Grade
from advisor.quantity import Chances, Estimate, Known, Stated, belief_of
from advisor.site import pieces as p
from advisor.site.lies import junction_lie, line_place, turning, vertical_at
from advisor.site.network import Assumption, Hole, Network, Piece, Wall, join, likely
from advisor.site.sheet import LineSheet, SiteSheet, as_listed, fixture_kind
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
    builder.join_lines()
    builder.name_unknown_fittings()
    return Network(
        site.site,
        site.region,
        site.built,
        builder.pieces,
        {name: tuple(ids) for name, ids in builder.lines.items()},
        builder.links,
        site.map,
        tuple(builder.assumed),
    )


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


class _Builder:
    def __init__(self, sheet: Sheet[SiteSheet], tables: Tables) -> None:
        self.sheet, self.site, self.tables = sheet, sheet.model, tables
        self.pieces: dict[str, Piece] = {}
        self.lines: dict[str, list[str]] = {}
        self.links: dict[tuple[str, str], tuple[str, str]] = {}
        self.assumed: list[Assumption] = []
        self.arms: dict[str, str] = {}  # junction piece id -> line of the arm that joins there
        self.faults: list = []

    # -- one line -----------------------------------------------------------------------------

    def lay(self, index: int, line: LineSheet) -> None:
        place = line_place(line)
        size = self._size(line.line, line.size, place)
        wall = self._wall(line.line, place, size, line.material, line.condition)
        state = _State(line, place, wall, self._slope(line.line, line.slope, size))
        self.lines[line.line] = []
        for number, entry in enumerate(line.pieces):
            if entry.at is not None:
                self._reach(state, entry, index, number)
            self._entry(state, entry, number, index)

    def _reach(self, state: _State, entry: p.Entry, index: int, number: int) -> None:
        """Running footage: the pipe up to a stated position is what is missing so far."""
        gap = entry.at.likely - state.run if entry.at else 0.0
        if gap < -_ONE:
            self.faults.append(
                self.sheet.fault(
                    "at: this lies above the piece before it; expected running footage from the opening above",
                    "lines", index, "pieces", number, "at",
                )
            )
        elif gap > _ONE:
            self._add(state, "pipe", "pipe", length=self._length(Stated(gap, gap, gap, entry.at.rough)))

    def _entry(self, state: _State, entry: p.Entry, number: int, index: int) -> None:
        mark = {"landmark": entry.landmark, "entry": entry}
        if isinstance(entry, p.ChangeEntry):
            self._change(state, entry.change)
        elif isinstance(entry, p.PipeEntry | p.BellyEntry | p.DropEntry | p.RiseEntry):
            kind = next(key for key in ("pipe", "belly", "drop", "rise") if hasattr(entry, key))
            length = self._length(getattr(entry, kind), state.line.line, kind)
            upright = kind in ("drop", "rise")
            self._add(state, kind, entry.name or kind, length=length, vertical=upright, entry=entry)
            if entry.landmark:
                # What marks a run of pipe is met at its lower end, as one walks down the line.
                self._add(state, "mark", entry.landmark, landmark=entry.landmark, vertical=upright)
        elif isinstance(entry, p.BendEntry):
            fitting = self._told(entry.bend, self.tables.bends)
            angle, roll = self._given(entry.angle), self._given(entry.roll)
            self._add(
                state, "bend", entry.name or entry.bend or "bend", fitting=fitting, angle=angle, roll=roll, **mark
            )
        elif isinstance(entry, p.JunctionEntry):
            self._junction(state, entry)
        elif isinstance(entry, p.OpeningEntry):
            self._opening(state, entry)
        elif isinstance(entry, p.FixtureEntry):
            self._fixture(state, entry, first=number == 0)
        elif isinstance(entry, p.JointEntry):
            self._add(state, "joint", f"{entry.joint} joint", length=self._given(entry.step), **mark)
        elif isinstance(entry, p.TrapEntry | p.ValveEntry | p.TankEntry):
            key = next(k for k in ("trap", "valve", "tank") if hasattr(entry, k))
            fitting = self._told(getattr(entry, key), self.tables.stoppers)
            self._add(state, "stopper", entry.name or getattr(entry, key), fitting=fitting, **mark)
        elif isinstance(entry, p.CappedEntry):
            self._add(state, "cap", entry.name or "capped end", **mark)
        elif isinstance(entry, p.EndEntry):
            self._add(state, "end", entry.end, **mark)

    def _opening(self, state: _State, entry: p.OpeningEntry) -> None:
        kind = as_listed(entry.kind, self.tables.openings) if entry.kind else ""
        if not kind:
            kind = "floor cleanout" if self.site.region == "north america" else "inspection chamber"
            self._assume(f"kind of {entry.opening}", kind, Chances(((kind, 1.0),), _judged()))
        hole = Hole(
            kind,
            entry.water,
            bool(entry.buried),
            entry.depth.likely if entry.depth else None,
            entry.opens,
            None,
            Known(entry.size.likely, TOLD) if entry.size else None,
        )
        self._add(state, "opening", entry.opening, hole=hole, landmark=entry.landmark, entry=entry)
        state.run = 0.0

    def _junction(self, state: _State, entry: p.JunctionEntry) -> None:
        fitting = self._told(entry.fitting, self.tables.junctions)
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
            self.arms[piece.id] = entry.joined_by

    def _fixture(self, state: _State, entry: p.FixtureEntry, first: bool) -> None:
        """At the top of a line a fixture is its start; further down it is a short arm that joins."""
        kind = self.tables.fixtures[fixture_kind(entry, self.tables)]
        label = entry.label or entry.fixture
        # A trap in the wall (a standpipe) cannot be taken off, so there is no way in.
        opening = kind.opening if entry.trap != "in wall" else None
        hole = Hole(opening, entry.water, fixture=kind.name, short_entry=not first) if opening else None
        if first:
            self._add(state, "opening" if hole else "cap", label, hole=hole, landmark=entry.landmark, entry=entry)
            state.run = 0.0
            return
        arm = f"{label} arm"
        size = Known(entry.size.likely, TOLD) if entry.size else kind.outlet_nominal[self.site.region]
        inner = LineSheet(line=arm, kind="branch", pieces=())
        wall = self._wall(arm, "branch", size, None, None)
        inside = _State(inner, "branch", wall, self._slope(arm, None, size))
        self.lines[arm] = []
        self._add(inside, "opening" if hole else "cap", label, hole=hole, entry=entry)
        length = self._length(entry.arm, arm, "pipe") if entry.arm else self.tables.typical["fixture arm"]
        self._add(inside, "pipe", "trap arm", length=length)
        fitting = self._told(entry.fitting, self.tables.junctions)
        piece = self._add(
            state, "junction", label, fitting=fitting, side=entry.side, branch=arm, landmark=entry.landmark,
            entry=entry,
        )
        self.arms[piece.id] = arm

    def _change(self, state: _State, change: p.Change) -> None:
        state.changes += 1
        name = f"{state.line.line}/from {state.since} ({state.changes})"
        size = Known(change.size.likely, TOLD) if change.size else state.wall.nominal
        if change.material or change.condition:
            wall = self._wall(name, state.place, size, change.material, change.condition)
            if not change.material:
                wall = replace(wall, material=state.wall.material)
        else:
            wall = replace(state.wall, id=name, nominal=size)
        if abs(size.value - state.wall.nominal.value) > _ONE:
            self._add(state, "reducer", "change of size")
        if change.slope:
            state.slope = Known(change.slope.likely, TOLD)
        state.wall = wall

    def _add(self, state: _State, kind: str, name: str, **more: object) -> Piece:
        line = state.line.line
        if kind in ("opening", "junction", "end", "stopper", "cap") or more.get("landmark"):
            key = f"{line}/{kind}:{name}"
            if key in self.pieces:
                state.counts[key] = state.counts.get(key, 1) + 1
                key = f"{key} ({state.counts[key]})"
            state.since = str(more.get("landmark") or name)
        else:
            count = state.counts.get(f"{state.since}/{kind}", 0) + 1
            state.counts[f"{state.since}/{kind}"] = count
            key = f"{line}/after {state.since}/{kind} {count}"
            while key in self.pieces:
                count += 1
                key = f"{line}/after {state.since}/{kind} {count}"
        piece = Piece(key, kind, name, line, state.wall, slope=state.slope, **more)  # type: ignore[arg-type]
        self.pieces[key] = piece
        if self.lines[line]:
            join(self.links, (self.lines[line][-1], "down"), (key, "up"))
        self.lines[line].append(key)
        state.run += likely(piece.length) if kind not in ("joint",) else 0.0
        return piece

    # -- values that nobody gave --------------------------------------------------------------

    def _size(self, line: str, given: Stated | None, place: str) -> Known:
        if given is not None:
            return Known(given.likely, TOLD)
        size = self.tables.typical_size(self.site.region, place)
        self._assume(f"size of {line}", "", size)
        return size

    def _slope(self, line: str, given: Stated | None, size: Known) -> Known:
        if given is not None:
            return Known(given.likely, TOLD)
        slope = self.tables.minimum_slope(self.site.region, size.value)
        self._assume(f"slope of {line}", "the code minimum", slope)
        return slope

    def _wall(self, name: str, place: str, size: Known, material: str | None, condition: str | None) -> Wall:
        if material is not None:
            materials = Chances(((self.tables.material_name(material), 1.0),), TOLD)
        else:
            materials = self.tables.likely_material(self.site.region, self.site.built, place)
            self._assume(f"material of {name}", "", materials)
        if condition is not None and condition.lower() != "unknown":
            conditions = self._told(condition, self.tables.conditions)
        else:
            conditions = self.tables.likely_condition(materials.likeliest, self.site.built)
            self._assume(f"condition of {name}", "", conditions)
        return Wall(name, size, materials, conditions)

    def _length(self, given: Stated | None, line: str = "", kind: str = "pipe") -> Known | Estimate:
        """A stated length may be off by as much as the map is; an unknown one is a wide guess."""
        if given is None:
            guess = self.tables.typical[f"unknown {kind}"]
            self._assume(f"length of a {kind} in {line}", "", guess)
            return guess
        told = belief_of(given, self.tables.limits["rough_share"].likely)
        if isinstance(told, Estimate):
            return told
        error = self.tables.limits[f"map_error_{self.site.map}"].likely * told.value
        note = Evidence(Grade.TOLD, note=f"map: {self.site.map}")
        return Estimate(told.value - error, told.value, told.value + error, note)

    def _given(self, given: Stated | None) -> Known | Estimate | None:
        return belief_of(given, self.tables.limits["rough_share"].likely) if given else None

    def _told(self, name: str | None, known: Iterable[str]) -> Chances | None:
        return Chances(((as_listed(name, known), 1.0),), TOLD) if name else None

    def _assume(self, about: str, taken: str, belief: Known | Estimate | Chances) -> None:
        self.assumed.append(Assumption(about, taken, belief))

    # -- joining ------------------------------------------------------------------------------

    def join_lines(self) -> None:
        tied = {
            line.line: piece.tied_to
            for line in self.site.lines
            for piece in line.pieces
            if isinstance(piece, p.TiedEntry)
        }
        for piece_id, line in self.arms.items():
            upper = tied.get(line) == self.pieces[piece_id].line
            end = self.lines[line][0 if upper else -1]
            join(self.links, (end, "up" if upper else "down"), (piece_id, "branch"))

    def name_unknown_fittings(self) -> None:
        """Lies and unknown fittings need the neighbours, so they are settled last."""
        region, year = self.site.region, self.site.built
        for line, ids in self.lines.items():
            for index, piece_id in enumerate(ids):
                piece = replace(self.pieces[piece_id], vertical=vertical_at(self.pieces, ids, index))
                if piece.kind == "junction":
                    arm = self.lines.get(piece.branch or "", [])
                    lie = junction_lie(self.pieces, piece, arm)
                    size = self.pieces[arm[-1]].wall.nominal.value if arm else piece.wall.nominal.value
                    fitting = piece.fitting
                    if fitting is None:
                        vent = line_place_of(self.site, line) == "vent"
                        fitting = self.tables.likely_junction(
                            region, year, "vent" if vent else lie, size, piece.wall.nominal.value
                        )
                        self._assume(f"fitting where {piece.branch} joins {line}", "", fitting)
                    piece = replace(piece, lie=lie, fitting=fitting)
                elif piece.kind == "bend" and piece.fitting is None:
                    fitting = self.tables.likely_bend(
                        region, year, turning(self.pieces, ids, index, line_place_of(self.site, line))
                    )
                    self._assume(f"bend in {line}", "", fitting)
                    piece = replace(piece, fitting=fitting)
                self.pieces[piece_id] = piece


def line_place_of(site: SiteSheet, name: str) -> str:
    """The place (stack, drain, branch, vent, sewer) of the line called `name`."""
    return next((line_place(line) for line in site.lines if line.line == name), "branch")


def _judged() -> Evidence:
    return Evidence(Grade.JUDGEMENT, "own")
