"""From where the lengths of a report count: something that its reader can put a tape to."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from advisor.push.now.seen import Run, way_in
from advisor.result.stands import landmarks_beside
from advisor.site.network import Network, Piece
from advisor.site.pieces import FixtureEntry

Show = Callable[[float], str]


@dataclass(frozen=True)
class Datum:
    """A point of a line, m down it, by its name; `used`: a rod went in there; `sure`: somebody knows of it.

    Lengths that count from the upper end of the line have nothing before them.
    """

    line: str
    at: float
    name: str
    used: bool
    sure: bool

    @property
    def _from(self) -> str:
        return f" from {self.name}" if self.at > 0 else ""

    def point(self, down: float, show: Show, whose: str | None = None) -> str:
        """A place that lies so many m down the line."""
        off = down - self.at
        return f"{show(abs(off))} {'up' if off < 0 else 'down'} {whose or self.line}{self._from}"

    def span(self, low: float, high: float, show: Show, whose: str | None = None) -> str:
        """The same from one place to another."""
        if low < self.at < high:
            ends = f"{show(self.at - low)} upstream of {self.name} to {show(high - self.at)} downstream of it"
            return ends if whose else f"{ends}, along {self.line}"
        way = "up" if high <= self.at else "down"
        return f"{self.between(low, high, show)} {way} {whose or self.line}{self._from}"

    def between(self, low: float, high: float, show: Show) -> str:
        """The two numbers alone, the less first where both lie on one side."""
        if low < self.at < high:
            return f"{show(self.at - low)} upstream to {show(high - self.at)} downstream"
        return " to ".join(show(each) for each in sorted((abs(low - self.at), abs(high - self.at))))

    def told(self) -> str:
        """From where lengths count, in a sentence."""
        if self.at > 0:
            how = ", where a rod went in" if self.used else ""
            return f"Lengths along {self.line} count from {self.name}{how}."
        top = f", {self.name}" if self.name else ""
        unknown = (
            "" if self.sure or not self.name else ", which is not known to be there: no tape starts there"
        )
        return f"Lengths down {self.line} count from its upper end{top}{unknown}."


def datum_of(line: str, runs: Iterable[Run], network: Network) -> Datum:
    """The first opening on the line that a push went in by, else its upper end, else what surely is there."""
    if line not in network.lines:  # the sheet has it no longer
        return Datum(line, 0.0, "", used=False, sure=True)
    tops = network.positions(line)
    pieces = [network.pieces[each] for each in network.lines[line]]
    ways = (way_in(run, network) for run in runs)
    used = next((way for way in ways if way is not None and way.line == line), None)
    found = used or next((each for each in (pieces[0], *pieces) if _taped(each)), pieces[0])
    return Datum(line, tops[found.id], found.landmark or found.name, used is not None, _taped(found))


def beside(opening: Piece, network: Network, show: Show) -> str:
    """How far along its line an opening lies from the nearest thing that has a name above ground."""
    near = min(landmarks_beside(opening, network), key=lambda each: each.away, default=None)
    if near is None:
        return ""
    sure = ", assumed" if near.assumed else ", by the sheet"
    return f"{opening.name} lies {show(near.away)} from {near.name} along {opening.line}{sure}."


def _taped(piece: Piece) -> bool:
    """Whether it can be put a tape to: it has a name above ground, and nobody doubts that it is there."""
    if piece.hole is not None:
        return piece.hole.there == 1
    return isinstance(piece.entry, FixtureEntry) or (bool(piece.landmark) and not piece.absent)
