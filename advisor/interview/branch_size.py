"""How wide a branch is taken to be that nobody has measured: as the house that it was put into.

The question's own file has one size for a region; a house of 110 mm plastic has no pipe of 100 mm.
"""

from __future__ import annotations

from collections import Counter
from typing import TypeVar

from advisor.interview.lines import ASSUMED, Branch, Line
from advisor.interview.stretch import units_of
from advisor.interview.subject import Subject
from advisor.quantity import Dimension, parse_stated, show
from advisor.site.network import Network
from advisor.tables.tables import Tables

_Drawn = TypeVar("_Drawn", bound=Line)


def across(branch: Line) -> float:
    """How wide it is taken to be, m."""
    return parse_stated(branch.size.removeprefix(ASSUMED), Dimension.LENGTH).likely


def as_joined(branch: Branch, place: Subject, network: Network, tables: Tables) -> Branch:
    """The branch, and what it comes down by, as wide as the pipe that it joins where that is about as wide;
    else as the house has such pipe most often, where it has any."""
    often = Counter(piece.wall.nominal.value for piece in network.pieces.values()).most_common()
    own = [place.piece.wall.nominal.value] if place.piece is not None else []
    sizes = (*own, *(size for size, _ in often))

    def fitted(line: _Drawn) -> _Drawn:
        size = across(line)
        alike = next((each for each in sizes if tables.files.pipes.alike(each, size)), size)
        if alike == size:
            return line
        called = show(alike, Dimension.LENGTH, units_of(line.size.removeprefix(ASSUMED)))
        return line.model_copy(update={"size": ASSUMED + called})

    return fitted(branch).model_copy(update={"higher_up": tuple(map(fitted, branch.higher_up))})
