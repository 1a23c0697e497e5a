"""A YAML tree checked against a pydantic model, every fault told with its line and the nearest name."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from advisor.errors import BadInput, Fault, Slip
from advisor.strict_yaml.names import entry_names
from advisor.strict_yaml.places import belongs
from advisor.strict_yaml.tree import Branch, Leaf, Node, Twigs, read_text, tree_of_text

M = TypeVar("M", bound=BaseModel)
_CHOICES = ("literal_error", "enum")  # where one of a few words must stand


@dataclass(frozen=True)
class Sheet(Generic[M]):
    """A checked model together with the tree it came from, so that later checks can name lines."""

    model: M
    tree: Node
    file: str

    def line(self, *path: str | int) -> int:
        """The line on which the entry at `path` stands, or its nearest existing parent."""
        return _find(self.tree, path)[1]

    def fault(self, message: str, *path: str | int, mends: bool = True) -> Fault:
        """A fault at the entry at `path`; `mends` where `unknown` in its place leaves the rest as it is."""
        _, line, taken = _find(self.tree, path)
        return Fault(self.file, line, message, Slip(taken, mends=mends))


def read_sheet(path: Path, model: type[M]) -> Sheet[M]:
    """Read and check a file; raises BadInput with every fault at once."""
    return sheet_of_text(read_text(path), model, str(path))


def sheet_of_text(text: str, model: type[M], file: str) -> Sheet[M]:
    """Check YAML text against a model; raises BadInput with every fault at once."""
    return sheet_of_tree(tree_of_text(text, file), model, file)


def sheet_of_tree(tree: Node, model: type[M], file: str, context: object = None) -> Sheet[M]:
    """Check a tree against a model, whose validators get the `context`; raises BadInput with every fault."""
    if not isinstance(tree, Branch):
        raise BadInput([Fault(file, tree.line, "expected `name: value` lines at the top")])
    try:
        return Sheet(model.model_validate(plain(tree), context=context), tree, file)
    except ValidationError as fault:
        raise BadInput(_faults(fault, tree, file, model)) from None


def nearest(name: str, known: list[str]) -> str:
    """`; did you mean 'x'?` or a list of what is known, for the end of a message."""
    close = _closest(name, known)
    if close is not None:
        return f"; did you mean {close!r}?"
    shown = ", ".join(sorted(known)[:12])
    return f"; known: {shown}{', ...' if len(known) > 12 else ''}" if known else "; none is on the sheet"


def _closest(name: str, known: list[str]) -> str | None:
    close = get_close_matches(name.lower(), [k.lower() for k in known], n=1, cutoff=0.6)
    return next(k for k in known if k.lower() == close[0]) if close else None


def plain(node: Node) -> Any:
    """The tree as dictionaries, lists and text."""
    if isinstance(node, Leaf):
        return node.text
    if isinstance(node, Twigs):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, value in node.entries.items()}


def grown(value: Any) -> Node:
    """The tree of dictionaries, lists and text, which stood in no file: the other way round from `plain`."""
    if isinstance(value, dict):
        entries = {key: grown(each) for key, each in value.items()}
        return Branch(entries, 0, dict.fromkeys(entries, 0))
    if isinstance(value, list):
        return Twigs(tuple(grown(each) for each in value), 0)
    assert isinstance(value, str), "all that is read is text"
    return Leaf(value, 0)


def _find(tree: Node, path: tuple[str | int, ...]) -> tuple[Node, int, tuple[str | int, ...]]:
    """Walk as far as the path leads: the node there, its line, and the steps that were taken.

    Pydantic puts names of union members in a path: those are skipped.
    """
    node, line, taken = tree, tree.line, list[str | int]()
    for index, step in enumerate(path):
        if isinstance(node, Branch) and step in node.entries:
            # `- joined by: x` is both the tag of a piece and one of its entries: the tag leads nowhere.
            if isinstance(node.entries[str(step)], Leaf) and index + 1 < len(path):
                continue
            line = node.key_lines[str(step)]
            node = node.entries[str(step)]
            # A list item has no key: point at where its own first line is.
        elif isinstance(node, Twigs) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
            line = node.line
        else:
            continue
        taken.append(step)
    return node, line, tuple(taken)


def _faults(error: ValidationError, tree: Node, file: str, model: type[BaseModel]) -> list[Fault]:
    faults = []
    # `regoin` for `region` is one slip: what is missing was meant.
    meant = set()
    for item in error.errors():
        if item["type"] == "extra_forbidden":
            close = _closest(str(item["loc"][-1]), entry_names(model, item["loc"]))
            meant.add((*item["loc"][:-1], close))
    for item in error.errors():
        path = tuple(item["loc"])
        if item["type"] == "missing" and path in meant:
            continue
        node, line, taken = _find(tree, path)
        faults.append(Fault(file, line, _message(item, path, node, model), _slip(item, taken, model)))
    return faults


def _slip(item: Any, taken: tuple[str | int, ...], model: type[BaseModel]) -> Slip:
    """What was meant there, as far as that is clear."""
    kind, context = item["type"], item.get("ctx", {})
    if kind == "missing":
        return Slip((*taken, item["loc"][-1]))
    if kind == "extra_forbidden":
        return Slip(taken, None, _closest(str(taken[-1]), entry_names(model, item["loc"])))
    if kind == "union_tag_invalid":
        tag = str(context["tag"])
        return Slip((*taken, tag), entry=_closest(tag, _expected(context, "expected_tags")))
    if kind in _CHOICES:
        meant = _closest(str(item["input"]), _expected(context, "expected"))
        if item["loc"][-1] == "[key]":
            return Slip(taken, entry=meant)
        return Slip(taken, meant or "unknown")
    return Slip(taken)


def _expected(context: Any, key: str) -> list[str]:
    """The names that pydantic expected: `'a', 'b' or 'c'`."""
    return [name.strip(" '") for name in re.split(r"', '|' or '", str(context[key]))]


def _message(item: Any, path: tuple[Any, ...], node: Node, model: type[BaseModel]) -> str:
    kind, last = item["type"], str(path[-1]) if path else "this"
    context = item.get("ctx", {})
    if kind == "value_error":
        text = str(context.get("error", item["msg"]))
        key = next((step for step in reversed(path) if isinstance(step, str)), "this")
        return text if text.startswith(f"{key}:") else f"{key}: {text}"
    if kind == "extra_forbidden":
        known = entry_names(model, path)
        place = belongs(model, last)
        if place and _closest(last, known) is None:
            return f"unknown entry {last!r} here; it belongs {place}"
        return f"unknown entry {last!r}{_or_elsewhere(nearest(last, known) if known else '', place)}"
    if kind == "union_tag_invalid":
        known = _expected(context, "expected_tags")
        tag = str(context["tag"])
        return f"unknown entry {tag!r}{_or_elsewhere(nearest(tag, known), belongs(model, tag))}"
    if kind == "union_tag_not_found":
        return "expected `name: value` entries"
    if kind == "missing":
        return f"{last!r} is missing"
    if kind in _CHOICES:
        known = _expected(context, "expected")
        return f"{last}: got {item['input']!r}{nearest(str(item['input']), known)}"
    wanted = {
        "string_type": "a word or a sentence",
        "list_type": "a list",
        "tuple_type": "a list",
        "dict_type": "`name: value` entries",
        "model_type": "`name: value` entries",
        "model_attributes_type": "`name: value` entries",
    }.get(kind)
    got = node.text if isinstance(node, Leaf) else "entries" if isinstance(node, Branch) else "a list"
    if wanted:
        return f"{last}: got {got!r}; expected {wanted}"
    return f"{last}: {item['msg']}"


def _or_elsewhere(hint: str, place: str) -> str:
    """What may be meant here, and where an entry of just that name belongs."""
    return (
        f"{hint}{' ' if hint.endswith('?') else '. '}As it is written it belongs {place}" if place else hint
    )
