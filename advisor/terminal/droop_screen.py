"""`advisor kit droop`: asks for the readings or takes them from the options, and says what they tell."""

from __future__ import annotations

import re
from itertools import count
from math import isinf

from advisor.errors import BadInput, Fault, QuantityError
from advisor.evidence import Grade
from advisor.kit.measure import BEST, CannotTell, Droop, Hung, core_of, measured, radius_of, rod_weight
from advisor.kit.model import Kit, Quantity, Rod
from advisor.mechanics.section import GRAVITY
from advisor.quantity import Dimension, Estimate, Units, parse, parse_stated, show, show_told
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables
from advisor.terminal.choose import choose, page_of, type_in
from advisor.terminal.page import Page

STEPS = (
    "Lay the rod along a level table with its end over the edge. Hold it flat at the edge.",
    f"Hang out so much that the end falls by about half of it ({BEST[0]:.0%} to {BEST[1]:.0%}).",
    "Roll it until it droops most: its curl points down. Let it come to rest.",
    "Measure from the table's top straight down to the rod's end.",
    "Roll it half round and measure again.",
)


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
            return _fall(text) if signed else parse(text, Dimension.LENGTH)
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
    if not 0.2 <= values[0] <= 10:
        raise BadInput([Fault("--length", 0, f"got {length!r}; expected what hangs free, 0.2 m to 10 m")])
    return Droop(*values, weighed, weight is not None)


def ask_droop(rod: Rod, tables: Tables, page: Page) -> Droop | None:
    """The readings asked for one at a time, each of which can be changed; nothing where it is left."""
    page.heading(f"The droop test: {rod.name}")
    page.steps(list(STEPS))

    def length(text: str) -> str | None:
        return _fault(lambda: parse(text, Dimension.LENGTH))

    def fall(text: str) -> str | None:
        return _fault(lambda: _fall(text))

    def weight(text: str) -> str | None:
        return _fault(lambda: _weight(text, tables))

    asked = (
        ("How much hangs over the edge?", length, None),
        ("How far below the table's top is the end?", fall, None),
        ("And rolled half round? (`5 cm up` where it stands above)", fall, None),
        ("Weight of the rod? Such as `45 g/m`, or `300 g per 5 m`.", weight, "don't know"),
    )
    told: list[str] = []
    while len(told) < len(asked):
        words, check, empty = asked[len(told)]
        typed = type_in(page, words, check, empty, escape="back" if told else "leave")
        if typed is not None:
            told.append(typed)
        elif told:
            told.pop()
        else:
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
    radius = radius_of(core, rod)
    small, large = (show(v, length, units) for v in (core.low, core.high))
    tight, wide = (show(v, length, units) for v in (radius.low, radius.high))
    thick = f"about {small}" if small == large else f"{small} to {large}"
    page.line(f"So stiff is a core of {thick}; it bears a bend of {tight} to {wide} radius. "
              "What is marked on the jacket stands above that.")  # fmt: skip
    against = _against(core, rod, units)
    if against is not None:
        page.line(against)
        page.line(f"Is the sheet wrong? Mend it: advisor kit edit 'rods/{rod.name}/core=...'")
    _, _, jacket = _ends(rod.diameter)
    if core.low > jacket:
        message = (
            f"so stiff a core would be thicker than {rod.name} itself, {show(jacket, length, units)}; "
            "measure again, or another rod was meant"
        )
        raise BadInput([Fault("droop test", 0, message)])
    text = f"{hung.stiffness.low:.3g} to {hung.stiffness.high:.3g} N m2"
    page.line(f"On the kit sheet, at rod {rod.name}: stiffness: {text}")
    return text, hung


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
        stated = parse_stated(text, Dimension.WEIGHT)
        low, likely, high = stated.low, stated.likely, stated.high
        if stated.rough:
            off = tables.limits["rough_share"].likely
    _more_than_nothing(low)
    evidence = tables.limits["weight_reading"].evidence
    return Estimate(low * (1 - off), likely, high * (1 + off), evidence)


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
