"""`advisor kit droop`: what the readings tell of a rod."""

from __future__ import annotations

from dataclasses import replace
from math import isinf

from advisor.errors import BadInput, Fault
from advisor.evidence import Grade
from advisor.kit.measure import CannotTell, Droop, Hung, core_of, measured, on_sheet, radius_of
from advisor.kit.model import Quantity, Rod
from advisor.quantity import Dimension, Estimate, Units, belief_of, parse_stated, show, show_told
from advisor.tables.load import Tables
from advisor.terminal.kit_screen import span
from advisor.terminal.page import Page


def tell_droop(read: Droop, rod: Rod, tables: Tables, units: Units, page: Page) -> tuple[str, Hung]:
    """Print what the readings tell; gives the stiffness as a kit sheet has it. Raises BadInput."""
    try:
        hung = measured(read, tables)
    except CannotTell as fault:
        raise BadInput([Fault("droop test", 0, str(fault))]) from None
    stiff, length = Dimension.STIFFNESS, Dimension.LENGTH
    error = hung.stiffness.high / hung.stiffness.likely - 1
    page.heading(f"What the droop of {rod.name} tells")
    # Told as the kit sheet keeps it, and as `advisor kit` will show it.
    # Three digits; a power of ten is no way to write a number on a sheet.
    bounds = (hung.stiffness.low, hung.stiffness.high)
    text = f"{' to '.join(f'{v:.3g}' if v < 1000 else f'{v:.0f}' for v in bounds)} N m2"
    kept = replace(rod, stiffness=belief_of(parse_stated(text, stiff), 0.0))
    assert kept.stiffness is not None
    low, _, high = (show(v, stiff, units) for v in _ends(kept.stiffness))
    likely = show(hung.stiffness.likely, stiff, units)
    page.strong(f"Stiffness {likely}, between {low} and {high}: within {error:.0%}.")
    page.line("Of the bare rod: with head or spring on it would be wrong by far more than that.")
    curl = (
        "straight"
        if isinf(hung.curl_radius) or hung.curl_radius > tables.limits["straight_rod"].likely
        else show(hung.curl_radius, length, units)
    )
    page.line("Its own curl: none to speak of." if curl == "straight" else f"Its own curl: radius {curl}.")
    parts = ", ".join(
        f"{what} {share:.0%}" for what, share in hung.parts if share >= 0.005
    )  # layout: less reads "0 %"
    page.line(f"Where the error comes from: {parts}.")
    if hung.parts[0][0] == "the weight" and hung.parts[0][1] > tables.limits["weigh_from"].likely:
        page.line("Weigh the rod, or a cut piece of it, and the error falls: --weight '300 g per 5 m'.")
    if hung.better is not None:
        page.line(
            f"Hang out about {show(hung.better, length, units)} and measure again: there the error is least."
        )
    core = core_of(hung.stiffness, rod)
    _, _, jacket = _ends(rod.diameter)
    if core.low > jacket:
        message = (
            f"so stiff a core would be thicker than {rod.name} itself, {show(jacket, length, units)}; "
            "measure again, or another rod was meant"
        )
        raise BadInput([Fault("droop test", 0, message)])
    _tell_core(core, kept, units, page)
    doubts = _doubts(hung, core, rod, tables, units)
    for doubt in doubts:
        page.strong(doubt)
    if doubts:
        page.strong(
            "Measure again before this is kept: what hangs, both falls, the weight, and the rod bare."
        )
    page.line(f"On the kit sheet, at rod {rod.name}: stiffness: {text}")
    return text, hung


def _tell_core(core: Estimate, kept: Rod, units: Units, page: Page) -> None:
    """The core that is so stiff, and the smallest bend as `advisor kit` shows it once that is kept."""
    # Written as the usual and the told core are: a sixteenth of an inch is coarser than what parts them.
    thick = _between(core.low, core.high, Dimension.LENGTH, units)
    page.line(f"So stiff is a core of {thick}.")
    if kept.minimum_radius:
        by, radius = "as told", kept.minimum_radius
    elif on_sheet(kept.core):
        by, radius = "by the core on the sheet", radius_of(kept.core, kept)
    else:
        assert kept.stiffness is not None
        by, radius = "by this core", radius_of(core_of(kept.stiffness, kept), kept)
    page.line(f"Smallest bend, {by}: radius {span(radius, Dimension.LENGTH, units)}.")
    if not kept.minimum_radius:
        page.line("Marked on the jacket? That stands above it: "
                  f"advisor kit edit 'rods/{kept.name}/minimum radius=...'")  # fmt: skip


def _doubts(hung: Hung, core: Estimate, rod: Rod, tables: Tables, units: Units) -> list[str]:
    """What of a rod so stiff is unlike what is known of it, and of rods like it."""
    told_low, _, told_high = _ends(rod.core)
    ours = f"{rod.name}'s core is usually {_between(told_low, told_high, Dimension.LENGTH, units)}"
    found = []
    if hung.curl_radius < tables.limits["tightest_curl"].likely:
        found.append("The two falls lie further apart than the curl of a reel makes them.")
    if rod.stiffness is not None:
        low, _, high = _ends(rod.stiffness)
        if high < hung.stiffness.low or hung.stiffness.high < low:
            sheet = _between(low, high, Dimension.STIFFNESS, units)
            found.append(f"The sheet says stiffness {sheet}: one of the two is wrong.")
    elif rod.core.evidence.grade is Grade.TOLD:
        if not (told_low <= core.high and core.low <= told_high):
            found.append(_against(core, rod, units))
    elif not told_low <= core.likely <= told_high:
        if told_low <= core.high and core.low <= told_high:
            likeliest = show_told(core.likely, Dimension.LENGTH, units)
            found.append(f"That may be an unusual core: {likeliest} is likeliest, and {ours}.")
        else:
            found.append(f"That is an unusual core: {ours}.")
    return found


def _against(core: Estimate, rod: Rod, units: Units) -> str:
    """The core as told that cannot be the one that was hung: both, and which of them is used for what."""
    told_low, _, told_high = _ends(rod.core)
    length = Dimension.LENGTH
    sheet, hung = _between(told_low, told_high, length, units), _between(core.low, core.high, length, units)
    rest = "for nothing" if rod.minimum_radius else "for the smallest bend only"
    return (
        f"The sheet says core {sheet}, the droop says {hung}. "
        f"Once kept, the droop is used for the stiffness and the sheet's core {rest}. "
        f"Is the sheet wrong? Mend it: advisor kit edit 'rods/{rod.name}/core=...'"
    )


def _between(low: float, high: float, what: Dimension, units: Units) -> str:
    return " to ".join(dict.fromkeys(show_told(end, what, units) for end in (low, high)))


def _ends(value: Quantity) -> tuple[float, float, float]:
    return value.low, value.likely, value.high
