"""One piece on a way of the rod."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.site.network import Piece

NO_DISTANCE = 0.01  # m: nearer than this is one place


@dataclass(frozen=True)
class Leg:
    """A piece with its ports in and out; `start` m along the way, `length` m long.

    `top` is where its upper end lies on the line, m; a length of no pipe of the line (the entry of an
    opening) stays at one place of it.
    """

    piece: Piece
    enters: str
    leaves: str
    start: float
    length: float
    top: float
    line: str
    mouth: bool = False  # the entry of a way into a mouth of the opening's own channel

    @property
    def with_flow(self) -> bool:
        """True where the head goes the way that the water runs."""
        if self.enters == "hole":
            return self.leaves == "down" and not self.mouth
        if self.enters == "branch":
            return self.leaves != "up"
        return self.enters == "up" and self.leaves != "branch"

    @property
    def turns_aside(self) -> bool:
        """True at a junction that the way does not run straight through."""
        return self.piece.kind == "junction" and "branch" in (self.enters, self.leaves)

    @property
    def fall(self) -> float:
        """How the place on the line changes for each m along the way: 1, -1 or 0."""
        if self.enters == "hole" or self.piece.kind == "junction":
            return 0.0
        return 1.0 if self.with_flow else -1.0

    @property
    def place(self) -> float:
        """Where on the line its beginning lies, m from the upper end."""
        return self.top + self.length if self.fall < 0 else self.top
