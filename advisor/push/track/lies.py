"""What another push of the job told of, by the pipes in which it may lie."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.track.chart import Array


@dataclass(frozen=True, eq=False)
class Lies:
    """`what` was told and where, in words; what to `do` there; the number of its entry in the log.

    `stop` is whether it stopped a head, and `causes` how likely each thing that lies in the pipe did, by its
    name. `pipes` are those in which it may be, by their id: how far down it lies in each world, m, and the
    weight of each. `first` is what is done with it before a camera goes on. `enters` are these with the
    port by which a head came to it there, where only a head that comes the same way meets it; empty where it
    is met from either end. `held` is the opening and the reading there, m, of what held a head.
    """

    what: str
    do: str
    number: int
    stop: bool
    causes: tuple[tuple[str, float], ...]
    pipes: tuple[tuple[str, Array, Array], ...]
    first: str = ""
    enters: frozenset[tuple[str, str]] = frozenset()
    held: tuple[str, float] | None = None
