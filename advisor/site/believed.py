"""What is taken for each value of a line: as told, as far as the map is good, or what is usual."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from advisor.evidence import ASSUMED, TOLD, Evidence, Grade
from advisor.quantity import Chances, Dimension, Estimate, Known, Stated, belief_of
from advisor.site.fields import AssumedName
from advisor.site.looked_for import whether_there
from advisor.site.names import as_listed, end_holds
from advisor.site.network import Assumption, Wall
from advisor.site.pieces import EndEntry, OpeningEntry
from advisor.site.pits import pit_depth
from advisor.site.sheet import LineSheet, SiteSheet
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables

_ON = "map: "  # one number: how far it may be off is the map's to say
# Which conditions what came back is a sign of; soil or bits of pipe tell of a hole, not of the wall.
_IN_GROUND = ("drain", "sewer", "rain")  # kinds of lines that roots of a tree come to
_SIGN_OF = {"roots": ("roots",), "grease": ("greasy",), "scale": ("moderate scale", "heavy scale")}


def told_on(map_quality: str) -> Evidence:
    """The evidence of one length, neither a range nor an "about", told on a map of that quality."""
    return Evidence(Grade.TOLD, note=f"{_ON}{map_quality}")


def is_range(length: Known | Estimate) -> bool:
    """Whether both ends of a length were given, on the sheet or by us: it is as unsure as they say."""
    return isinstance(length, Estimate) and _ON not in length.evidence.note


def _noted(evidence: Evidence, note: str) -> Evidence:
    return replace(evidence, note=", ".join(filter(None, (evidence.note, note))))


class Believed:
    """Gives the belief for each entry, and remembers what nobody gave."""

    def __init__(self, site: SiteSheet, tables: Tables) -> None:
        self.site, self.tables = site, tables
        self.assumed: list[Assumption] = []

    def size(self, line: str, given: Stated | None, place: str) -> Known:
        """The nominal size in m."""
        if given is not None:
            return self.one(given, f"size of {line}")
        size = self.tables.typical_size(self.site.region, place)
        self.assume(f"size of {line}", "", size)
        return size

    def slope(self, line: str, given: Stated | None, size: Known) -> Known:
        """Rise over run; the code minimum where nobody measured."""
        if given is not None:
            if given.low == given.high:
                return self.one(given, f"slope of {line}", Dimension.SLOPE)
            middle = Evidence(Grade.TOLD, note="the middle of what was given")
            told = Known(given.likely, ASSUMED if given.assumed else middle)
            self.assume(f"slope of {line}", "the middle of what was given", told)
            return told
        slope = self.tables.minimum_slope(self.site.region, size.value)
        self.assume(f"slope of {line}", "the least fall that codes allow", slope)
        return slope

    def wall(
        self,
        name: str,
        place: str,
        size: Known,
        material: str | Chances | None,
        condition: str | None,
        laid: int | None = None,
    ) -> Wall:
        """Material and condition, by the year it was laid in; a change of either starts another wall."""
        year = self.site.built if laid is None else laid
        in_ground = place in _IN_GROUND
        if isinstance(material, Chances):
            materials = material
        elif material is not None:
            listed = self.tables.material_name(material)
            materials = self._seen(listed, material, f"material of {name}")
        else:
            materials = self.tables.likely_material(self.site.region, year, place, size.value)
            self.assume(f"material of {name}", "", materials)
        if condition is not None:
            conditions = self.told(condition, self.tables.conditions, f"condition of {name}")
        else:
            usual = self.tables.likely_condition(materials.likeliest, year)
            remembered = self._remembered(usual)
            conditions = self._near_trees(remembered) if in_ground else remembered
            beside = "" if conditions is remembered else ", trees by it"
            self.assume(f"condition of {name}{beside}", "", conditions)
        return Wall(name, size, materials, conditions, in_ground)

    def _remembered(self, usual: Chances) -> Chances:
        """What came back when it was last cleared makes a condition likelier, by Bayes' rule."""
        options = usual.options
        for sign in self.site.task.history.brought:
            found = _SIGN_OF.get(sign, ())
            if found:
                there, absent = (self.tables.signs[f"{sign}, {w}"].likely for w in ("there", "not there"))
                options = tuple(
                    (name, share * (there if name in found else absent)) for name, share in options
                )
        whole = sum(share for _, share in options)
        return Chances(tuple((name, share / whole) for name, share in options), usual.evidence)

    def _near_trees(self, likely: Chances) -> Chances:
        """Trees by the line make roots likelier, by Bayes' rule, at the cost of sound pipe alone.

        They take no scale away. That none stand there frees no joint: roots come from further off as well.
        """
        shares = dict(likely.options)
        roots, sound = (shares.get(name, 0.0) for name in (ROOTS, "sound"))
        if not self.site.trees or roots == 0:
            return likely
        there, absent = (self.tables.signs[f"trees, {w}"].likely for w in ("there", "not there"))
        more = min(roots * there / (roots * there + (1 - roots) * absent) - roots, sound)
        shares |= {ROOTS: roots + more, "sound": sound - more} if more > 0 else {}
        return Chances(tuple(shares.items()), likely.evidence)

    def length(self, given: Stated | None, about: str, kind: str = "pipe") -> Known | Estimate:
        """A stated length may be off by as much as the map is; an unknown one is a wide guess."""
        if given is None:
            guess = self.tables.typical[f"unknown {kind}"]
            self.assume(about, "", guess)
            return guess
        told, quality = self._as_told(given, about), self.site.map
        if given.low < given.high:
            return told
        if isinstance(told, Estimate):
            return replace(told, evidence=_noted(told.evidence, f"about, {_ON}{quality}"))
        error = self.tables.limits[f"map_error_{quality}"].likely * told.value
        evidence = told_on(quality)
        if told.evidence.grade is not Grade.TOLD:
            evidence = _noted(told.evidence, f"{_ON}{quality}")
        return Estimate(told.value - error, told.value, told.value + error, evidence)

    def given(
        self, given: Stated | None, about: str, dimension: Dimension = Dimension.LENGTH
    ) -> Known | Estimate | None:
        """A value that has no usual one: as told, or nothing."""
        return self._as_told(given, about, dimension) if given else None

    def one(self, given: Stated, about: str, dimension: Dimension = Dimension.LENGTH) -> Known:
        """A value of which the likely one is taken whatever its range."""
        told = self._as_told(given, about, dimension)
        return Known(told.likely, told.evidence)

    def depth(self, kind: str, opening: str, given: Stated | None) -> float | None:
        """How far an opening lies below the hand, m: as told of it, or as was told of pits at large."""
        depth, why = pit_depth(self.site, self.tables, kind, given)
        return self.one(depth, f"depth of {opening}{why}").value if depth else None

    def most(self, given: Stated | None) -> float | None:
        """The most that a value may be, for a caution that hangs on it; None where nobody has seen it."""
        if given is None or given.assumed:
            return None
        belief = belief_of(given, self.tables.limits["rough_share"].likely)
        return belief.high if isinstance(belief, Estimate) else belief.value

    def told(self, name: str, known: Iterable[str], about: str) -> Chances:
        """A word of the sheet, as the table spells it; `about` names it where it is assumed."""
        return self._seen(as_listed(name, known), name, about)

    def ends_in(self, entry: EndEntry, line: LineSheet) -> Chances | None:
        """The tank, trap or pump that a line ends in, which holds a head."""
        held = end_holds(entry, line, self.site, self.tables)
        return Chances(((held, 1.0),), TOLD) if held else None

    def there(self, entry: OpeningEntry) -> float:
        """The chance that an opening exists: one that was found, as by whoever opened it or ran a machine
        from it, is in no doubt."""
        if entry.there is None or self._run_from(entry) or (entry.opens, entry.water) != (None, None):
            return 1.0
        if entry.there < 1:
            self.assume(whether_there(entry.opening), "", Known(entry.there, ASSUMED), Dimension.SHARE)
        return entry.there

    def opened(self, kind: str, entry: OpeningEntry) -> bool:
        """Whether it was opened before: a machine was run from it, and not through a trap or a bowl."""
        return self._run_from(entry) and not self.tables.openings[kind].machine_past

    def _run_from(self, entry: OpeningEntry) -> bool:
        return any(run.in_at == entry.opening for run in self.site.task.history.machine_runs)

    def opens(self, kind: str, told: bool | None, water: str | None) -> bool | None:
        """Whether an opening opens: a chamber in which somebody saw the water had its cover off."""
        seen = water is not None and self.tables.openings[kind].looked_into_open
        return True if told is None and seen else told

    def forget_length(self) -> None:
        """The length of pipe that was last guessed has been told after all."""
        guess = self.tables.typical["unknown pipe"]
        last = max(i for i, each in enumerate(self.assumed) if each.belief is guess)
        del self.assumed[last]

    def assume(
        self,
        about: str,
        taken: str,
        belief: Known | Estimate | Chances,
        dimension: Dimension = Dimension.LENGTH,
    ) -> None:
        """Remember that nobody gave this, to tell it with the plan."""
        self.assumed.append(Assumption(about, taken, belief, dimension))

    def _as_told(
        self, given: Stated, about: str, dimension: Dimension = Dimension.LENGTH
    ) -> Known | Estimate:
        belief = belief_of(given, self.tables.limits["rough_share"].likely)
        if given.assumed:
            self.assume(about, "", belief, dimension)
        return belief

    def _seen(self, listed: str, written: str, about: str) -> Chances:
        assumed = isinstance(written, AssumedName)
        chances = Chances(((listed, 1.0),), ASSUMED if assumed else TOLD)
        if assumed:
            self.assume(about, listed, chances)
        return chances
