"""The sizes of pipe that are offered beside the opening: the usual ones, as the sheet has them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from advisor.quantity import Dimension, Units, parse, show
from advisor.site.network import Network
from advisor.tables.pipes import PipesFile

Offered = tuple[str, str, float]  # its key, what it is called, m
_USUAL = {
    Units.INCH: (("1", "1-1/2 in"), ("2", "2 in"), ("3", "3 in"), ("4", "4 in"), ("6", "6 in")),
    Units.METRIC: (("3", "32 mm"), ("4", "40 mm"), ("5", "50 mm"), ("7", "75 mm"), ("1", "100 mm")),
}
_BESIDE = {Units.INCH: (), Units.METRIC: ("110 mm",)}  # plastic laid on from clay or iron of 100 mm
_LETTERS = "acefg"  # b and d stand for back and don't know


@dataclass(frozen=True)
class House:
    """The drain of a job, and by which table its sizes are one pipe."""

    drawn: Network
    pipes: PipesFile

    def like(self, size: float) -> float | None:
        """The size that it has most often of those like this one, m; None where it has none."""
        often = Counter(piece.wall.nominal.value for piece in self.drawn.pieces.values()).most_common()
        return next((each for each, _ in often if self.pipes.alike(each, size)), None)


def as_drawn(house: House | None, units: Units) -> list[Offered]:
    """Each usual size as the sheet has it, by its first figure: who works on 110 mm pipe is offered no
    100 mm."""
    found = []
    for key, text in _USUAL[units]:
        size = parse(text, Dimension.LENGTH)
        own = (house.like(size) if house is not None else None) or size
        called = show(own, Dimension.LENGTH, units)
        found.append((key, called, own) if called.startswith(key) else (key, text, size))
    return found


def changed_to(house: House | None, units: Units) -> list[Offered]:
    """What a pipe may change to: those, and each that is like one of them by a letter, for pipe of 110 mm
    changes to 100 mm where it was laid on to an older one. The rim between them tells them apart."""
    offered = as_drawn(house, units)
    names = [called for _, called, _ in offered]
    beside = [text for text in (*(text for _, text in _USUAL[units]), *_BESIDE[units]) if text not in names]
    found = list(offered)
    for key, text in zip(_LETTERS, beside, strict=False):
        found.append((key, text, parse(text, Dimension.LENGTH)))
    return sorted(found, key=lambda each: each[2])
