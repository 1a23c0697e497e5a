"""A part put into a kit sheet or taken out, with what is carried of it; every other line stays as it was."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from advisor.errors import BadInput, Fault
from advisor.kit.loadouts import MOST_LOADOUTS
from advisor.kit.new import Entries, loadout_text, part_text
from advisor.kit.sheet import KitSheet, LoadoutSheet, kit_of_text
from advisor.strict_yaml import Branch, Node, Sheet, Twigs
from advisor.strict_yaml.tree import tree_of_text

KINDS = ("head", "spring", "rod", "guide")


@dataclass(frozen=True)
class Added:
    """A new part as told, and the loadouts in which it is carried."""

    kind: str  # one of KINDS
    name: str
    entries: Entries
    carried: tuple[LoadoutSheet, ...]


@dataclass(frozen=True)
class Change:
    """The text of a sheet after a change, and the lines that are new in it or gone from it."""

    text: str
    lines: tuple[str, ...] = ()


def names_of(kit: KitSheet, kind: str) -> tuple[str, ...]:
    """What the parts of one kind are called, in the order of the sheet."""
    return tuple(getattr(part, kind) for part in getattr(kit, f"{kind}s"))


def on_rods(kit: KitSheet, kind: str, name: str, rods: Sequence[str]) -> tuple[LoadoutSheet, ...]:
    """A new head, spring or guide in all that is carried on some rods, in place of what is there."""
    made = (each.model_copy(update={kind: name}) for each in kit.carried if each.rod in rods)
    return _in_room(kit, tuple(dict.fromkeys(made)), bare=kind != "guide")


def with_rod(kit: KitSheet, name: str, head: str, spring: str) -> tuple[LoadoutSheet, ...]:
    """A new rod with one head and one spring, bare and with each guide."""
    guides = (None, *names_of(kit, "guide"))
    made = tuple(LoadoutSheet(head=head, spring=spring, rod=name, guide=guide) for guide in guides)
    return _in_room(kit, made, bare=True)


def not_carried(kit: KitSheet) -> tuple[str, ...]:
    """Parts of the sheet that are in no loadout, so that no plan has them."""
    carried = {(kind, getattr(each, kind)) for each in kit.carried for kind in KINDS}
    return tuple(name for kind in KINDS for name in names_of(kit, kind) if (kind, name) not in carried)


def with_part(sheet: Sheet[KitSheet], text: str, new: Added) -> Change:
    """The sheet with one part more; raises BadInput where the sheet is laid out in a way of its own."""
    old, file = sheet.model, sheet.file
    made = _appended(Change(text), f"{new.kind}s", [(new.kind, new.name, new.entries)], file)
    wanted = (*old.carried, *new.carried)
    if set(_read(made.text, file).carried) != set(wanted):
        # Where nothing was listed, every part went with every other: that is written out now.
        listed = new.carried if old.loadouts else wanted
        made = _appended(made, "loadouts", listed, file)
    now = _read(made.text, file)
    same = all(
        names_of(now, kind) == (*names_of(old, kind), *([new.name] if kind == new.kind else []))
        for kind in KINDS
    )
    if not same or set(now.carried) != set(wanted):
        raise _own_way(file, 0)
    return made


def without_part(sheet: Sheet[KitSheet], text: str, kind: str, name: str) -> Change:
    """The sheet without one part and what is carried of it; raises BadInput where a drain needs it."""
    old, file = sheet.model, sheet.file
    left = tuple(each for each in old.loadouts if getattr(each, kind) != name)
    only = kind != "guide" and len(names_of(old, kind)) == 1
    if only or (old.loadouts and not left):
        message = f"without {name} nothing is left to carry; add what stands in for it first"
        raise BadInput([Fault(file, 0, message)])
    gone = {f"{kind}s": [i for i, each in enumerate(names_of(old, kind)) if each == name]}
    gone["loadouts"] = [i for i, each in enumerate(old.loadouts) if each not in left]
    made = Change(text)
    for key, which in gone.items():
        made = _dropped(made, key, which, file)
    now = _read(made.text, file)
    same = all(
        names_of(now, k) == tuple(n for n in names_of(old, k) if (k, n) != (kind, name)) for k in KINDS
    )
    if not same or now.loadouts != left:
        raise _own_way(file, 0)
    return made


def _in_room(kit: KitSheet, made: tuple[LoadoutSheet, ...], bare: bool) -> tuple[LoadoutSheet, ...]:
    """Only what goes in without a guide, where all would be more than a kit may hold."""
    if bare and len(kit.carried) + len(made) > MOST_LOADOUTS:
        return tuple(each for each in made if each.guide is None) or made
    return made


def _read(text: str, file: str) -> KitSheet:
    return kit_of_text(text, file).model


def _own_way(file: str, line: int) -> BadInput:
    return BadInput([Fault(file, line, "it is laid out in a way of its own; change it by hand")])


def _appended(
    so_far: Change, key: str, rows: Sequence[tuple[str, str, Entries] | LoadoutSheet], file: str
) -> Change:
    """Rows after the last one of a list, or a list of them where there is none yet."""
    tree, lines = tree_of_text(so_far.text, file), so_far.text.split("\n")
    assert isinstance(tree, Branch)
    at, dash, new = len(lines), "  - ", [f"{key}:"]
    if key in tree.entries:
        first, at = _span(tree, key, lines, file)
        dash, new = _dash(first, lines, file), []
    elif "loadouts" in tree.key_lines:
        at = tree.key_lines["loadouts"] - 1
    at = _above_remarks(lines, at, 0)
    for row in rows:
        written = loadout_text(row, dash) if isinstance(row, LoadoutSheet) else part_text(*row, dash)
        new += written.splitlines()
    text = "\n".join([*lines[:at], *new, *(lines[at:] or [""])])
    return Change(text, (*so_far.lines, *new))


def _dropped(so_far: Change, key: str, which: Sequence[int], file: str) -> Change:
    """A list without some of its rows; a remark that stands out from them belongs to what follows."""
    tree, lines = tree_of_text(so_far.text, file), so_far.text.split("\n")
    assert isinstance(tree, Branch)
    if not which:
        return so_far
    _, end = _span(tree, key, lines, file)
    rows = tree.entries[key]
    assert isinstance(rows, Twigs)
    starts = [row.line - 1 for row in rows.items] + [end]
    gone: list[int] = [tree.key_lines[key] - 1] if len(which) == len(rows.items) else []
    for i in which:
        dash = _dash(starts[i], lines, file)
        if starts[i] == starts[i + 1]:
            raise _own_way(file, starts[i] + 1)
        gone += range(starts[i], _above_remarks(lines, starts[i + 1], dash.index("-")))
    text = "\n".join(line for i, line in enumerate(lines) if i not in gone)
    return Change(text, (*so_far.lines, *(lines[i] for i in gone)))


def _span(tree: Branch, key: str, lines: Sequence[str], file: str) -> tuple[int, int]:
    """The first line of a list's rows, and the line before which it ends."""
    rows: Node = tree.entries[key]
    starts = tree.key_lines[key] - 1
    if not isinstance(rows, Twigs) or not rows.items:
        raise _own_way(file, starts + 1)
    after = [line - 1 for line in tree.key_lines.values() if line - 1 > starts]
    return rows.items[0].line - 1, min(after, default=len(lines))


def _dash(first: int, lines: Sequence[str], file: str) -> str:
    found = re.match(r"\s*-\s+(?=\S)", lines[first])
    if found is None:
        raise _own_way(file, first + 1)
    return found[0]


def _above_remarks(lines: Sequence[str], end: int, indent: int) -> int:
    """The end without empty lines, and remarks indented no further than so, just above it."""
    while end > 0 and re.fullmatch(rf"\s*|\s{{0,{indent}}}#.*", lines[end - 1]):
        end -= 1
    return end
