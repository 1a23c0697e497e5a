"""Every way that the rod may have gone from an opening, whether planned or not, and what it passes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush

from advisor.outcome.entry import entry_length
from advisor.outcome.turns import has_sweep
from advisor.push.track.double import crosses_by_table, double_share, opposite, undrawn
from advisor.push.track.landmarks import Landmark, landmarks_of
from advisor.push.track.leg import Leg
from advisor.site.mouths import Mouth, beside, leads_on, mouth_by, mouths
from advisor.site.network import Network, Piece, Port
from advisor.tables.load import Tables
from advisor.tables.where import number

_PORTS: tuple[Port, ...] = ("down", "up")
MOST_WAYS = 300  # loops and many branches make more; then the list is cut, and said to be
# Minus its chance, a number of its own, legs, their numbers, and m along.
_Open = tuple[float, int, tuple[Leg, ...], tuple[int, ...], float]


@dataclass(frozen=True)
class Intent:
    """What the operator wants and what is foreseen; nothing where neither is known.

    `ports` are those that the opening may lead to; empty: as its kind says, both: nobody knows.
    `steers` maps a piece and its port in to the port out that the plan takes; `sticks` maps a passage
    (piece, port in, port out) to the chance that a gentle push is stopped there, `runs` one to the m over
    which that may happen. `crosses` maps the junction of a double fitting to the chance that a head which
    comes out of its branch and goes on there runs across into the arm opposite. `main_up`: from a chamber
    the plan goes up the line itself and into no branch that joins there. `mouth` is that into which the head
    was told to be led; None where nobody told one.
    """

    ports: tuple[str, ...] = ()
    steers: Mapping[tuple[str, str], str] = field(default_factory=dict)
    sticks: Mapping[tuple[str, str, str], float] = field(default_factory=dict)
    runs: Mapping[tuple[str, str, str], float] = field(default_factory=dict)
    crosses: Mapping[str, float] = field(default_factory=dict)
    main_up: bool = False
    mouth: Mouth | None = None


@dataclass(frozen=True)
class Way:
    """One way to its end or to the rod's; `closed` where the head cannot go on from there.

    `longer` is the number of the end that is not where the sheet draws it; on the way that is as drawn up to
    that end it is minus that. 0: nothing of the kind.
    """

    legs: tuple[Leg, ...]
    nodes: tuple[int, ...]  # the same number for the same legs up to there on another way
    length: float
    closed: bool
    prior: float
    landmarks: tuple[Landmark, ...]
    mouth: Mouth  # by which it leaves its opening
    longer: int = 0

    @property
    def port(self) -> str:
        """Which way that leads: up into every mouth of the channel of a chamber but its outlet."""
        return self.mouth.port


def ways_from(
    network: Network, opening: Piece, rod: float, tables: Tables, intent: Intent | None = None
) -> tuple[tuple[Way, ...], bool]:
    """All ways of at most `rod` m, likeliest first, and whether the list was cut short.

    A loop is followed round until the rod is out or it would be gone round the same way again.
    """
    walker = _Walker(network, rod, tables, intent or Intent())
    walker.walk(opening)
    ways = sorted(walker.found, key=lambda way: -way.prior)
    total = sum(way.prior for way in ways) or 1.0
    return tuple(replace(way, prior=way.prior / total) for way in ways), walker.cut


class _Walker:
    def __init__(self, network: Network, rod: float, tables: Tables, intent: Intent) -> None:
        self.network, self.rod, self.tables, self.intent = network, rod, tables, intent
        self.forks, self.travel = tables.where.forks, tables.where.travel
        self.tops = {line: network.positions(line) for line in network.lines}
        self.found: list[Way] = []
        self.cut = False
        self._nodes = 0
        # The junctions in the channel of the opening that is pushed from, each with the port towards it.
        self._mouths: dict[str, Port] = {}
        # What turns at each junction of a double fitting by the port out, without what crosses there.
        self._turned: dict[str, dict[str, float]] = {}

    def first_ports(self, opening: Piece) -> dict[str, float]:
        """The ports that an opening may lead to; the wrong one is never quite ruled out."""
        assert opening.hole is not None
        there = [port for port in _PORTS if (opening.id, port) in self.network.links]
        if self._mouths and "up" not in there:
            there.append("up")
        said: tuple[str, ...] = self.intent.ports or self.tables.openings[opening.hole.kind].reaches
        meant = tuple(port for port in there if port in said)
        if not meant or len(meant) == len(there):
            return {port: 1 / len(there) for port in there}  # none where no pipe leads on
        right = number(self.forks.first_way)
        rest = [port for port in there if port not in meant]
        return {
            **{port: right / len(meant) for port in meant},
            **{port: (1 - right) / len(rest) for port in rest},
        }

    def _first(self, opening: Piece, ports: Mapping[str, float]) -> Iterator[tuple[tuple[Leg, ...], float]]:
        """The first legs by each mouth, with its share: all mouths but the outlet lead up, and each may be
        the one; the plan's own is the likelier."""
        entries = {
            port: self._leg(opening, "hole", port, 0.0, entry_length(opening, port, self.tables))
            for port in _PORTS
        }
        up: list[tuple[tuple[Leg, ...], bool]] = []
        for port in ports:
            if (opening.id, port) in self.network.links:
                if port == "down":
                    yield (entries[port],), ports[port]
                elif not self._mouths or leads_on(self.network, opening, port, self.tables):
                    up.append(((entries[port],), self.intent.main_up))
        for junction, port in self._mouths.items():
            legs = [replace(entries[port], mouth=True)]
            for piece, enters in beside(self.network, opening, port, self.tables):
                out = "branch" if piece.id == junction else port
                legs.append(self._leg(piece, enters, out, legs[0].length, 0.0))
                if piece.id == junction:
                    up.append((tuple(legs), self.intent.steers.get((junction, enters)) == out))
                    break
        planned = number(self.forks.as_planned) if any(wanted for _, wanted in up) else 0.0
        for begun, wanted in up:
            yield begun, ports.get("up", 0.0) * (planned * wanted + (1 - planned) / len(up))

    def _as_told(self, begun: list[tuple[tuple[Leg, ...], float]]) -> list[tuple[tuple[Leg, ...], float]]:
        """The same by the mouth that was told, as right as a way that is told; no other is likelier."""
        told = [mouth_by(legs, self.tables) == self.intent.mouth for legs, _ in begun]
        if not any(told) or all(told):
            return begun
        right = number(self.forks.first_way)
        other = (1 - right) / told.count(False)
        return [(legs, right if here else other) for (legs, _), here in zip(begun, told, strict=True)]

    def walk(self, opening: Piece) -> None:
        """Each way along its likeliest forks to its end; what was left at a fork waits, likeliest first."""
        waiting: list[_Open] = []
        self._mouths = mouths(self.network, opening, self.tables)
        ports, shared = self.first_ports(opening), self._node()
        assert opening.hole is not None
        # Where there is a throat each way, a head that is drawn back into the entry chooses anew.
        chooses = set(ports) <= set(self.tables.openings[opening.hole.kind].reaches)
        for legs, share in self._as_told(list(self._first(opening, ports))):
            own = self._node()
            nodes = (shared if chooses else own, *(self._node() for _ in legs[1:]))
            heappush(waiting, (-share, own, legs, nodes, legs[0].length))
        while waiting:
            if len(self.found) >= MOST_WAYS:
                self.cut = True
                return
            minus, _, legs, nodes, at = heappop(waiting)
            chance = -minus
            while True:
                last = legs[-1]
                link = self.network.links.get((last.piece.id, last.leaves)) if last.leaves else None
                round_again = link is not None and any((leg.piece.id, leg.enters) == link for leg in legs)
                if link is None or at >= self.rod or round_again:
                    self._keep(legs, nodes, at, chance)
                    break
                piece, enters = self.network.pieces[link[0]], link[1]
                if enters == "branch" and (arm := undrawn(self.network, piece, self.tables)) is not None:
                    over, leg = self._crosses(piece), self._leg(piece, enters, "branch", at, piece.along)
                    self._keep_across(legs, nodes, arm, leg, chance * over)
                    chance *= 1 - over
                onward = [
                    ((*legs, self._leg(piece, enters, out, at, piece.along)), chance * share)
                    for out, share in self._onward(piece, enters, last)
                ]
                at += piece.along
                for longer, share in onward[1:]:
                    heappush(waiting, (-share, self._node(), longer, (*nodes, self._nodes), at))
                legs, chance = onward[0]
                nodes = (*nodes, self._node())

    def _onward(self, piece: Piece, enters: str, before: Leg) -> list[tuple[str, float]]:
        """The ports out of a piece, likeliest first, each with its chance; `before` it came out of that."""
        links = self.network.links
        if piece.id in self._mouths and enters != "branch":
            # Its mouth was passed by when the head was laid in: none turns into it from there.
            out = "down" if enters == "up" else "up"
            return [(out if (piece.id, out) in links else "", 1.0)]
        if piece.kind != "junction":
            out = "down" if enters == "up" else "up"
            return [(out if (piece.id, out) in links else "", 1.0)]
        outs = {
            port: chance for port, chance in self._fork(piece, enters).items() if (piece.id, port) in links
        }
        total = sum(outs.values())
        if not total:
            return [("", 1.0)]
        shares = {port: chance / total for port, chance in outs.items()}
        wanted = self.intent.steers.get((piece.id, enters))
        if wanted in shares:
            steered = number(self.forks.as_planned)
            shares = {
                port: (1 - steered) * share + steered * (port == wanted) for port, share in shares.items()
            }
        shares = self._over(piece, enters, before, shares)
        return sorted(shares.items(), key=lambda each: -each[1])

    def _over(self, piece: Piece, enters: str, before: Leg, shares: dict[str, float]) -> dict[str, float]:
        """The shares of the ports with what runs straight across a double fitting."""
        if enters == "branch" and (across := opposite(self.network, piece, self.tables)):
            over = self._crosses(piece)
            turned = {port: (1 - over) * each for port, each in shares.items()}
            self._turned[piece.id] = turned
            return {port: each + over * (port == across[0]) for port, each in turned.items()}
        if before.enters == "branch" and before.piece.id in self._turned and "branch" in shares:
            facing = opposite(self.network, before.piece, self.tables)
            if facing is not None and facing == (before.leaves, piece):
                over = self._crosses(before.piece)
                over /= max(over + self._turned[before.piece.id][before.leaves], 1e-12)
                return {port: (1 - over) * each + over * (port == "branch") for port, each in shares.items()}
        return shares

    def _crosses(self, piece: Piece) -> float:
        """The plan's own chance to cross; where it has none, what the fitting does to any rod."""
        by_table = double_share(piece, self.tables) * crosses_by_table(self.tables.junction)
        return self.intent.crosses.get(piece.id, by_table)

    def _fork(self, piece: Piece, enters: str) -> dict[str, float]:
        forks = self.forks
        swept = self._swept(piece)
        if enters == "up":
            # Put in the right way round, the side mouth of a sweep lies turned from a head that comes down.
            away = 0.0 if piece.upside_down else swept
            aside = away * number(forks.back_into_sweep) + (1 - away) * (1 - number(forks.with_flow_straight))
            return {"down": 1 - aside, "branch": aside}
        if enters == "down":
            straight = number(forks.against_flow_straight)
            return {"up": straight, "branch": 1 - straight}
        down = swept * number(forks.from_branch_down) + (1 - swept) * number(forks.from_square_down)
        return {"up": down, "down": 1 - down} if piece.upside_down else {"down": down, "up": 1 - down}

    def _swept(self, piece: Piece) -> float:
        """How likely its branch runs into it with a sweep."""
        swept = 0.0
        for name, share in piece.fitting.options if piece.fitting else ():
            kind = self.tables.junctions.get(name)
            swept += share if kind is not None and has_sweep(kind.shape) else 0.0
        return swept

    def _leg(self, piece: Piece, enters: str, leaves: str, start: float, length: float) -> Leg:
        top = self.tops[piece.line][piece.id]
        return Leg(piece, enters, leaves, start, length, top, piece.line)

    def _node(self) -> int:
        self._nodes += 1
        return self._nodes

    def _keep(self, legs: tuple[Leg, ...], nodes: tuple[int, ...], at: float, prior: float) -> None:
        last = legs[-1]
        closed = at < self.rod
        if last.piece.kind == "end" and last.enters == "up" and closed:
            # The drawing ends here, the pipe does not.
            length, end = number(self.travel.beyond_map), self._node()
            longer = prior * number(self.travel.longer[self.network.map_quality])  # type: ignore[index]
            beyond = Leg(last.piece, "up", "", at, length, 0.0, last.piece.name)
            self._add((*legs, beyond), (*nodes, end), False, prior - longer, -end)
            # Or the line itself goes on, and its end comes later than drawn.
            before = legs[-2]
            on = Leg(before.piece, before.enters, "", at, length, before.top + before.length, before.line)
            self._add((*legs[:-1], on), (*nodes[:-1], self._node()), False, longer, end)
            return
        self._add(legs, nodes, closed, prior)

    def _keep_across(
        self, legs: tuple[Leg, ...], nodes: tuple[int, ...], arm: Piece, over: Leg, prior: float
    ) -> None:
        """The way straight across into an arm that is not drawn, counted from the fitting back."""
        length = number(self.travel.beyond_map)
        into = Leg(arm, "down", "", over.start + over.length, length, -length, arm.line)
        self._add((*legs, over, into), (*nodes, self._node(), self._node()), False, prior)

    def _add(
        self, legs: tuple[Leg, ...], nodes: tuple[int, ...], closed: bool, prior: float, longer: int = 0
    ) -> None:
        marks = landmarks_of(legs, self.network, self.tables, self.intent.sticks, self.intent.runs)
        length = legs[-1].start + legs[-1].length
        mouth = mouth_by(legs, self.tables)
        self.found.append(Way(legs, nodes, length, closed, prior, marks, mouth, longer))
