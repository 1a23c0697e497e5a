"""YAML text to a tree of text with line numbers.

No scalar is interpreted: `no`, `3:00` and `010` stay what was written, so nothing can turn silently
into another value. Aliases, tags, duplicate keys, deep nesting and several documents are refused.
"""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass, field
from pathlib import Path

import yaml

from advisor.errors import BadInput, Fault

LARGEST_FILE = 256 * 1024  # bytes; a sheet is some 5 KB, so more is a wrong file
DEEPEST = 20

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


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
    try:
        return _Builder(file).build(text)
    except yaml.YAMLError as fault:
        mark = getattr(fault, "problem_mark", None)
        line = mark.line + 1 if mark else 0
        problem = getattr(fault, "problem", None) or getattr(fault, "reason", None) or "bad YAML"
        raise BadInput([Fault(file, line, f"this is not YAML: {problem}")]) from None


class _Builder:
    def __init__(self, file: str) -> None:
        self.file = file
        self.faults: list[Fault] = []

    def build(self, text: str) -> Node:
        roots: list[Node] = []
        stack: list[tuple[str, int, list[Node]]] = []
        for event in yaml.parse(text, Loader=_Loader):
            line = event.start_mark.line + 1 if event.start_mark else 0
            if isinstance(event, yaml.AliasEvent):
                raise self._refuse(line, f"an alias (*{event.anchor}); write the value out instead")
            if getattr(event, "anchor", None):
                raise self._refuse(line, "an anchor (&); leave it out")
            tag = getattr(event, "tag", None)
            if tag not in (None, "!"):
                raise self._refuse(line, f"a tag ({tag}); write the value alone")
            node: Node
            if isinstance(event, yaml.ScalarEvent):
                node = Leaf(event.value, line)
            elif isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
                if len(stack) >= DEEPEST:
                    raise self._refuse(line, f"nested deeper than {DEEPEST} levels")
                kind = "map" if isinstance(event, yaml.MappingStartEvent) else "list"
                stack.append((kind, line, []))
                continue
            elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
                kind, start, items = stack.pop()
                node = Twigs(tuple(items), start) if kind == "list" else self._branch(items, start)
            else:
                continue
            (stack[-1][2] if stack else roots).append(node)
        if not roots:
            raise self._refuse(0, "it is empty")
        if len(roots) > 1:
            raise self._refuse(roots[1].line, "a second document; expected one")
        if self.faults:
            raise BadInput(self.faults)
        return roots[0]

    def _branch(self, items: list[Node], line: int) -> Branch:
        entries: dict[str, Node] = {}
        key_lines: dict[str, int] = {}
        for key, value in zip(items[::2], items[1::2], strict=True):
            if not isinstance(key, Leaf):
                raise self._refuse(key.line, "a key that is not a word")
            if key.text in entries:
                first = key_lines[key.text]
                self.faults.append(
                    Fault(self.file, key.line, f"{key.text!r} stands twice, first on line {first}")
                )
                continue
            entries[key.text] = value
            key_lines[key.text] = key.line
        return Branch(entries, line, key_lines)

    def _refuse(self, line: int, message: str) -> BadInput:
        return BadInput([*self.faults, Fault(self.file, line, message)])
