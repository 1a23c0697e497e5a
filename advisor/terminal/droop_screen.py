"""`advisor kit droop`: asks for the readings or takes them from the options, and says what they tell."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import count
from math import isinf

from advisor.errors import BadInput, Fault, QuantityError
from advisor.evidence import Grade
from advisor.kit.measure import (
    CannotTell,
    Droop,
    Hung,
    core_of,
    first_overhang,
    measured,
    on_sheet,
    radius_of,
    rod_weight,
)
from advisor.kit.model import Kit, Quantity, Rod
from advisor.mechanics.section import GRAVITY
from advisor.quantity import (
    Dimension,
    Estimate,
    Stated,
    Units,
    belief_of,
    parse,
    parse_stated,
    show,
    show_told,
)
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables
from advisor.terminal.choose import choose, page_of, type_in, yes_no
from advisor.terminal.kit_screen import span
from advisor.terminal.number import ACROSS, ALONG
from advisor.terminal.page import Page

_INCH = 0.0254
_HANGS = "it must be what hangs free, 0.2 m to 10 m (8 in to 33 ft)"
_OF_PIECE = "22 lb per 200 ft, or 300 g per 5 m"
_CANNOT = (
    "Then leave this test. With head or spring on the end falls further, the rod comes out far softer than "
    "it is; nothing in the readings would show it.",
    "Hang a spare piece of the same rod instead, and answer yes. Or tell the core, as seen at a cut end: ",
)


def steps(rod: Rod, tables: Tables, units: Units) -> list[str]:
    """What to do before the first reading, with how much to hang out of a rod that is likely so stiff."""
    length, fall = first_overhang(rod, tables)
    mark = {Units.INCH: _INCH, Units.METRIC: 0.01}[units]  # a tape is read to more than that; it says about
    out, down = (
        show(length, Dimension.LENGTH, units),
        show_told(round(fall / mark) * mark, Dimension.LENGTH, units),
    )
    return [
        "Bare rod only: take head and spring off first.",
        "Lay the rod along a level table with its end over the edge. Hold it flat at the edge.",
        f"Hang out about {out}: its end should fall some {down}. "
        "Hardly falls? Hang out more. Near the floor? Less.",
        "Roll it until it droops most: its curl points down. Let it come to rest.",
        "Measure from the table's top straight down to the rod's end.",
        "Roll it half round and measure again.",
    ]


def rod_of(kit: Kit, name: str | None, page: Page | None) -> Rod:
    """The rod that is meant: by its name, the only one, or asked for; raises BadInput."""
    rods = {each.rod.name: each.rod for each in kit.loadouts}
    if name is not None:
        if name not in rods:
            raise BadInput([Fault("--rod", 0, f"no rod is called {name!r}{nearest(name, list(rods))}")])
        return rods[name]
    if len(rods) == 1:
        return next(iter(rods.values()))
    if page is None:
        raise BadInput([Fault("--rod", 0, f"which rod? expected one of: {', '.join(rods)}")])
    for number in count():
        choices = page_of(list(rods), number)
        key = choose(page, "Which rod?", choices)
        if key != "m":
            break
    return rods[next(each.words for each in choices if each.key == key)]


def read_droop(length: str, droop: str, rolled: str, weight: str | None, rod: Rod, tables: Tables) -> Droop:
    """The readings as text to SI; raises BadInput with what is wrong."""
    faults: list[Fault] = []

    def told(option: str, text: str, signed: bool = False) -> float:
        try:
            return _fall(text) if signed else _hangs(text)
        except QuantityError as fault:
            faults.append(Fault(option, 0, str(fault)))
            return 0.0

    values = (told("--length", length), told("--droop", droop, True), told("--droop-rolled", rolled, True))
    weighed: Quantity = rod_weight(rod)
    if weight is not None:
        try:
            weighed = _weight(weight, tables)
        except QuantityError as fault:
            faults.append(Fault("--weight", 0, str(fault)))
    if faults:
        raise BadInput(faults)
    return Droop(*values, weighed, weight is not None)


def ask_droop(rod: Rod, tables: Tables, units: Units, page: Page) -> Droop | None:
    """The readings asked for one at a time, each of which can be changed; nothing where it is left."""
    page.heading(f"The droop test: {rod.name}")
    page.steps(steps(rod, tables, units))
    bare = yes_no("yes, the rod is bare", "no, they do not come off")
    if choose(page, "Are head and spring off?", bare) == "n":
        page.line(_CANNOT[0])
        page.line(f"{_CANNOT[1]}advisor kit edit 'rods/{rod.name}/core=...'")
        return None
    told: list[str] = []

    def length(text: str) -> str | None:
        return _fault(lambda: _hangs(text))

    def fall(text: str) -> str | None:
        if _fault(lambda: _fall(text)) is None and _fall(text) >= _hangs(told[0]):
            return f"the end cannot fall further than the length that hangs, {told[0]}"
        return _fault(lambda: _fall(text))

    def weight(text: str) -> str | None:
        return _fault(lambda: _weight(text, tables))

    along, across = ALONG[units], ACROSS[units]
    up = {Units.INCH: "2 in up", Units.METRIC: "5 cm up"}[units]
    piece = {Units.INCH: "`22 lb per 200 ft`", Units.METRIC: "`300 g per 5 m`, or `45 g/m`"}[units]
    asked = (
        ("How much hangs over the edge?", length, None, along),
        ("How far below the table's top is the end?", fall, None, across),
        (f"And rolled half round? Above the table's top: `{up}`.", fall, None, across),
        (f"Weight of the rod? Such as {piece}.", weight, "don't know", ""),
    )
    while len(told) < len(asked):
        words, check, empty, unit = asked[len(told)]
        typed = type_in(page, words, check, empty, escape="back" if told else "leave", unit=unit)
        if typed is not None:
            told.append(typed)
        elif told:
            told.pop()
        else:
            page.line("A reading is missing, so nothing can be said.")
            return None
    hung, first, second, weighed = told
    return read_droop(hung, first, second, weighed or None, rod, tables)


def tell_droop(read: Droop, rod: Rod, tables: Tables, units: Units, page: Page) -> tuple[str, Hung]:
    """Print what the readings tell; gives the stiffness as a kit sheet has it. Raises BadInput."""
    try:
        hung = measured(read, tables)
    except CannotTell as fault:
        raise BadInput([Fault("droop test", 0, str(fault))]) from None
    stiff, length = Dimension.STIFFNESS, Dimension.LENGTH
    error = hung.stiffness.high / hung.stiffness.likely - 1
    page.heading(f"What the droop of {rod.name} tells")
    low, likely, high = (show(v, stiff, units) for v in _ends(hung.stiffness))
    page.strong(f"Stiffness {likely}, between {low} and {high}: within {error:.0%}.")
    page.line("Of the bare rod: with head or spring on it would be wrong by far more than that.")
    curl = (
        "straight"
        if isinf(hung.curl_radius) or hung.curl_radius > 50
        else show(hung.curl_radius, length, units)
    )
    page.line("Its own curl: none to speak of." if curl == "straight" else f"Its own curl: radius {curl}.")
    parts = ", ".join(f"{what} {share:.0%}" for what, share in hung.parts if share >= 0.005)
    page.line(f"Where the error comes from: {parts}.")
    if hung.parts[0][0] == "the weight" and hung.parts[0][1] > 0.05:
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
    text = f"{hung.stiffness.low:.3g} to {hung.stiffness.high:.3g} N m2"
    kept = replace(rod, stiffness=belief_of(parse_stated(text, stiff), 0.0))
    _tell_core(core, kept, units, page)
    against = _against(core, rod, units)
    if against is not None:
        page.line(against)
        page.line(f"Is the sheet wrong? Mend it: advisor kit edit 'rods/{rod.name}/core=...'")
    page.line(f"On the kit sheet, at rod {rod.name}: stiffness: {text}")
    return text, hung


def _tell_core(core: Estimate, kept: Rod, units: Units, page: Page) -> None:
    """The core that is so stiff, and the smallest bend as `advisor kit` shows it once that is kept."""
    small, large = (show(v, Dimension.LENGTH, units) for v in (core.low, core.high))
    thick = f"about {small}" if small == large else f"{small} to {large}"
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


def _against(core: Estimate, rod: Rod, units: Units) -> str | None:
    """Where the core as told cannot be the one that was hung: both, and which of them is used for what."""
    told_low, _, told_high = _ends(rod.core)
    if rod.core.evidence.grade is not Grade.TOLD or (told_low <= core.high and core.low <= told_high):
        return None
    sheet = " to ".join(
        dict.fromkeys(show_told(end, Dimension.LENGTH, units) for end in (told_low, told_high))
    )
    low, high = (show_told(end, Dimension.LENGTH, units) for end in (core.low, core.high))
    rest = "for nothing" if rod.minimum_radius else "for the smallest bend only"
    return (
        f"The sheet says core {sheet}, the droop says {low} to {high}. Once kept, the droop is used for the "
        f"stiffness and the sheet's core {rest}."
    )


def _ends(value: Quantity) -> tuple[float, float, float]:
    if isinstance(value, Estimate):
        return value.low, value.likely, value.high
    return value.value, value.value, value.value


def _hangs(text: str) -> float:
    """Metres that hang over the edge."""
    length = parse(text, Dimension.LENGTH)
    if not 0.2 <= length <= 10:
        raise QuantityError(f"got {text!r}; {_HANGS}")
    return length


def _fall(text: str) -> float:
    """Metres below the table's top; `up` before or behind means above it."""
    found = re.fullmatch(r"(?:(up)\s+)?(.+?)(?:\s+(up))?", text.strip(), re.IGNORECASE)
    assert found is not None or not text.strip()
    if found is None:
        raise QuantityError("it is empty; expected a length such as 20 cm, or `5 cm up`")
    size = parse(found[2], Dimension.LENGTH)
    return -size if found[1] or found[3] else size


def _weight(text: str, tables: Tables) -> Estimate:
    """Weight per length with what weighing may be off: `45 g/m`, or `300 g per 5 m`."""
    piece = re.fullmatch(r"(.+?)\s+(?:per|for|a)\s+(.+)", text.strip())
    off = tables.limits["weight_reading"].likely
    if piece and not re.fullmatch(r"(m|ft|foot|metre|meter)", piece[2]):
        one = (
            parse(piece[1], Dimension.MASS) * GRAVITY / _more_than_nothing(parse(piece[2], Dimension.LENGTH))
        )
        low = likely = high = one
    else:
        stated = _per_length(text)
        low, likely, high = stated.low, stated.likely, stated.high
        if stated.rough:
            off = tables.limits["rough_share"].likely
    _more_than_nothing(low)
    evidence = tables.limits["weight_reading"].evidence
    return Estimate(low * (1 - off), likely, high * (1 + off), evidence)


def _per_length(text: str) -> Stated:
    try:
        return parse_stated(text, Dimension.WEIGHT)
    except QuantityError as fault:
        if _fault(lambda: parse(text, Dimension.MASS)) is None:
            raise QuantityError(f"got {text!r}: of how much rod? Such as {_OF_PIECE}") from None
        raise QuantityError(f"{fault}, or of a piece {_OF_PIECE}") from None


def _more_than_nothing(value: float) -> float:
    if value <= 0:
        raise QuantityError("it must be more than nothing")
    return value


def _fault(read: object) -> str | None:
    assert callable(read)
    try:
        read()
    except QuantityError as fault:
        return str(fault)
    return None
