"""Counter readings to points along the strip, and the round readings that its axis shows."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.quantity import Units

_FOOT = 0.3048  # m, international foot of 1959
_STEPS = (1, 2, 5, 10, 20, 50, 100, 200)
MOST_TICKS = 8


@dataclass(frozen=True)
class Scale:
    """`length` m over a strip of `width` points with `edge` points free at both ends."""

    length: float
    width: float
    edge: float

    def x(self, at: float) -> float:
        """Points from the left for a reading in m; what lies beyond stands at the end."""
        share = min(max(at / self.length, 0.0), 1.0) if self.length > 0 else 0.0
        return self.edge + share * (self.width - 2 * self.edge)


def ticks(length: float, units: Units) -> list[tuple[float, str]]:
    """Round readings in m with their words, so few that they never touch."""
    unit, name = (_FOOT, "ft") if units is Units.INCH else (1.0, "m")
    step = next((s for s in _STEPS if length / (s * unit) <= MOST_TICKS), _STEPS[-1])
    count = int(length / (step * unit) + 1e-9)
    return [(i * step * unit, f"{i * step} {name}" if i else "0") for i in range(count + 1)]
