"""What a part of a class of reel usually measures, and in which unit a number is typed for it."""

from __future__ import annotations

from advisor.kit.loadouts import LARGE, SMALL, default_kit
from advisor.kit.measure import radius_of
from advisor.kit.model import Loadout, Quantity
from advisor.quantity import Dimension, Estimate, Units, far_from, parse_stated, show
from advisor.tables.load import Tables
from advisor.terminal.number import ACROSS, ALONG


class Usual:
    """The usual sizes of both classes of reel, and the units in which they are asked for."""

    def __init__(self, tables: Tables, units: Units) -> None:
        self.units = units
        self._times = tables.limits["unusual_times"].likely
        self._kits = {each.rod.name: each for each in default_kit(tables).loadouts if each.guide}

    def unit(self, kind: str, entry: str) -> str:
        """The unit of a number that is typed alone."""
        return (ALONG if (kind, entry) == ("rod", "length") else ACROSS)[self.units]

    def across(self, kind: str, like: str) -> str:
        """About how wide such a part of that class is, in words."""
        return show(_sizes(self._kits[like])[kind, "diameter"].likely, Dimension.LENGTH, self.units)

    def passed_by(self, kind: str, entry: str, like: str, typed: str) -> tuple[float, float] | None:
        """The usual sizes in m, where a typed one is far from them; of either class where none is told.

        By its width the class was chosen, so that is asked about where it is far from the one of that class.
        """
        sizes = [_sizes(self._kits[each])[kind, entry] for each in ((like,) if like else (SMALL, LARGE))]
        low, high = min(map(_low, sizes)), max(map(_high, sizes))
        ends = (sizes[0].likely,) * 2 if like and entry == "diameter" else (low, high)
        told = parse_stated(typed, Dimension.LENGTH).likely
        return (low, high) if far_from(told, *ends, self._times) else None


def _sizes(kit: Loadout) -> dict[tuple[str, str], Quantity]:
    assert kit.guide is not None
    return {
        ("head", "diameter"): kit.head.diameter,
        ("head", "length"): kit.head.length,
        ("spring", "diameter"): kit.spring.diameter,
        ("spring", "length"): kit.spring.length,
        ("rod", "length"): kit.rod.length,
        ("rod", "diameter"): kit.rod.diameter,
        ("rod", "core"): kit.rod.core,
        ("rod", "minimum radius"): radius_of(kit.rod.core, kit.rod),
        ("guide", "diameter"): kit.guide.diameter,
        ("guide", "length"): kit.guide.length,
    }


def _low(size: Quantity) -> float:
    return size.low if isinstance(size, Estimate) else size.value


def _high(size: Quantity) -> float:
    return size.high if isinstance(size, Estimate) else size.value
