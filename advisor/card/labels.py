"""Labels along a line put into rows so that none touches another; those that find no row are left out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

# Of the size: no letter of numbers and units in the bold of the carried font is wider.
_NARROW, _WIDE, _USUAL = 0.45, 0.95, 0.68
GAP = 6.0
BESIDE = 2.0  # points between a leader and what stands beside it


@dataclass(frozen=True)
class Label:
    """Words at a place; `left` and `row` say where they stand, row 0 nearest to the line."""

    at: float
    text: str
    strong: bool = False
    left: float = 0.0
    row: int = -1


def width_of(text: str, size: float) -> float:
    """No less than the width of a text of numbers and units, in points."""
    return size * sum(
        _NARROW if letter in " .,'\"-/it" else _WIDE if letter == "m" else _USUAL for letter in text
    )


def placed(labels: Sequence[Label], width: float, rows: int, size: float) -> list[Label]:
    """The labels with a place each, inside `width`; strong ones are placed first.

    None stands on another, nor across the leader that runs from another down to the line.
    """
    found: list[Label] = []
    for label in sorted(labels, key=lambda each: (not each.strong, each.at)):
        found = next(_with(label, found, width, rows, size), found)
    return sorted(found, key=lambda each: each.at)


def _with(label: Label, found: list[Label], width: float, rows: int, size: float) -> Iterator[list[Label]]:
    """The labels with one more, where there is room; else one of them gives way, the nearest first."""
    for here in _places(label, found, width, rows, size):
        yield [*found, here]
    for other in sorted(found, key=lambda each: abs(each.at - label.at)):
        rest = [each for each in found if each is not other]
        for here in _places(label, rest, width, rows, size):
            for there in _places(other, [*rest, here], width, rows, size):
                yield [*rest, here, there]


def _places(label: Label, found: Sequence[Label], width: float, rows: int, size: float) -> Iterator[Label]:
    """The places that are free, the lowest first: over the reading, else right or left of its leader."""
    wide = width_of(label.text, size)
    for row in range(rows):
        for left in (label.at - wide / 2, label.at - BESIDE, label.at + BESIDE - wide):
            tried = replace(label, left=min(max(left, 0.0), width - wide), row=row)
            if all(_apart(tried, other, size) for other in found):
                yield tried


def _apart(one: Label, other: Label, size: float) -> bool:
    """Whether neither label touches the other, nor the leader of the one that stands higher."""
    if one.row == other.row:
        return _right(one, size) + GAP < other.left or _right(other, size) + GAP < one.left
    lower, upper = sorted((one, other), key=lambda each: each.row)
    return not lower.left - BESIDE < upper.at < _right(lower, size) + BESIDE


def _right(label: Label, size: float) -> float:
    return label.left + width_of(label.text, size)
