"""The droop test's readings: what to do before the first, asked for one by one or read from the options."""

from __future__ import annotations

import re
from collections.abc import Callable
from itertools import count

from advisor.errors import BadInput, Fault, QuantityError
from advisor.kit.measure import OUT_OF_ORDER, Droop, first_overhang, likely_fall, out_of_order, rod_weight
from advisor.kit.model import Kit, Quantity, Rod
from advisor.mechanics.section import GRAVITY
from advisor.quantity import Dimension, Estimate, Stated, Units, parse, parse_stated, show, show_told
from advisor.strict_yaml.model import nearest
from advisor.tables.load import Tables
from advisor.terminal.choose import DONT_KNOW, choose, page_of, type_in, yes_no
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


def ask_bare(rod: Rod, tables: Tables, units: Units, page: Page) -> bool:
    """Say what to do before the first reading, and what where the rod cannot be hung bare: then False."""
    page.heading(f"The droop test: {rod.name}")
    page.steps(steps(rod, tables, units))
    bare = yes_no("yes, the rod is bare", "no, they do not come off")
    if choose(page, "Are head and spring off?", bare) == "y":
        return True
    page.line(_CANNOT[0])
    page.line(f"{_CANNOT[1]}advisor kit edit 'rods/{rod.name}/core=...'")
    return False


def ask_droop(rod: Rod, tables: Tables, units: Units, page: Page, told: list[str]) -> Droop | None:
    """The readings asked for one at a time; nothing where it is left.

    `told` are those told before, of which the last is asked first: each that is gone back to may be kept.
    """

    table, hardly = (tables.limits[name].likely for name in ("table_height", "droop_doubted"))
    doubted = set[tuple[str, str]]()

    def slip(reading: str, text: str, words: str) -> str | None:
        if (reading, text) in doubted:
            return None
        doubted.add((reading, text))
        return f"{text} {words} A slip? Type it again; the same again is taken."

    def length(text: str) -> str | None:
        wrong = _fault(lambda: _hangs(text))
        if wrong is not None or likely_fall(rod, _hangs(text), 1 / hardly) <= table:
            return wrong
        words = (
            f"hung out: the end of this rod, were it {1 / hardly:.0f} times as stiff, would lie on the floor."
        )
        return slip("hung", text, words)

    def too_deep(reading: str, text: str) -> str | None:
        return slip(reading, text, "is further down than a table is high.") if _fall(text) > table else None

    def fall(text: str) -> str | None:
        if _fault(lambda: _fall(text)) is None and _fall(text) >= _hangs(told[0]):
            return f"the end cannot fall further than the length that hangs, {told[0]}"
        return _fault(lambda: _fall(text))

    def first_fall(text: str) -> str | None:
        wrong = fall(text)
        if wrong is not None:
            return wrong
        usual = likely_fall(rod, _hangs(told[0]))
        if _fall(text) >= usual * hardly:
            return too_deep("first", text)
        likely = show(usual, Dimension.LENGTH, units)
        return slip(
            "first", text, f"is hardly a fall: this rod, {told[0]} hung out, is likely to fall some {likely}."
        )

    def rolled(text: str) -> str | None:
        wrong = fall(text)
        if wrong is None and out_of_order(_fall(told[1]), _fall(text), tables):
            return f"{text} here, {told[1]} at first: {OUT_OF_ORDER}. Esc: back to the first."
        return wrong or too_deep("rolled", text)

    def weight(text: str) -> str | None:
        return None if text == DONT_KNOW.key else _fault(lambda: _weight(text, tables))

    along, across = ALONG[units], ACROSS[units]
    up = {Units.INCH: "2 in up", Units.METRIC: "5 cm up"}[units]
    piece = {Units.INCH: "`22 lb per 200 ft`", Units.METRIC: "`300 g per 5 m`, or `45 g/m`"}[units]
    asked = (
        ("How much hangs over the edge?", length, None, along),
        ("How far below the table's top is the end?", first_fall, None, across),
        (f"And rolled half round? Above the table's top: `{up}`.", rolled, None, across),
        (f"Weight of the rod? Such as {piece}.", weight, "don't know", ""),
    )
    before = told[:]
    told[:] = told[: len(asked) - 1]
    while len(told) < len(asked):
        at = len(told)
        words, check, empty, unit = asked[at]
        was = before[at] if at < len(before) else ""
        if was:
            unknown = f"; {DONT_KNOW.key}: {empty}" if empty else ""
            empty = f"as told, {was}{unknown}"
        typed = type_in(page, words, check, empty, escape="back" if told else "leave", unit=unit)
        if typed == "" and check(was) is not None:  # the reading before it is another now
            page.line(str(check(was)))
        elif typed is not None:
            told.append(typed or was)
            before[at : at + 1] = [typed or was]
        elif told:
            told.pop()
        else:
            page.line("A reading is missing, so nothing can be said.")
            return None
    hung, first, second, weighed = told
    return read_droop(hung, first, second, None if weighed in ("", DONT_KNOW.key) else weighed, rod, tables)


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


def _fault(read: Callable[[], object]) -> str | None:
    try:
        read()
    except QuantityError as fault:
        return str(fault)
    return None
