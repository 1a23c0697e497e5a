"""`advisor kit` on the screen: what is on the truck, where it stands, and what of it nobody measured."""

from __future__ import annotations

from advisor.evidence import Grade
from advisor.kit.measure import radius_of, rod_weight
from advisor.kit.model import Kit, Quantity, Rod
from advisor.quantity import Dimension, Known, Units, show
from advisor.terminal.page import Page

_LENGTH = Dimension.LENGTH


def show_kit(kit: Kit, where: str, units: Units, page: Page) -> None:
    """Print every part with its numbers; `where` says which sheet it stands on."""
    page.heading(f"The kit: {kit.name}")
    page.line(where)

    def cell(value: Quantity | None, dimension: Dimension = _LENGTH) -> str:
        return "" if value is None else shown(value, dimension, units)

    loadouts = kit.loadouts
    heads = {each.head.name: each.head for each in loadouts}
    springs = {each.spring.name: each.spring for each in loadouts}
    rods = {each.rod.name: each.rod for each in loadouts}
    guides = {each.guide.name: each.guide for each in loadouts if each.guide}
    page.heading("Heads")
    rows = [
        [h.name, cell(h.diameter), cell(h.length), "flat" if h.flat_nose else "round"] for h in heads.values()
    ]
    page.table(["head", "across", "rigid length", "nose"], rows)
    page.heading("Springs")
    stiff = Dimension.STIFFNESS
    rows = [
        [
            s.name,
            cell(s.diameter),
            cell(s.length),
            cell(s.stiffness, stiff),
            cell(s.pull_limit, Dimension.FORCE),
        ]
        for s in springs.values()
    ]
    page.table(["spring", "across", "length", "stiffness", "pull limit"], rows)
    page.heading("Rods")
    rows = []
    for rod in rods.values():
        stiffness = cell(rod.stiffness, stiff) if rod.stiffness else "not measured"
        rows.append(
            [rod.name, cell(rod.diameter), cell(rod.core), cell(rod.length), stiffness, *_rod(rod, cell)]
        )
    page.table(["rod", "across", "core", "on the reel", "stiffness", "smallest bend", "weight"], rows)
    if guides:
        page.heading("Guides")
        page.table(
            ["guide", "across", "adds"], [[g.name, cell(g.diameter), cell(g.length)] for g in guides.values()]
        )
    page.heading("Carried ready")
    page.steps([f"{each.name}, with {each.spring.name}" for each in loadouts])
    page.heading("What was assumed")
    page.line("* stands behind what nobody told or measured." if kit.assumed else "Nothing: all is told.")
    page.steps(list(kit.assumed), mark="-")
    page.line()
    page.line("Ask for the kit: advisor kit new. Change one value: advisor kit edit PART/ENTRY=VALUE. "
              "Measure a rod: advisor kit droop.")  # fmt: skip


def _rod(rod: Rod, cell: object) -> list[str]:
    assert callable(cell)
    radius = rod.minimum_radius or radius_of(rod.core, rod)
    return [cell(radius), cell(rod_weight(rod), Dimension.WEIGHT)]


def shown(value: Quantity, dimension: Dimension, units: Units) -> str:
    """A number or a range as people read it, starred where nobody told it."""
    star = "" if value.evidence.grade is Grade.TOLD else " *"
    if isinstance(value, Known):
        return show(value.value, dimension, units) + star
    low, high = (show(end, dimension, units) for end in (value.low, value.high))
    return (low if low == high else f"{low} to {high}") + star
