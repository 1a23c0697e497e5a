"""`advisor kit edit --add` and `--remove`: one part more, asked for; one part less, once that is meant."""

from __future__ import annotations

from collections.abc import Collection, Generator, Sequence
from itertools import count
from pathlib import Path

from advisor.errors import BadInput
from advisor.kit.edit import part_of
from advisor.kit.layout import Change
from advisor.kit.loadouts import MOST_LOADOUTS, kit_of
from advisor.kit.parts import (
    Added,
    NewPart,
    has_room,
    names_of,
    not_carried,
    on_rods,
    refuse_full,
    with_part,
    with_rod,
    without_part,
)
from advisor.kit.sheet import KitSheet, LoadoutSheet, kit_of_text
from advisor.quantity import Units
from advisor.strict_yaml import Sheet
from advisor.tables.load import load_tables
from advisor.terminal.choose import Choice, choose, need_terminal, page_of, yes_no
from advisor.terminal.kit_command import sheet_in_use, write
from advisor.terminal.kit_interview import Interview, Question, Script
from advisor.terminal.kit_questions import goes_on, named, part_told
from advisor.terminal.kit_screen import tell_idle
from advisor.terminal.kit_usual import Usual
from advisor.terminal.page import Page


def add(given: Path | None, kind: str, units: str | None, rules: Path, page: Page) -> None:
    """Ask for a part that is new on the truck, and for what it is carried with; raises BadInput."""
    used, sheet, path = sheet_in_use(given, rules)
    need_terminal(f"without one, write it by hand: {path}")
    tables, kit = load_tables(rules), sheet.model
    usual = Usual(tables, Units(units) if units else used.units)
    # A sheet that nothing can be put into is told before anything is asked.
    refuse_full(sheet, kind)
    _refuse_layout(sheet, used.text, kind)
    page.heading(f"One {kind} more")
    page.line("Don't know? Press Enter on an empty line: the usual make is taken, with a wide range.")
    own = []
    for other in ("head", "spring") if kind == "rod" else ():
        try:
            _refuse_layout(sheet, used.text, other)
            own.append(other)
        except BadInput as wrong:
            page.line(f"No new {other} can be asked for with it: {wrong}")

    def show(made: Change) -> None:
        page.heading("New on the kit sheet")
        _show(made, page)
        now = kit_of_text(made.text, sheet.file).model
        if kind != "guide" and _bare_only(kit, now):
            page.line("Without a guide: with each as well they would be more loadouts than a kit may hold.")

    asked = Interview(page, lambda: _script(sheet, used.text, kind, own, usual))

    def judge(made: Change) -> None:
        tell_idle(kit_of(kit_of_text(made.text, sheet.file), tables), page)

    made = asked.settled(path, show, judge)
    if made is not None:
        write(used, made.text)
        _written(path, made.text, page)
        if kind == "rod":
            page.line("How stiff it is tells most of how far it goes. Measure it: advisor kit droop.")


def remove(given: Path | None, name: str, rules: Path, page: Page) -> None:
    """Take a part, and what is carried of it, off the kit sheet once that is meant; raises BadInput."""
    used, sheet, path = sheet_in_use(given, rules)
    kind, called = part_of(sheet, name)
    made = without_part(sheet, used.text, kind, called)
    kit_of(kit_of_text(made.text, sheet.file), load_tables(rules))
    need_terminal(f"without one, take it out by hand: {path}")
    page.heading(f"Off the kit sheet: {called}")
    _show(made, page)
    if choose(page, f"Take it out of {path}?", yes_no()) == "n":
        page.line("Nothing was written.")
        return
    write(used, made.text)
    _written(path, made.text, page)


def _script(
    sheet: Sheet[KitSheet], text: str, kind: str, own: Collection[str], usual: Usual
) -> Script[Change]:
    """Asks for a part, and for what it is carried with; `own` are the kinds that may come new with it."""
    kit = sheet.model
    new = yield from _told(kit, kind, _free(kit, kind), usual)
    if kind == "rod":
        head = yield from _one_of(kit, "head", new, own, usual)
        spring = yield from _one_of(kit, "spring", new, own, usual)
        guides = yield from _fitting(names_of(kit, "guide"), new.name)
        carried = with_rod(kit, new.name, head.name, spring.name, guides)
        parts = (*(each for each in (head, spring) if each.name not in names_of(kit, each.kind)), new)
    else:
        parts, carried = (new,), on_rods(kit, kind, new.name, (yield from _rods(kit, kind, new.name)))
        if kind == "head":
            there = dict.fromkeys(each.guide for each in carried if each.guide)
            fit = (None, *(yield from _fitting(list(there), new.name)))
            carried = tuple(each for each in carried if each.guide in fit)
    return with_part(sheet, text, Added(parts, carried))


def _told(kit: KitSheet, kind: str, free: str, usual: Usual) -> Generator[Question, str, NewPart]:
    """One new part; `free` is its name where nobody gives one."""
    asked = f"What do you call the new {kind}?"
    name = (yield Question(asked, check=named(names_of(kit, kind)), empty=free)) or free
    return NewPart(kind, name, (yield from part_told(kind, name, usual)))


def _fitting(guides: Sequence[str], part: str) -> Generator[Question, str, list[str]]:
    """Those guides that go on a new rod or head: a ring fits what it was made for."""
    fit: list[str] = []
    for guide in guides:
        if (yield goes_on(guide, part)) == "y":
            fit.append(guide)
    return fit


def _rods(kit: KitSheet, kind: str, name: str) -> Generator[Question, str, list[str]]:
    """On which rods a new part goes; not asked where there is only one."""
    rods = list(dict.fromkeys(each.rod for each in kit.carried))
    on: list[str] = []
    for rod in rods:
        room = has_room(kit, on_rods(kit, kind, name, [*on, rod]))
        if len(rods) == 1 or (yield goes_on(name, rod, room)) == "y":
            on.append(rod)
    return on


def _one_of(
    kit: KitSheet, kind: str, rod: NewPart, own: Collection[str], usual: Usual
) -> Generator[Question, str, NewPart]:
    """The head or spring that goes on a new rod: one that is there, or a new one, asked for at once."""
    names = names_of(kit, kind)
    new = (Choice("n", f"a new {kind}"),) if kind in own else ()
    if len(names) == 1 and not new:
        return NewPart(kind, names[0], {})
    for number in count():
        choices = page_of(names, number)
        key = yield Question(f"Which {kind} goes on {rod.name}?", (*choices, *new))
        if key != "m":
            break
    if key != "n":
        return NewPart(kind, next(each.words for each in choices if each.key == key), {})
    free = f"{rod.name} {kind}"
    free = free if free not in names else _free(kit, kind)
    return (yield from _told(kit, kind, free, usual))


def _first(kit: KitSheet, kind: str, name: str) -> tuple[LoadoutSheet, ...]:
    first = kit.carried[0]
    return (
        with_rod(kit, name, first.head, first.spring, ())
        if kind == "rod"
        else on_rods(kit, kind, name, [first.rod])
    )


def _refuse_layout(sheet: Sheet[KitSheet], text: str, kind: str) -> None:
    """Raise BadInput where the sheet is laid out so that nothing can be put in."""
    free = _free(sheet.model, kind)
    with_part(sheet, text, Added((NewPart(kind, free, {}),), _first(sheet.model, kind, free)))


def _free(kit: KitSheet, kind: str) -> str:
    taken = names_of(kit, kind)
    numbered = (f"{kind} {number}" for number in range(len(taken) + 1, 2 * len(taken) + 2))
    return next(name for name in numbered if name not in taken)


def _bare_only(before: KitSheet, now: KitSheet) -> bool:
    """Whether what is new is carried bare, where there are guides, for want of room."""
    new = [each for each in now.carried if each not in before.carried]
    guides = names_of(before, "guide")
    full = len(before.carried) + len(new) * (1 + len(guides)) > MOST_LOADOUTS
    return bool(new) and bool(guides) and full and not any(each.guide for each in new)


def _show(made: Change, page: Page) -> None:
    for line in made.lines:
        page.line(line, indent=2)


def _written(path: Path, text: str, page: Page) -> None:
    page.line(f"Written: {path}")
    left = not_carried(kit_of_text(text, str(path)).model)
    if left:
        page.line(f"Carried with nothing, so no plan has it: {', '.join(left)}.")
