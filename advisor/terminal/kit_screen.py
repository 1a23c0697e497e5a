"""`advisor kit` on the screen: what is on the truck, where it stands, and what of it nobody measured."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.evidence import Grade
from advisor.kit.measure import radius_of, rod_weight
from advisor.kit.model import Kit, Quantity
from advisor.quantity import Dimension, Known, Units, show, show_told
from advisor.terminal.page import Page


def show_kit(kit: Kit, left: Sequence[str], where: str, units: Units, page: Page) -> None:
    """Print every part with its numbers; `where` is the sheet it stands on, `left` goes with nothing."""
    page.heading(f"The kit: {kit.name}")
    page.line(where)

    def part(name: str, **values: str) -> None:
        page.strong(name)
        page.line("; ".join(f"{what.replace('_', ' ')} {value}" for what, value in values.items()), indent=4)

    def cell(value: Quantity, dimension: Dimension = Dimension.LENGTH) -> str:
        return shown(value, dimension, units)

    loadouts, stiff = kit.loadouts, Dimension.STIFFNESS
    page.heading("Heads")
    for head in dict.fromkeys(each.head for each in loadouts):
        nose = "flat" if head.flat_nose else "round"
        part(head.name, across=cell(head.diameter), rigid_length=cell(head.length), nose=nose)
    page.heading("Springs")
    for spring in dict.fromkeys(each.spring for each in loadouts):
        part(
            spring.name,
            across=cell(spring.diameter),
            length=cell(spring.length),
            stiffness=cell(spring.stiffness, stiff),
            pull_limit=cell(spring.pull_limit, Dimension.FORCE),
        )
    page.heading("Rods")
    for rod in dict.fromkeys(each.rod for each in loadouts):
        part(
            rod.name,
            across=cell(rod.diameter),
            core=_core(rod.core, units),
            on_the_reel=cell(rod.length),
            stiffness=cell(rod.stiffness, stiff) if rod.stiffness else "not measured, so from its core *",
            smallest_bend=cell(rod.minimum_radius or radius_of(rod.core, rod)),
            weight=cell(rod_weight(rod), Dimension.WEIGHT),
        )
    guides = dict.fromkeys(each.guide for each in loadouts if each.guide)
    if guides:
        page.heading("Guides")
    for guide in guides:
        part(guide.name, across=cell(guide.diameter), adds=cell(guide.length))
    page.heading("Carried ready")
    page.steps(
        [each.name if each.names_spring else f"{each.name}, with {each.spring.name}" for each in loadouts]
    )
    tell_idle(kit, page)
    if left:
        page.line(f"On the sheet, but carried with nothing: {', '.join(left)}.")
    page.heading("What was assumed")
    page.line("* stands behind what nobody told or measured." if kit.assumed else "Nothing: all is told.")
    page.steps(list(kit.assumed), mark="-")
    page.line()
    page.line("Ask for the kit: advisor kit new. Change one value: advisor kit edit PART/ENTRY=VALUE. "
              "One part more: advisor kit edit --add spring. Measure a rod: advisor kit droop.")  # fmt: skip


def tell_idle(kit: Kit, page: Page) -> None:
    """Each guide that is none for its head, wherever a kit is told or shown."""
    for words in kit.idle_guides:
        page.strong(f"Take note: {words}.")


def _core(core: Quantity, units: Units) -> str:
    """The core, and where it follows from the stiffness that: measured once, it is not assumed."""
    if core.evidence.grade is Grade.COMPUTED:
        return f"{span(core, Dimension.LENGTH, units)} (as its stiffness says)"
    return shown(core, Dimension.LENGTH, units)


def shown(value: Quantity, dimension: Dimension, units: Units) -> str:
    """A number or a range as people read it, starred where nobody told it."""
    return span(value, dimension, units) + ("" if value.evidence.grade is Grade.TOLD else " *")


def span(value: Quantity, dimension: Dimension, units: Units) -> str:
    """A number or a range as people read it, as exact as it was told."""
    written = show_told if value.evidence.grade is Grade.TOLD else show
    if isinstance(value, Known):
        return written(value.value, dimension, units)
    low, high = (written(end, dimension, units) for end in (value.low, value.high))
    return low if low == high else f"{low} to {high}"
