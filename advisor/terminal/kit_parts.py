"""`advisor kit edit --add` and `--remove`: one part more, asked for; one part less, once that is meant."""

from __future__ import annotations

from collections.abc import Generator, Sequence
from pathlib import Path

from advisor.kit.edit import part_of
from advisor.kit.loadouts import kit_of
from advisor.kit.parts import Added, Change, names_of, not_carried, on_rods, with_part, with_rod, without_part
from advisor.kit.sheet import KitSheet, LoadoutSheet, kit_of_text
from advisor.strict_yaml import Sheet
from advisor.tables.load import load_tables
from advisor.terminal.choose import Choice, choose, need_terminal, yes_no
from advisor.terminal.kit_command import InUse, sheet_in_use, write
from advisor.terminal.kit_interview import Interview, Question, Script
from advisor.terminal.kit_questions import guide_told, head_told, named, reel_class, rod_told, spring_told
from advisor.terminal.page import Page

_ASKED = {"head": head_told, "spring": spring_told, "rod": rod_told, "guide": guide_told}
_KEYS = "123456789acefghijkl"  # b is back


def add(given: Path | None, kind: str, rules: Path, page: Page) -> None:
    """Ask for a part that is new on the truck, and for what it is carried with; raises BadInput."""
    used, sheet, path = sheet_in_use(given, rules)
    need_terminal(f"without one, write it by hand: {path}")
    tables, kit = load_tables(rules), sheet.model
    free = _free(kit, kind)
    # A sheet that nothing can be put into is told before anything is asked.
    with_part(sheet, used.text, Added(kind, free, {}, _first(kit, kind, free)))
    page.heading(f"One {kind} more")
    page.line("Don't know? Press Enter on an empty line: the usual make is taken, with a wide range.")

    def show(made: Change) -> None:
        page.heading("New on the kit sheet")
        _show(made, page)
        now = kit_of_text(made.text, sheet.file).model
        if kind != "guide" and _bare_only(kit, now):
            page.line("Without a guide: with each as well they would be more loadouts than a kit may hold.")

    asked = Interview(page, lambda: _script(used, sheet, kind, free))
    made = asked.settled(path, show, lambda made: kit_of(kit_of_text(made.text, sheet.file), tables))
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


def _script(used: InUse, sheet: Sheet[KitSheet], kind: str, free: str) -> Script[Change]:
    kit = sheet.model
    asked = f"What do you call the new {kind}?"
    name = (yield Question(asked, check=named(names_of(kit, kind)), empty=free)) or free
    # A guide is taken from the class whose usual size is nearer, as in the whole kit.
    like = {} if kind == "guide" else {"like": (yield from reel_class(f"{name}:"))}
    told = yield from _ASKED[kind](name)
    carried = yield from _carried(kit, kind, name)
    return with_part(sheet, used.text, Added(kind, name, {**like, **told}, carried))


def _carried(kit: KitSheet, kind: str, name: str) -> Generator[Question, str, tuple[LoadoutSheet, ...]]:
    """What the part is carried with; not asked where there is only one."""
    if kind == "rod":
        head = yield from _one_of(f"Which head goes on {name}?", names_of(kit, "head"))
        spring = yield from _one_of(f"Which spring goes on {name}?", names_of(kit, "spring"))
        return with_rod(kit, name, head, spring)
    rods = list(dict.fromkeys(each.rod for each in kit.carried))
    on = []
    for rod in rods:
        if len(rods) == 1 or (yield Question(f"Does {name} go on {rod}?", yes_no())) == "y":
            on.append(rod)
    return on_rods(kit, kind, name, on)


def _one_of(words: str, names: Sequence[str]) -> Generator[Question, str, str]:
    if len(names) == 1:
        return names[0]
    keyed = dict(zip(_KEYS, names, strict=False))
    key = yield Question(words, tuple(Choice(key, name) for key, name in keyed.items()))
    return keyed[key]


def _first(kit: KitSheet, kind: str, name: str) -> tuple[LoadoutSheet, ...]:
    first = kit.carried[0]
    return (
        with_rod(kit, name, first.head, first.spring)
        if kind == "rod"
        else on_rods(kit, kind, name, [first.rod])
    )


def _free(kit: KitSheet, kind: str) -> str:
    taken = names_of(kit, kind)
    numbered = (f"{kind} {number}" for number in range(len(taken) + 1, 2 * len(taken) + 2))
    return next(name for name in numbered if name not in taken)


def _bare_only(before: KitSheet, now: KitSheet) -> bool:
    """Whether what is new is carried bare while a guide is carried on its rods, or with any rod."""
    new = [each for each in now.carried if each not in before.carried]
    return bool(new) and any(each.guide for each in before.carried) and not any(each.guide for each in new)


def _show(made: Change, page: Page) -> None:
    for line in made.lines:
        page.line(line, indent=2)


def _written(path: Path, text: str, page: Page) -> None:
    page.line(f"Written: {path}")
    left = not_carried(kit_of_text(text, str(path)).model)
    if left:
        page.line(f"Carried with nothing, so no plan has it: {', '.join(left)}.")
