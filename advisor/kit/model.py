"""The parts of a kit, in SI, each value as far as it is known."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.quantity import Estimate, Known

Quantity = Known | Estimate
KitPart = tuple[str, str]  # kind and name


@dataclass(frozen=True)
class Head:
    """A rigid camera head."""

    name: str
    diameter: Quantity
    length: Quantity
    flat_nose: bool


@dataclass(frozen=True)
class Spring:
    """The spring between head and rod."""

    name: str
    diameter: Quantity
    length: Quantity
    stiffness: Quantity
    minimum_radius: Quantity
    firm: bool | None
    pull_limit: Quantity


@dataclass(frozen=True)
class Rod:
    """A push rod. Stiffness, weight and minimum radius follow from its core unless measured."""

    name: str
    diameter: Quantity
    core: Quantity
    modulus: Quantity
    density: Quantity
    fill: Quantity  # weight over that of solid glass fibre as thick as the rod
    strain_limit: Quantity
    length: Quantity
    stiffness: Quantity | None = None
    weight: Quantity | None = None
    minimum_radius: Quantity | None = None


@dataclass(frozen=True)
class Guide:
    """A ring or skid that is clamped on near the head."""

    name: str
    diameter: Quantity
    length: Quantity


@dataclass(frozen=True)
class Loadout:
    """What goes into the drain together."""

    head: Head
    spring: Spring
    rod: Rod
    guide: Guide | None = None
    names_spring: bool = False  # where another loadout of the kit differs in nothing else

    @property
    def name(self) -> str:
        """What it is called on a screen, and by which it is known: no two of a kit share it."""
        parts = self.rod.name if self.rod.name == self.head.name else f"{self.head.name} on {self.rod.name}"
        parts = f"{parts}, {self.spring.name}" if self.names_spring else parts
        return f"{parts} + {self.guide.name}" if self.guide else parts

    @property
    def can_kink(self) -> frozenset[KitPart]:
        """Rod and spring, each by its kind and name."""
        return frozenset({("rod", self.rod.name), ("spring", self.spring.name)})

    @property
    def parts(self) -> frozenset[KitPart]:
        """All that goes in, each by its kind and name."""
        guide = {("guide", self.guide.name)} if self.guide else set()
        return self.can_kink | {("head", self.head.name)} | guide


@dataclass(frozen=True)
class Besides:
    """What else is on the truck, as far as advice on a loadout hangs on it."""

    smaller_head: bool
    guide: float | None  # diameter in m of the guide that is fitted, or of one that could be


@dataclass(frozen=True)
class Kit:
    """Everything on the truck, and the loadouts that are worth assessing."""

    name: str
    loadouts: tuple[Loadout, ...]
    assumed: tuple[str, ...] = ()

    @property
    def heads(self) -> tuple[Head, ...]:
        """The different heads of the loadouts."""
        return tuple({loadout.head.name: loadout.head for loadout in self.loadouts}.values())

    def can_kink(self, name: str) -> frozenset[KitPart]:
        """The parts that can kink of the loadout so called; none where the kit has it no more."""
        return frozenset(part for each in self.loadouts if each.name == name for part in each.can_kink)

    def parts(self, name: str) -> frozenset[KitPart]:
        """All the parts of the loadout so called; none where the kit has it no more."""
        return frozenset(part for each in self.loadouts if each.name == name for part in each.parts)

    @property
    def idle_guides(self) -> tuple[str, ...]:
        """Each guide that surely stands nowhere out beyond the head that it goes on, in a sentence."""
        fitted = ((each.guide, each.head) for each in self.loadouts if each.guide is not None)
        idle = ((g, head) for g, head in fitted if g.diameter.high <= head.diameter.low)
        told = (f"{g.name} is no wider than {head.name}, so it guides nothing there" for g, head in idle)
        return tuple(dict.fromkeys(told))

    def besides(self, loadout: Loadout) -> Besides:
        """What the kit holds besides a loadout."""
        smaller = any(head.diameter.likely < loadout.head.diameter.likely for head in self.heads)
        # A ring fits the head that it was made for, and is carried with the reel that it goes on.
        alike = (each for each in self.loadouts if (each.head, each.rod) == (loadout.head, loadout.rod))
        guide = loadout.guide or next((each.guide for each in alike if each.guide), None)
        return Besides(smaller, guide.diameter.likely if guide else None)
