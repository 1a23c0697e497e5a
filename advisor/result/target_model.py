"""What is to be seen, and what the plan goes for, as data of the plan."""

from __future__ import annotations

from advisor.result.frozen import Frozen


class RestNote(Frozen):
    """Another part of what is to be seen, as `look at` takes it, and the push that shows it."""

    words: str
    opening: str
    covers: float
    chance: float | None  # nothing where a push from there met what ends a way


class PartNote(Frozen):
    """That the plan goes for a part of what is asked for: its share of the length, the chance that the
    trouble lies in it if it lies in the whole, and the chance that it lies in it, by where the complaint
    `points` (0 without one)."""

    of: str
    of_length_m: float
    covers: float
    trouble: float
    points: float
    rest: tuple[RestNote, ...]


class OnNote(Frozen):
    """The next section, straight on behind the chamber at which the push ends: how likely the trouble lies in
    it, and both as `look at` takes them."""

    opening: str  # from which that push goes
    section: str
    chance: float
    behind: str
    look_at: str


class SeenNote(Frozen):
    """That pushes saw all of it, the last in by `opening` with `gear`, what is left of the rest and how it is
    come at; on a card in few words."""

    told: tuple[str, ...] = ()
    card: str = ""
    card_left: str = ""  # what is left, behind that where it finds room
    opening: str = ""
    gear: str | None = None  # nothing where it was not told

    @property
    def aim(self) -> str:
        """What is told of ways in, behind its heading: they are for a look again."""
        return ", to look again" if self.told else ""


class TargetNote(Frozen):
    """What the plan goes for: all that is to be seen, or a part where nothing is worth it for all."""

    words: str
    kind: str
    line: str
    length_m: float
    part: PartNote | None = None
    straight_on: OnNote | None = None

    @property
    def told(self) -> str:
        """In one breath, a part as a part."""
        return f"{self.words} ({self.part.covers:.0%} of {self.part.of})" if self.part else self.words
