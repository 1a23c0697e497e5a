"""One value of a kit sheet changed in its text: every other line, and every remark, stays as it was."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import takewhile

from advisor.errors import BadInput, Fault
from advisor.kit.layout import bare, flow, lines_of
from advisor.kit.sheet import KitSheet, kit_of_text
from advisor.strict_yaml import Branch, Leaf, Node, Sheet, Twigs, scalar
from advisor.strict_yaml.model import nearest

_PARTS = {"heads": "head", "springs": "spring", "rods": "rod", "guides": "guide"}
_ENTRIES = {
    "heads": ("like", "diameter", "length", "nose"),
    "springs": ("like", "diameter", "length", "stiffness", "minimum radius", "feel", "pull limit"),
    "rods": ("like", "diameter", "core", "stiffness", "weight", "minimum radius", "length"),
    "guides": ("like", "diameter", "length"),
}


def part_names(sheet: Sheet[KitSheet]) -> tuple[str, ...]:
    """Every part as an edit names it: `small head`, or `rods/small reel` where two kinds share a name."""
    found = _found(sheet.tree)
    names = [name for _, name, _ in found]
    return tuple(name if names.count(name) == 1 else f"{kind}/{name}" for kind, name, _ in found)


def told_values(sheet: Sheet[KitSheet]) -> tuple[str, ...]:
    """What stands at the entries of every part, names left out: a truck may be called `12 ft`."""
    return tuple(
        _text(node)
        for kind, _, part in _found(sheet.tree)
        for key, node in part.entries.items()
        if key in _ENTRIES[kind]
    )


def part_of(sheet: Sheet[KitSheet], name: str) -> tuple[str, str]:
    """Kind (`spring`) and own name of the part that is meant; raises BadInput where that is not clear."""
    found = _called(sheet, name)
    if len(found) > 1:
        both = " or ".join(f"`{kind}/{own}`" for kind, own in found)
        raise BadInput([Fault(sheet.file, 0, f"two parts are called {name!r}; expected {both}")])
    return _PARTS[found[0][0]], found[0][1]


def edited(sheet: Sheet[KitSheet], text: str, about: str, value: str) -> str:
    """The text with the entry `PART/ENTRY` set to a value; raises BadInput, also where the value is wrong."""
    name, slash, entry = (each.strip() for each in about.rpartition("/"))
    known = part_names(sheet)
    if not slash or not name:
        raise BadInput(
            [Fault(sheet.file, 0, f"got {about!r}; expected PART/ENTRY, such as {known[0]}/length")]
        )
    matching = [(k, p) for k, n, p in _found(sheet.tree) if name in (n, f"{k}/{n}") and entry in _ENTRIES[k]]
    if not matching:
        kinds = [kind for kind, _ in _called(sheet, name)]
        entries = sorted({e for k in kinds for e in _ENTRIES[k]})
        raise BadInput([Fault(sheet.file, 0, f"{name} has no entry {entry!r}{nearest(entry, entries)}")])
    if len(matching) > 1:
        both = " or ".join(f"`{k}/{name}/{entry}`" for k, _ in matching)
        raise BadInput([Fault(sheet.file, 0, f"two parts are called {name!r}; expected {both}")])
    new = _set(text, matching[0][1], entry, value, sheet.file)
    kit_of_text(new, sheet.file)  # a wrong value is refused before anything is written
    return new


def _called(sheet: Sheet[KitSheet], name: str) -> list[tuple[str, str]]:
    """List and own name of each part that is called so; raises BadInput where none is."""
    found = [(kind, own) for kind, own, _ in _found(sheet.tree) if name in (own, f"{kind}/{own}")]
    if not found:
        known = list(part_names(sheet))
        raise BadInput([Fault(sheet.file, 0, f"no part is called {name!r}{nearest(name, known)}")])
    return found


def _found(tree: Node) -> list[tuple[str, str, Branch]]:
    found = []
    assert isinstance(tree, Branch)
    for kind, key in _PARTS.items():
        rows = tree.entries.get(kind)
        for row in rows.items if isinstance(rows, Twigs) else ():
            if isinstance(row, Branch) and isinstance(row.entries.get(key), Leaf):
                found.append((kind, _text(row.entries[key]), row))
    return found


def _text(node: Node) -> str:
    return node.text if isinstance(node, Leaf) else ""


def _set(text: str, part: Branch, entry: str, value: str, file: str) -> str:
    lines, cr = lines_of(text, file)
    first = part.line - 1
    braced = re.fullmatch(r"(\s*-\s*)\{.*\}(\s*(?:#.*)?)", lines[first])
    if braced and set(part.key_lines.values()) == {part.line}:
        entries = {key: _text(node) for key, node in part.entries.items()} | {entry: value}
        lines[first] = f"{braced[1]}{flow(entries)}{braced[2]}"
    elif entry in part.entries:
        at = part.key_lines[entry] - 1
        line, end = bare(lines[at])
        block = re.fullmatch(rf"(\s*(?:-\s+)?){re.escape(entry)}:\s*\S.*?(\s+#.*)?", line)
        if not block:
            raise BadInput([Fault(file, at + 1, "it is laid out in a way of its own; change it by hand")])
        lines[at] = f"{block[1]}{entry}: {scalar(value)}{block[2] or ''}{end}"
    else:
        block = re.match(r"\s*-\s+(?=\w)", lines[first])
        if not block:
            raise BadInput([Fault(file, first + 1, "it is laid out in a way of its own; change it by hand")])
        line, end = bare(lines[first])
        open_ = next((at for at in _row(lines, first) if lines[at].strip() == f"# {entry}: not told"), None)
        if open_ is not None:
            del lines[open_]
        lines[first : first + 1] = [line + cr, f"{' ' * block.end()}{entry}: {scalar(value)}{end}"]
    return "\n".join(lines)


def _row(lines: Sequence[str], first: int) -> Iterator[int]:
    """The lines of a row of a list below its first."""
    return takewhile(lambda at: re.match(r"\s*-\s|\S", lines[at]) is None, range(first + 1, len(lines)))
