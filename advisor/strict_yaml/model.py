"""A YAML tree checked against a pydantic model, every fault told with its line and the nearest name."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError

from advisor.errors import BadInput, Fault
from advisor.strict_yaml.names import entry_names
from advisor.strict_yaml.tree import Branch, Leaf, Node, Twigs, read_text, tree_of_text

M = TypeVar("M", bound=BaseModel)


@dataclass(frozen=True)
class Sheet(Generic[M]):
    """A checked model together with the tree it came from, so that later checks can name lines."""

    model: M
    tree: Node
    file: str

    def line(self, *path: str | int) -> int:
        """The line on which the entry at `path` stands, or its nearest existing parent."""
        return _find(self.tree, path)[1]

    def fault(self, message: str, *path: str | int) -> Fault:
        """A fault at the entry at `path`."""
        return Fault(self.file, self.line(*path), message)


def read_sheet(path: Path, model: type[M]) -> Sheet[M]:
    """Read and check a file; raises BadInput with every fault at once."""
    return sheet_of_text(read_text(path), model, str(path))


def sheet_of_text(text: str, model: type[M], file: str) -> Sheet[M]:
    """Check YAML text against a model; raises BadInput with every fault at once."""
    tree = tree_of_text(text, file)
    if not isinstance(tree, Branch):
        raise BadInput([Fault(file, tree.line, "expected `name: value` lines at the top")])
    try:
        return Sheet(model.model_validate(plain(tree)), tree, file)
    except ValidationError as fault:
        raise BadInput(_faults(fault, tree, file, model)) from None


def sheet_despite(text: str, model: type[M], file: str) -> Sheet[M] | None:
    """The sheet with each wrong value taken for unknown, so that the rest of it can be checked too.

    Nothing where more than values is wrong: a misspelt entry would make faults of its own elsewhere.
    """
    try:
        tree = tree_of_text(text, file)
    except BadInput:
        return None
    known = plain(tree)
    for unknown in (_put_unknown, _leave_out):
        try:
            return Sheet(model.model_validate(known), tree, file)
        except ValidationError as error:
            wrong = error.errors()
            if any(item["type"] not in ("value_error", "literal_error") for item in wrong):
                return None
            for item in wrong:
                unknown(known, item["loc"])
    try:
        return Sheet(model.model_validate(known), tree, file)
    except ValidationError:
        return None


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


def _find(tree: Node, path: tuple[str | int, ...]) -> tuple[Node, int]:
    """Walk as far as the path leads. Pydantic puts names of union members in it: those are skipped."""
    node, line = tree, tree.line
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
    return node, line


def _put_unknown(known: Any, path: tuple[str | int, ...]) -> None:
    holder, key = _holder(known, path)
    holder[key] = "unknown"


def _leave_out(known: Any, path: tuple[str | int, ...]) -> None:
    holder, key = _holder(known, path)
    if isinstance(holder, dict):
        holder.pop(key, None)


def _holder(known: Any, path: tuple[str | int, ...]) -> tuple[Any, Any]:
    """The dictionary or list that holds the last step of the path, tags stepped over as in `_find`."""
    holder, key, node = known, path[-1], known
    for index, step in enumerate(path):
        inside = step in node if isinstance(node, dict) else isinstance(node, list) and isinstance(step, int)
        if not inside or (isinstance(node[step], str) and index + 1 < len(path)):
            continue
        holder, key, node = node, step, node[step]
    return holder, key


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
        node, line = _find(tree, path)
        faults.append(Fault(file, line, _message(item, path, node, model)))
    return faults


def _message(item: Any, path: tuple[Any, ...], node: Node, model: type[BaseModel]) -> str:
    kind, last = item["type"], str(path[-1]) if path else "this"
    context = item.get("ctx", {})
    if kind == "value_error":
        text = str(context.get("error", item["msg"]))
        key = next((step for step in reversed(path) if isinstance(step, str)), "this")
        return text if text.startswith(f"{key}:") else f"{key}: {text}"
    if kind == "extra_forbidden":
        known = entry_names(model, path)
        return f"unknown entry {last!r}{nearest(last, known) if known else ''}"
    if kind == "union_tag_invalid":
        known = [name.strip(" '") for name in str(context["expected_tags"]).split("', '")]
        return f"unknown entry {context['tag']!r}{nearest(str(context['tag']), known)}"
    if kind == "union_tag_not_found":
        return "expected `name: value` entries"
    if kind == "missing":
        return f"{last!r} is missing"
    if kind in ("literal_error", "enum"):
        known = [name.strip(" '") for name in str(context["expected"]).replace(" or ", ", ").split(",")]
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
