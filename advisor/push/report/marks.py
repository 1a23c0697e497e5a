"""Finds and marks of a job's log: line and distance, depth, place in plan, and what to do about each."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import isfinite, sqrt

from advisor.mechanics.field import depth_by_nulls, depth_by_two_heights
from advisor.outcome.spot_facts import may_scale
from advisor.push.log.cleared import cleared_since
from advisor.push.log.found import open_past
from advisor.push.log.kinds import FIND, MARK, RESET, SIGHTING, START
from advisor.push.log.log import Entry, entry_number, entry_text
from advisor.push.log.redrawn import redrawn
from advisor.push.log.sighting import POOL
from advisor.push.log.went_in import Reading, lens_in, readings_of
from advisor.push.report.advice import Advice
from advisor.push.report.doubt import NONE, Doubt, doubt_of
from advisor.push.track.depth import Depth, expected_depth
from advisor.push.track.ground import Ground, ground_of
from advisor.push.track.place import Place, place_of
from advisor.site.network import Network, Piece
from advisor.site.sheet import SiteSheet
from advisor.tables.finds import CLEANING, DIG, LOCATE, Advised
from advisor.tables.load import Tables
from advisor.tables.open_past import with_open

_READ = ("depth", "near", "far", "spacing")  # what is read above ground for a depth
_DRAWN_ANEW = "the sheet was changed after the push that told it"
IRON = ("cast iron", "extra heavy cast iron", "galvanised steel")


@dataclass(frozen=True)
class Taped:
    """m along the line from the first fixed point to the second, and m off it (to which side is not said)."""

    along: float
    off: float


@dataclass(frozen=True)
class Beside:
    """A depth, m, that was measured at the find or mark of that number, and how; what was expected there."""

    number: int
    how: str
    depth: float
    expected: Depth | None = None


@dataclass(frozen=True)
class Spot:
    """One find or mark. Lengths in m; what nobody said or measured is missing."""

    number: int  # by which the report calls it
    entry: int  # of the log
    kind: str
    words: str
    counter: float | None
    opening: str | None
    line: str | None
    distance: float | None
    clock: float | None
    expected: Depth | None  # from the sheet
    depths: tuple[tuple[str, float], ...]  # how it was measured, and the depth of the transmitter
    place: Place | str  # or why it is not known
    tapes: tuple[tuple[str, float], ...]
    taped: Taped | str | None  # or what is wrong with the tapes
    offset: float | None
    note: str | None
    advised: tuple[Advised, ...]  # the first of what stands in the way, then of what else was written
    own_advice: str | None
    remarks: tuple[str, ...]
    same_depth: bool | None  # whether two ways of measuring agree; nothing where there are not two
    misread: bool  # something was read above ground, and no depth comes of it
    counted_from: int  # number of the entry from which on its counter means what it says
    reading: Reading | None = None  # of the counter, with how far in that is
    ground: Ground | None = None  # where that is above ground, if its place is sure enough
    beside: tuple[Beside, ...] = ()  # depths measured at the same place, where it has none of its own
    unlike: tuple[
        Beside, ...
    ] = ()  # of others, by what was measured there: what is expected here rests on the same
    doubt: Doubt = NONE
    open_past: str | None = None  # how much of the pipe, of a find of which that was asked
    locate: bool = False  # a find whose place is too unsure for a spade

    @property
    def told(self) -> str:
        """What it is, with how much it leaves open."""
        return with_open(self.words, self.open_past)

    @property
    def to_dig(self) -> bool:
        """True where somebody may put a spade in."""
        told = (self.own_advice or "").lower()
        return self.kind == MARK or "dig" in told or any(row.advice in DIG for row in self.advised)

    @property
    def to_clean(self) -> bool:
        """True where it is to be cut or cleaned."""
        return any(row.advice in CLEANING for row in self.advised)

    def once_cleared(self, says: Advised) -> Spot:
        """The same, with that recommended in place of cutting and cleaning."""
        left = (row for row in self.advised if row.advice not in CLEANING)
        return replace(self, advised=(says, *left))

    def came_past(self) -> Spot:
        """The same, where what lies behind it was seen."""
        rows = (row.model_copy(update={"says": row.came_past or row.says}) for row in self.advised)
        return replace(self, advised=tuple(rows))

    def unlocated(self) -> Spot:
        """The same, with nobody sent there with a spade before it is located above ground."""
        first = {"advice": LOCATE}
        rows = (row.model_copy(update=first) if row.advice in DIG else row for row in self.advised)
        return replace(self, advised=tuple(rows), locate=True)


def spots(
    standing: tuple[Entry, ...], network: Network, site: SiteSheet, advice: Advice, tables: Tables
) -> tuple[Spot, ...]:
    """Every find and mark that stands, in the order in which it happened."""
    found: list[Spot] = []
    opening: str | None = None
    counted_from = 0
    readings, lens = readings_of(standing), lens_in(standing)
    farthest, drawn_anew = 0.0, False
    seen_to: dict[int, float] = {}  # how far in the lens saw on one way in, m, by what it is counted from
    for index, entry in enumerate(standing):
        # Drawn back, the rod may go in another way the next time: the same reading is then another place. A
        # find may be told of from further in, or back.
        told_of = entry.kind == FIND
        back = not told_of and entry.counter is not None and entry.counter < farthest - advice.same_place
        if entry.kind in (START, RESET) or back:
            counted_from = entry.number
            farthest = entry.counter or 0.0
        farthest = max(farthest, entry.counter or 0.0)
        if entry.kind == SIGHTING and entry.number in lens and entry.data.get("what") != POOL:
            seen_to[counted_from] = max(lens[entry.number], seen_to.get(counted_from, 0.0))
        if entry.kind == START:
            opening, drawn_anew = entry_text(entry, "opening"), redrawn(entry, network)
        elif entry.kind in (FIND, MARK):
            spot = _spot(len(found) + 1, entry, (opening, counted_from), network, site, advice, tables)
            reading = readings.get(entry.number)
            doubt = doubt_of(entry, network)
            # Nobody is sent above ground to a place of which the pipe itself is not sure, or by two sheets.
            nowhere = drawn_anew or (doubt.sure is not None and doubt.sure < advice.digs_from)
            nowhere |= doubt.somewhere
            ground = None if nowhere else _ground(spot, reading, network, tables)
            place = _DRAWN_ANEW if drawn_anew and not isinstance(spot.place, str) else spot.place
            spot = replace(spot, reading=reading, ground=ground, doubt=doubt, place=place)
            if told_of and spot.to_clean and cleared_since(standing, index, tables.where):
                spot = spot.once_cleared(advice.finds.cleared[0])
            unsure = told_of and (drawn_anew or doubt.broad(advice))
            found.append(spot.unlocated() if unsure else spot)
    return tuple(
        spot.came_past()
        if spot.reading and seen_to.get(spot.counted_from, 0.0) >= spot.reading.inside + advice.same_place
        else spot
        for spot in found
    )


def _spot(
    number: int,
    entry: Entry,
    began: tuple[str | None, int],
    network: Network,
    site: SiteSheet,
    advice: Advice,
    tables: Tables,
) -> Spot:
    opening, counted_from = began
    line, distance = entry_text(entry, "line"), entry_number(entry, "distance")
    tied = line is not None and distance is not None
    place: Place | str = "it is not tied to a line of the plan"
    expected, piece = None, None
    if line is not None and distance is not None:
        place = place_of(network, site, line, distance)
        expected = expected_depth(network, opening, line, distance) if opening else None
        piece = _piece(network, line, distance)
    words = str(entry.data.get("what") or entry.data.get("name") or "")
    depths = measured_depths(entry)
    tapes = tuple(
        (name, length)
        for side in ("a", "b")
        if (name := entry_text(entry, f"tape_{side}"))
        and (length := entry_number(entry, f"from_{side}")) is not None
    )
    between = entry_number(entry, "between")
    taped = taped_of(tapes[0][1], tapes[1][1], between) if len(tapes) == 2 and between else None
    upright = entry.data.get("upright") is True or (tied and piece is not None and piece.vertical)
    happens = {"always"} | ({"riser"} if upright else set()) | ({"alone"} if len(tapes) < 2 else set())
    if piece is None or any(name in IRON for name, _ in piece.wall.material.options):
        happens.add("iron")
    scales = piece is None or may_scale(piece.wall, tables)
    values = [depth for _, depth in depths]
    return Spot(
        number,
        entry.number,
        entry.kind,
        words,
        entry.counter,
        opening,
        line,
        distance,
        entry_number(entry, "clock"),
        expected,
        depths,
        place,
        tapes,
        taped,
        entry_number(entry, "offset"),
        entry_text(entry, "note"),
        advice.finds.advised(words, scales, open_past(entry)),
        entry_text(entry, "advice"),
        tuple(row.says for row in advice.marking.marks if row.when in happens) if entry.kind == MARK else (),
        max(values) - min(values) <= advice.agree * max(values) if len(values) > 1 else None,
        not depths and any(entry_number(entry, name) is not None for name in _READ),
        counted_from,
        open_past=open_past(entry),
    )


def _ground(spot: Spot, reading: Reading | None, network: Network, tables: Tables) -> Ground | None:
    if reading is None or spot.opening is None or spot.line is None or spot.distance is None:
        return None
    return ground_of(network, tables, spot.opening, spot.line, spot.distance, reading.inside)


def measured_depths(entry: Entry) -> tuple[tuple[str, float], ...]:
    """Each way in which the depth was measured above ground, in m from the ground to the transmitter."""
    found: list[tuple[str, float]] = []
    read = entry_number(entry, "depth")
    if read is not None:
        found.append((entry_text(entry, "how") or "read off", read))
    above = entry_number(entry, "receiver") or 0.0
    near, far, raised = (entry_number(entry, name) for name in ("near", "far", "raised"))
    if near is not None and far is not None and raised is not None and near > far > 0 and raised > 0:
        found.append(("two heights", float(depth_by_two_heights(near, far, raised)) - above))
    spacing = entry_number(entry, "spacing")
    if spacing is not None and spacing > 0:
        found.append(("two nulls", float(depth_by_nulls(spacing)) - above))
    return tuple((how, depth) for how, depth in found if isfinite(depth) and depth > 0)


def taped_of(from_a: float, from_b: float, between: float) -> Taped | str:
    """Where two tapes meet: a triangle of which three sides are measured, or in words why it is none.

    By the law of cosines: along = (a^2 - b^2 + c^2)/2c from the first point, off = sqrt(a^2 - along^2).
    """
    along = (from_a**2 - from_b**2 + between**2) / (2 * between)
    square = from_a**2 - along**2
    if square < 0:
        return "the two tapes do not meet; measure them and the distance between the fixed points again"
    return Taped(along, sqrt(square))


def _piece(network: Network, line: str, distance: float) -> Piece | None:
    if line not in network.lines:
        return None
    tops = network.positions(line)
    pieces = [network.pieces[i] for i in tops if network.pieces[i].along]
    return next((p for p in pieces if tops[p.id] <= distance <= tops[p.id] + p.along), None)
