"""YAML text to a tree of text with line numbers.

No scalar is interpreted: `no`, `3:00` and `010` stay what was written, so nothing can turn silently
into another value. Aliases, tags, duplicate keys, deep nesting and several documents are refused.
"""

from __future__ import annotations

import os
import re
import stat
from dataclasses import dataclass, field
from pathlib import Path
from typing import ClassVar

import yaml

from advisor.errors import BadInput, Fault
from advisor.strict_yaml.tabs import indented_by_tab, with_spaces

LARGEST_FILE = 256 * 1024  # bytes; a sheet is some 5 KB, so more is a wrong file
DEEPEST = 20
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff]"
)  # half a sign comes from a command line


class _Loader(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
    """Resolves nothing: every plain scalar is a string, so any other tag was written out."""

    yaml_implicit_resolvers: ClassVar[dict[str, list[object]]] = {}


_PLAIN_TAGS = {f"tag:yaml.org,2002:{kind}" for kind in ("str", "map", "seq")}


@dataclass(frozen=True)
class Leaf:
    """One scalar, as written."""

    text: str
    line: int


@dataclass(frozen=True)
class Twigs:
    """A list."""

    items: tuple[Node, ...]
    line: int


@dataclass(frozen=True)
class Branch:
    """A mapping; `key_lines` says where each key stands."""

    entries: dict[str, Node]
    line: int
    key_lines: dict[str, int] = field(default_factory=dict)


Node = Leaf | Twigs | Branch


def read_text(path: Path) -> str:
    """The text of a sheet, refused with one clear message when it cannot be one."""
    name = str(path)

    def refuse(message: str) -> BadInput:
        return BadInput([Fault(name, 0, message)])

    try:
        # Looked at before opening: opening a pipe would hang.
        if not stat.S_ISREG(os.stat(path).st_mode):
            raise refuse("this is not a file; expected a YAML text file")
        with open(path, "rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise refuse("there is no such file") from None
    except (OSError, ValueError) as fault:
        raise refuse(f"it cannot be read ({fault})") from None
    if len(data) > LARGEST_FILE:
        raise refuse(f"it is larger than {LARGEST_FILE // 1024} KB; expected a sheet of a few KB")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data[: fault.start].count(b"\n") + 1
        raise BadInput([Fault(name, line, "this is not text; expected UTF-8")]) from None


def tree_of_text(text: str, file: str) -> Node:
    """The tree of one YAML document; raises BadInput with the line of the fault."""
    tree, twice = tree_and_twice(text, file)
    if twice:
        raise BadInput(twice)
    return tree


def tree_and_twice(text: str, file: str) -> tuple[Node, list[Fault]]:
    """The same with the first of each entry that stands twice, and a fault for each that does.

    A tab that indents is told too, and taken for spaces. What cannot be read then may be of that guess: of
    such a text the tabs alone are told.
    """
    control = _CONTROL.search(text)
    if control:
        line = text.count("\n", 0, control.start()) + 1
        raise BadInput([Fault(file, line, f"a control character ({control[0]}); expected plain text")])
    tabs: list[Fault] = []
    try:
        try:
            return _built(text, file, tabs)
        except yaml.YAMLError as fault:
            if not indented_by_tab(text, _line_of(fault)):
                raise
            text, lines = with_spaces(text)
            message = "this is not YAML: a tab at the beginning of the line; expected spaces"
            tabs = [Fault(file, line, message) for line in lines]
            return _built(text, file, tabs)
    except yaml.YAMLError as fault:
        problem = getattr(fault, "problem", None) or getattr(fault, "reason", None) or "bad YAML"
        raise BadInput(tabs or [Fault(file, _line_of(fault), f"this is not YAML: {problem}")]) from None
    except RecursionError:  # the reader that is used where YAML's C library is missing
        raise BadInput([Fault(file, 0, f"nested deeper than {DEEPEST} levels")]) from None


def _line_of(fault: yaml.YAMLError) -> int:
    mark = getattr(fault, "problem_mark", None)
    return mark.line + 1 if mark else 0


def _built(text: str, file: str, told: list[Fault]) -> tuple[Node, list[Fault]]:
    """The tree, and what is wrong with it besides what was told before."""
    builder = _Builder(file, told)
    return builder.build(text), builder.faults


class _Builder:
    def __init__(self, file: str, told: list[Fault]) -> None:
        self.file = file
        self.faults = [*told]
        self.met: set[int] = set()

    def build(self, text: str) -> Node:
        root = yaml.compose(text, Loader=_Loader)
        if root is None:
            raise self._refuse(0, "it is empty")
        return self._node(root, 0)

    def _node(self, node: yaml.Node, depth: int) -> Node:
        line = node.start_mark.line + 1
        if node.tag not in _PLAIN_TAGS:
            raise self._refuse(line, f"a tag ({node.tag}); write the value alone")
        # An alias gives the same node a second time.
        if id(node) in self.met:
            raise self._refuse(line, "an anchor that an alias repeats; write the value out instead")
        self.met.add(id(node))
        if isinstance(node, yaml.ScalarNode):
            return Leaf(node.value, line)
        if depth >= DEEPEST:
            raise self._refuse(line, f"nested deeper than {DEEPEST} levels")
        if isinstance(node, yaml.SequenceNode):
            return Twigs(tuple(self._node(item, depth + 1) for item in node.value), line)
        return self._branch(node, line, depth)

    def _branch(self, node: yaml.Node, line: int, depth: int) -> Branch:
        entries: dict[str, Node] = {}
        key_lines: dict[str, int] = {}
        for key_node, value in node.value:
            key = self._node(key_node, depth + 1)
            if not isinstance(key, Leaf):
                raise self._refuse(key.line, "a key that is not a word")
            if key.text in entries:
                first = key_lines[key.text]
                self.faults.append(
                    Fault(self.file, key.line, f"{key.text!r} stands twice, first on line {first}")
                )
                continue
            entries[key.text] = self._node(value, depth + 1)
            key_lines[key.text] = key.line
        return Branch(entries, line, key_lines)

    def _refuse(self, line: int, message: str) -> BadInput:
        return BadInput([*self.faults, Fault(self.file, line, message)])
