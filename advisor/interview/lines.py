"""The lines that an answer draws, as a file of questions has them."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from advisor.tables.entry import Row

ASSUMED = "assumed "  # before a value of a sheet that nobody has seen


class Line(Row):
    """A line that an answer puts on the sheet, with its pieces as a sheet has them, all assumed."""

    line: str = ""
    kind: Literal["branch", "stack"] = "branch"
    size: str
    pieces: tuple[dict[str, str], ...]

    def entry(self) -> dict[str, Any]:
        """It as a line of a sheet."""
        pieces = [dict(piece) for piece in self.pieces]
        return {"line": self.line, "kind": self.kind, "size": self.size, "pieces": pieces}


class Branch(Line):
    """What an answer draws: a line, or without a name pieces that stand in the drain itself, as somebody
    has seen them. From a floor `higher up` it is these lines, of which the first joins what was drawn.
    With `other_pipe` it is other pipe that begins, at a mark of that name.
    """

    other_pipe: str = Field(default="", alias="other pipe")
    higher_up: tuple[Line, ...] = Field(default=(), alias="higher up")
