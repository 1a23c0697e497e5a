"""A kit sheet, or the built-in classes of reel, to loadouts with every value as far as it is known."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace

from advisor.errors import BadInput, Fault
from advisor.kit.measure import core_of
from advisor.kit.model import Guide, Head, Kit, Loadout, Quantity, Rod, Spring
from advisor.kit.sheet import GuideSheet, HeadSheet, KitSheet, Part, RodSheet, SpringSheet
from advisor.quantity import Estimate, Stated, belief_of
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest
from advisor.tables.entry import as_estimate
from advisor.tables.kits import KitClass
from advisor.tables.load import Tables

MOST_LOADOUTS = 12  # a handful is meant; more only slows the plan and blurs the advice
SMALL, LARGE = "small reel", "large reel"


def default_kit(tables: Tables) -> Kit:
    """The two built-in classes of reel, without and with a guide: wide ranges, our judgement."""
    loadouts = []
    for name in (SMALL, LARGE):
        kind = tables.kit_classes[name]
        maker = _Maker(tables, None, [])
        head = maker.head(HeadSheet(head=name, like=name))
        spring = maker.spring(SpringSheet(spring=f"{name} spring", like=name))
        rod = maker.rod(RodSheet(rod=name, like=name))
        loadouts.append(Loadout(head, spring, rod))
        guide = Guide("a guide", kind.guide.ring_diameter, kind.guide.length_added)
        loadouts.append(Loadout(head, spring, rod, guide))
    words = "no kit sheet: a small and a large reel of usual make, with wide ranges"
    return Kit("built-in kit", tuple(loadouts), (words,))


def kit_of(sheet: Sheet[KitSheet], tables: Tables) -> Kit:
    """The kit that a sheet describes; raises BadInput for names that are not there."""
    kit, faults = sheet.model, list[Fault]()
    maker = _Maker(tables, sheet, faults)
    for key, names in (
        ("head", [part.head for part in kit.heads]),
        ("spring", [part.spring for part in kit.springs]),
        ("rod", [part.rod for part in kit.rods]),
        ("guide", [part.guide for part in kit.guides]),
    ):
        for i, name in enumerate(names):
            if name in names[:i]:
                message = f"a second {key} is called {name!r}; expected a name of its own"
                faults.append(sheet.fault(message, f"{key}s", i, key))
    heads = {part.head: maker.head(part, "heads", i) for i, part in enumerate(kit.heads)}
    springs = {part.spring: maker.spring(part, "springs", i) for i, part in enumerate(kit.springs)}
    rods = {part.rod: maker.rod(part, "rods", i) for i, part in enumerate(kit.rods)}
    guides = {part.guide: maker.guide(part, "guides", i) for i, part in enumerate(kit.guides)}
    wanted = kit.carried
    named: dict[str, Mapping[str, object]] = {"head": heads, "spring": springs, "rod": rods, "guide": guides}
    for i, each in enumerate(kit.loadouts):
        for key, known in named.items():
            name = getattr(each, key)
            if name is not None and name not in known:
                message = f"no {key} is called {name!r}{nearest(name, list(known))}"
                faults.append(sheet.fault(message, "loadouts", i, key))
    again = next((i for i, each in enumerate(wanted) if each in wanted[:i]), None)
    if again is not None:
        faults.append(sheet.fault("this loadout stands there already; expected each once", "loadouts", again))
    if len(wanted) > MOST_LOADOUTS:
        message = (
            f"{len(wanted)} loadouts; expected at most {MOST_LOADOUTS}: list the usual ones as `loadouts`"
        )
        faults.append(sheet.fault(message, "loadouts"))
    if faults:
        raise BadInput(faults)
    loadouts = tuple(
        Loadout(heads[w.head], springs[w.spring], rods[w.rod], guides[w.guide] if w.guide else None)
        for w in wanted
    )
    shared = Counter(loadout.name for loadout in loadouts)
    loadouts = tuple(replace(each, names_spring=shared[each.name] > 1) for each in loadouts)
    usual = (f"{name}: usual {', '.join(whats)} for its class" for name, whats in maker.usual.items())
    guessed = (f"{name}: {', '.join(whats)} assumed on the sheet" for name, whats in maker.guessed.items())
    return Kit(kit.kit, loadouts, (*usual, *guessed))


class _Maker:
    """Fills each part from its sheet, then from its class of reel."""

    def __init__(self, tables: Tables, sheet: Sheet[KitSheet] | None, faults: list[Fault]) -> None:
        self.tables, self.sheet, self.faults = tables, sheet, faults
        self.usual: dict[str, list[str]] = {}
        self.guessed: dict[str, list[str]] = {}
        self.rough = tables.limits["rough_share"].likely

    def head(self, part: HeadSheet, *path: str | int) -> Head:
        kind = self._class(part, part.diameter, path, lambda each: each.head.diameter).head
        diameter = self._filled(part.head, "diameter", part.diameter, kind.diameter)
        length = self._filled(part.head, "length", part.length, kind.rigid_length)
        return Head(part.head, diameter, length, (part.nose or kind.nose) == "flat")

    def spring(self, part: SpringSheet, *path: str | int) -> Spring:
        kind = self._class(part, part.diameter, path, lambda each: each.spring.diameter).spring
        by_feel = {"soft": kind.soft, "firm": kind.firm}.get(part.feel or "", kind.stiffness)
        name = part.spring
        return Spring(
            name,
            self._filled(name, "diameter", part.diameter, kind.diameter),
            self._filled(name, "length", part.length, kind.length),
            self._filled(name, "stiffness", part.stiffness, by_feel),
            self._filled(name, "minimum radius", part.minimum_radius, kind.minimum_radius),
            None if part.feel is None else part.feel == "firm",
            self._filled(name, "pull limit", part.pull_limit, kind.pull_limit),
        )

    def rod(self, part: RodSheet, *path: str | int) -> Rod:
        kind = self._class(part, part.diameter, path, lambda each: each.rod.jacket_diameter).rod
        name = part.rod
        diameter = self._filled(name, "diameter", part.diameter, kind.jacket_diameter)
        stiffness = self._told(name, "stiffness", part.stiffness)
        follows = part.core is None and stiffness is not None
        usual = kind.core_diameter
        core = usual if follows else self._core(part, diameter, usual, kind.jacket_diameter)
        rod = Rod(
            name,
            diameter,
            core,
            kind.modulus,
            kind.density,
            kind.density_factor,
            kind.strain_limit,
            self._filled(name, "length", part.length, kind.length),
            stiffness,
            self._told(name, "weight", part.weight),
            self._told(name, "minimum radius", part.minimum_radius),
        )
        # A core that nobody told is the one that is so stiff: one rod, and one number for what it bears.
        return replace(rod, core=core_of(stiffness, rod)) if follows and stiffness is not None else rod

    def guide(self, part: GuideSheet, *path: str | int) -> Guide:
        kind = self._class(part, part.diameter, path, lambda each: each.guide.ring_diameter).guide
        return Guide(
            part.guide,
            self._filled(part.guide, "diameter", part.diameter, kind.ring_diameter),
            self._filled(part.guide, "length", part.length, kind.length_added),
        )

    def _core(self, part: RodSheet, diameter: Quantity, core: Quantity, jacket: Quantity) -> Quantity:
        """The core as measured, else from the rod's own diameter.

        A thicker rod of a class may have the thicker core or only the thicker jacket, so the range holds both
        and what is likely stays usual for the class. A rod out of its class has the class's share.
        """
        if part.core is not None or part.diameter is None:
            return self._filled(part.rod, "core", part.core, core)
        share = diameter.likely / jacket.likely
        self.usual.setdefault(part.rod, []).append("core (by its diameter)")
        usual, outside = as_estimate(core), as_estimate(jacket)
        likely = usual.likely * share
        if not outside.low <= diameter.likely <= outside.high:
            return Estimate(usual.low * share, likely, usual.high * share, core.evidence)
        likely = min(max(likely, usual.low), usual.high)
        return Estimate(usual.low * min(share, 1), likely, usual.high * max(share, 1), core.evidence)

    def _class(
        self,
        part: Part,
        diameter: Stated | None,
        path: tuple[str | int, ...],
        usual: Callable[[KitClass], Quantity],
    ) -> KitClass:
        """The class that the sheet names, else the one whose usual size is nearer."""
        classes = self.tables.kit_classes
        if part.like is not None:
            if part.like in classes:
                return classes[part.like]
            assert self.sheet is not None
            message = f"no class of reel is called {part.like!r}{nearest(part.like, list(classes))}"
            self.faults.append(self.sheet.fault(message, *path, "like"))
        if diameter is None:
            return classes[SMALL]
        own = diameter.likely
        # Halfway between the two it is taken for the smaller, which is the more careful.
        return min((classes[SMALL], classes[LARGE]), key=lambda each: abs(own - usual(each).likely))

    def _filled(self, name: str, what: str, given: Stated | None, usual: Quantity) -> Quantity:
        told = self._told(name, what, given)
        if told is None and self.sheet is not None:
            self.usual.setdefault(name, []).append(what)
        return usual if told is None else told

    def _told(self, name: str, what: str, given: Stated | None) -> Quantity | None:
        if given is None:
            return None
        if given.assumed:
            self.guessed.setdefault(name, []).append(what)
        return belief_of(given, self.rough)
