"""What logged pushes have taught, as the planner uses it: shifts of chances, and a factor on friction."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Learned:
    """Added to the logit of every try of a technique in a class of fitting; multiplied with every friction.

    One factor serves all friction, wet and dry: what pushes teach is the rod's jacket and the hand's habits,
    which come along to every job, and each pipe keeps the spread that the tables give it.
    `notes` say for people what was used and from how many pushes.
    """

    shifts: tuple[tuple[str, str, float], ...] = ()  # technique, class of fitting, shift
    friction: float = 1.0
    notes: tuple[str, ...] = ()

    @property
    def changes(self) -> bool:
        """True where a plan may come out otherwise than by the book."""
        return self.friction != 1 or any(shift for _, _, shift in self.shifts)

    def shift(self, technique: str, way: str) -> float:
        """The shift of one technique in one class of fitting, 0 where nothing was learned."""
        return next((shift for name, where, shift in self.shifts if (name, where) == (technique, way)), 0.0)


BOOK = Learned()  # nothing was learned
