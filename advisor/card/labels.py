"""Labels along a line put into rows so that none touches another; those that find no row are left out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

# Of the size: no letter of numbers and units in the bold of the carried font is wider.
_NARROW, _WIDE, _USUAL = 0.45, 0.95, 0.68
GAP = 6.0


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
    """The labels with a place each, inside `width`; strong ones are placed first."""
    taken: list[list[tuple[float, float]]] = [[] for _ in range(rows)]
    found = []
    for label in sorted(labels, key=lambda each: (not each.strong, each.at)):
        wide = width_of(label.text, size)
        left = min(max(label.at - wide / 2, 0.0), width - wide)
        for row, spans in enumerate(taken):
            # A label must also leave room for the leaders of those above it.
            if all(left > end + GAP or left + wide < start - GAP for start, end in spans):
                spans.append((left, left + wide))
                found.append(replace(label, left=left, row=row))
                break
    return sorted(found, key=lambda each: each.at)
