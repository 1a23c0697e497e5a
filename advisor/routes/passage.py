"""One piece of the drain as the head meets it: through which port it comes in and goes out."""

from __future__ import annotations

from dataclasses import dataclass, replace

from advisor.site.network import Hole, Network, Piece, Wall
from advisor.tables.openings import EntryStep

STRAIGHT = ("pipe", "drop", "rise", "belly", "mark", "joint")
JOINTED = ("pipe", "drop", "rise", "belly")  # pipe lengths with joints between

_GOES_ON = ("pipe", "drop", "rise", "mark")


@dataclass(frozen=True)
class Passage:
    """A piece, its port in and its port out; `leaves` is empty where the head arrives and stops.

    The step of an opening's own entry (a riser, a throat, a tee behind a fixture) is a passage too:
    `step` says what it is, and `enters` is `hole`. Where a run of one pipe begins, `run` is what it is made
    of, in the order in which the head meets it; nothing where the head is in the run already. `by_hand`: a
    mouth in the open channel of the chamber by which the head goes in. It is laid into it and turns nowhere.
    `more` is what the same pipe goes on with behind the last run of a way, past what is to be seen.
    """

    piece: Piece
    enters: str
    leaves: str
    wall_in: Wall
    wall_out: Wall
    step: EntryStep | None = None
    step_number: int = 0
    run: tuple[Piece, ...] = ()
    by_hand: bool = False
    more: tuple[Piece, ...] = ()

    @property
    def id(self) -> tuple[str, str, str]:
        """Stable across routes and sheets: names, never list positions."""
        port = f"hole {self.step_number}" if self.step is not None else self.enters
        port = f"{port} by hand" if self.by_hand else port
        return (self.piece.id, port, self.leaves)

    @property
    def shape(self) -> str:
        """What the head meets: straight, bend, junction, entry, reducer, stopper, past or arrival."""
        kind = self.piece.kind
        if self.step is not None:
            return "entry"
        if not self.leaves and kind not in STRAIGHT:
            return "arrival"
        if kind in STRAIGHT or self.by_hand:
            return "straight"
        if kind == "opening":
            return "past" if self.enters != "hole" else "straight"
        return kind

    @property
    def turns_aside(self) -> bool:
        """True at a junction where the head must leave or reach the through line."""
        return self.piece.kind == "junction" and "branch" in (self.enters, self.leaves)

    @property
    def flow(self) -> str:
        """`with` or `against` the flow."""
        return "against" if self.enters == "down" or self.leaves in ("up", "branch") else "with"

    @property
    def hole(self) -> Hole | None:
        """The opening that this passage enters by, if it does."""
        return self.piece.hole if self.enters == "hole" else None


def with_runs(passages: list[Passage], network: Network) -> list[Passage]:
    """The passages with each run told where it begins: plain pipe of one wall, past marks and other openings.

    A fitting ends it, and so does what may hold the head by itself: a sag, a step at a joint. The last run of
    the way knows what the same pipe goes on with: what is in its joints does not end where the way ends.
    """
    found: list[Passage] = []
    first = -1  # where the run began that the last passage belongs to
    for index, passage in enumerate(passages):
        plain = passage.step is None and (passage.piece.kind in _GOES_ON or passage.shape == "past")
        if first < 0 or not plain or passage.piece.wall.id != passages[first].piece.wall.id:
            first = index if plain else -1
        if first >= 0:
            found.append(passage)
            begun = found[first]
            found[first] = replace(begun, run=(*begun.run, passage.piece))
        else:
            found.append(replace(passage, run=(passage.piece,)) if passage.piece.kind in JOINTED else passage)
    last = max((index for index, passage in enumerate(found) if passage.run), default=-1)
    after = len(found) - last - len(found[last].run) if found else 0
    if last >= 0 and after <= 1:  # at most what the way ends at comes after it
        out = "up" if found[last].enters == "down" else "down"
        found[last] = replace(found[last], more=_goes_on(found[last].run[-1], out, network))
    return found


def _goes_on(last: Piece, port: str, network: Network) -> tuple[Piece, ...]:
    """The pipe lengths of the same wall behind a piece, past fittings in it, to where the pipe is another."""
    found: list[Piece] = []
    seen, link = {last.id}, network.links.get((last.id, port))
    while link is not None and link[0] not in seen:
        piece = network.pieces[link[0]]
        if piece.line != last.line or piece.wall.id != last.wall.id or piece.kind in ("stopper", "end"):
            break
        if piece.kind in JOINTED:
            found.append(piece)
        seen.add(piece.id)
        link = network.links.get((piece.id, port))
    return tuple(found)


@dataclass(frozen=True)
class Route:
    """The ordered passages from one opening to the target; `target_from` is where the target begins."""

    opening: Piece
    passages: tuple[Passage, ...]
    target_from: int
    covers: float  # likely share of the target's length that one push along this route passes

    @property
    def id(self) -> str:
        """The opening, its direction, every junction that is turned at, and where it ends.

        The lines alone are not enough: a loop can be gone round both ways to one and the same branch.
        """
        last = self.passages[-1]
        turns = (f"{p.piece.id}:{p.enters}>{p.leaves}" for p in self.passages if p.turns_aside)
        ways = [self.opening.id, self.passages[0].leaves, *turns, last.piece.id, last.enters]
        return ">".join(ways)

    @property
    def direction(self) -> str:
        """`with` the flow, `against` it, or `both`."""
        flows = {passage.flow for passage in self.passages if passage.step is None}
        return flows.pop() if len(flows) == 1 else "both" if flows else "with"
