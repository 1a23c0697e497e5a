"""The material that the lens was told to have come into: believed of the pipe that the head is in since."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from advisor.push.log.sighting import MATERIAL, Seen, sighting_of
from advisor.push.now.now import Now


@dataclass(frozen=True)
class ToldMaterial:
    """A material by the name that the tables have for it, and at which reading of the counter it began, m."""

    name: str
    reading: float

    def other_than(self, hazard: str, fragile: Collection[str]) -> bool:
        """Whether a caution, by its id, is of another material than this."""
        of = hazard.replace("-", " ")
        return of in fragile and of != self.name


def told_material(now: Now) -> ToldMaterial | None:
    """The last one that was told and that the head has not been drawn back from."""
    found = None
    for entry, belief in now.told:
        seen = sighting_of(entry)
        if isinstance(seen, Seen) and seen.kind == MATERIAL:
            rod = seen.counter + belief.shift
            if rod <= now.belief.rod + now.push.tracker.chart.cell / 2:
                name = seen.material and now.push.study.tables.material(seen.material).name
                found = ToldMaterial(name, now.counted(rod)) if name else None
    return found
