"""A file read on behind its faults: each slip is put right as far as that can be, and the rest is read.

So a size without a unit does not hide a misspelt fitting, nor that a target which is nowhere. A reader stays
as it is: it is run again on the tree without the slips, and what only follows from mending is not told.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TypeVar

from advisor.errors import BadInput, Fault
from advisor.strict_yaml.tree import Branch, Leaf, Node, Twigs, tree_and_twice

T = TypeVar("T")
Path = tuple[str | int, ...]
_MOST_READINGS = 20  # of one file; a reader has some five stages


def read_on(text: str, file: str, read: Callable[[Node], T]) -> T:
    """What `read` makes of the tree of a text; raises BadInput with every fault that can be found."""
    tree, told = tree_and_twice(text, file)
    mending = _Mending(tree)
    for _ in range(_MOST_READINGS):
        try:
            made = read(mending.tree)
        except BadInput as wrong:
            told += [fault for fault in wrong.faults if mending.is_new(fault)]
            if not mending.mend(wrong.faults):
                break
        else:
            if told:
                break
            return made
    raise BadInput(told)


class _Mending:
    """The tree with what was put right so far, and where."""

    def __init__(self, tree: Node) -> None:
        self.tree = tree
        self.mended: dict[Path, int] = {}  # how often
        self.told: set[Path] = set()

    def is_new(self, fault: Fault) -> bool:
        """Whether a fault is more than one told before, in other words, or what mending made of it."""
        if fault.slip is None:
            return True
        path = fault.slip.path
        return path not in self.told and not any(_within(path, m) or _within(m, path) for m in self.mended)

    def mend(self, faults: list[Fault]) -> bool:
        """Put right what can be; False where all was tried."""
        again: dict[Path, set[str | int]] = {}
        tried = False
        for slip in dict.fromkeys(fault.slip for fault in faults):
            if slip is None or not slip.path:
                continue
            self.told.add(slip.path)
            whole = slip.value is not None and isinstance(_node(self.tree, slip.path), Branch | Twigs)
            if not slip.mends or (whole and slip.entry is None):
                continue  # a list that is wrong as a whole is not put right by taking it away
            above, last = slip.path[:-1], slip.path[-1]
            tries = self.mended.get(slip.path, 0)
            if slip.entry is not None and not tries:
                self.tree = _at(self.tree, above, partial(_renamed, str(last), slip.entry))
                tried = True
            elif slip.value is None or tries == 1:
                again.setdefault(above, set()).add(last)
            elif not tries:
                self.mended[slip.path], tried = 1, True
                self.tree = _at(self.tree, above, partial(_taken_for, last, slip.value))
        for above, gone in again.items():
            self.tree = _at(self.tree, above, partial(_without, gone))
            # What stands behind them in a list has another number now.
            listed = any(isinstance(each, int) for each in gone)
            self.mended |= dict.fromkeys([above] if listed else [(*above, each) for each in gone], 2)
        return tried or bool(again)


def _within(path: Path, whole: Path) -> bool:
    return bool(whole) and path[: len(whole)] == whole


def _node(node: Node, path: Path) -> Node | None:
    """What stands at the end of a path, if anything."""
    for step in path:
        if isinstance(node, Branch) and step in node.entries:
            node = node.entries[str(step)]
        elif isinstance(node, Twigs) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
        else:
            return None
    return node


def _at(node: Node, path: Path, change: Callable[[Node], Node]) -> Node:
    """The tree with one node changed; as it is where the path leads nowhere."""
    if not path:
        return change(node)
    step, rest = path[0], path[1:]
    if isinstance(node, Branch) and step in node.entries:
        key = str(step)
        return replace(node, entries={**node.entries, key: _at(node.entries[key], rest, change)})
    if isinstance(node, Twigs) and isinstance(step, int) and step < len(node.items):
        changed = _at(node.items[step], rest, change)
        return replace(node, items=(*node.items[:step], changed, *node.items[step + 1 :]))
    return node


def _renamed(key: str, meant: str, node: Node) -> Node:
    """With a misspelt entry under the name that was meant; without it where that stands there too."""
    if not isinstance(node, Branch) or key not in node.entries:
        return node
    if meant in node.entries:
        return _without({key}, node)
    called = {each: meant if each == key else each for each in node.entries}
    return Branch(
        {called[each]: value for each, value in node.entries.items()},
        node.line,
        {called[each]: node.key_lines[each] for each in node.entries},
    )


def _taken_for(step: str | int, value: str, node: Node) -> Node:
    """With what may stand there in place of one value."""
    if isinstance(node, Branch):
        lines = {str(step): node.line} | node.key_lines
        leaf = Leaf(value, lines[str(step)])
        return Branch({**node.entries, str(step): leaf}, node.line, lines)
    if isinstance(node, Twigs) and isinstance(step, int):
        leaf = Leaf(value, node.items[step].line)
        return replace(node, items=(*node.items[:step], leaf, *node.items[step + 1 :]))
    return node


def _without(gone: set[str | int], node: Node) -> Node:
    """Without some entries, or some values of a list."""
    if isinstance(node, Branch):
        return replace(node, entries={key: value for key, value in node.entries.items() if key not in gone})
    if isinstance(node, Twigs):
        return replace(node, items=tuple(item for i, item in enumerate(node.items) if i not in gone))
    return node
