"""What is taken for each value of a line: as told, as far as the map is good, or what is usual."""

from __future__ import annotations

from collections.abc import Iterable

from advisor.evidence import TOLD, Evidence, Grade
from advisor.quantity import Chances, Estimate, Known, Stated, belief_of
from advisor.site.names import as_listed
from advisor.site.network import Assumption, Wall
from advisor.site.sheet import SiteSheet
from advisor.tables.load import Tables


class Believed:
    """Gives the belief for each entry, and remembers what nobody gave."""

    def __init__(self, site: SiteSheet, tables: Tables) -> None:
        self.site, self.tables = site, tables
        self.assumed: list[Assumption] = []

    def size(self, line: str, given: Stated | None, place: str) -> Known:
        """The nominal size in m."""
        if given is not None:
            return Known(given.likely, TOLD)
        size = self.tables.typical_size(self.site.region, place)
        self.assume(f"size of {line}", "", size)
        return size

    def slope(self, line: str, given: Stated | None, size: Known) -> Known:
        """Rise over run; the code minimum where nobody measured."""
        if given is not None:
            told = Known(given.likely, TOLD)
            if given.low != given.high:
                self.assume(f"slope of {line}", "the middle of what was given", told)
            return told
        slope = self.tables.minimum_slope(self.site.region, size.value)
        self.assume(f"slope of {line}", "the code minimum", slope)
        return slope

    def wall(
        self, name: str, place: str, size: Known, material: str | Chances | None, condition: str | None
    ) -> Wall:
        """Material and condition; a change of either starts another wall."""
        if isinstance(material, Chances):
            materials = material
        elif material is not None:
            materials = Chances(((self.tables.material_name(material), 1.0),), TOLD)
        else:
            materials = self.tables.likely_material(self.site.region, self.site.built, place)
            self.assume(f"material of {name}", "", materials)
        if condition is not None:
            conditions = self.told(condition, self.tables.conditions)
        else:
            conditions = self.tables.likely_condition(materials.likeliest, self.site.built)
            self.assume(f"condition of {name}", "", conditions)
        return Wall(name, size, materials, conditions)

    def length(self, given: Stated | None, line: str = "", kind: str = "pipe") -> Known | Estimate:
        """A stated length may be off by as much as the map is; an unknown one is a wide guess."""
        if given is None:
            guess = self.tables.typical[f"unknown {kind}"]
            self.assume(f"length of a {kind} in {line}", "", guess)
            return guess
        told = belief_of(given, self.tables.limits["rough_share"].likely)
        if isinstance(told, Estimate):
            return told
        error = self.tables.limits[f"map_error_{self.site.map}"].likely * told.value
        note = Evidence(Grade.TOLD, note=f"map: {self.site.map}")
        return Estimate(told.value - error, told.value, told.value + error, note)

    def given(self, given: Stated | None) -> Known | Estimate | None:
        """A value that has no usual one: as told, or nothing."""
        return belief_of(given, self.tables.limits["rough_share"].likely) if given else None

    def told(self, name: str, known: Iterable[str]) -> Chances:
        """A word of the sheet, as the table spells it."""
        return Chances(((as_listed(name, known), 1.0),), TOLD)

    def forget_length(self, line: str) -> None:
        """The length that was last guessed in `line` has been told after all."""
        about = f"length of a pipe in {line}"
        last = max(i for i, each in enumerate(self.assumed) if each.about == about)
        del self.assumed[last]

    def assume(self, about: str, taken: str, belief: Known | Estimate | Chances) -> None:
        """Remember that nobody gave this, to tell it with the plan."""
        self.assumed.append(Assumption(about, taken, belief))
