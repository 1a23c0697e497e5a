"""A sheet with one value replaced, named by words: `house drain/size`, `small head/diameter`."""

from __future__ import annotations

from copy import deepcopy
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel

from advisor.errors import BadInput, Fault
from advisor.site.history import History
from advisor.site.sheet import Complaint, Task
from advisor.strict_yaml import written
from advisor.strict_yaml.model import nearest

# The keys by which an entry of a list goes by a name.
_NAMED_BY = ("line", "opening", "joined by", "fixture", "label", "landmark", "head", "spring", "rod", "guide")

# Where on a sheet of a site stands what people know by its own name alone: `holding`, `complaint/holding`.
_INSIDE: dict[str, type[BaseModel]] = {"task/complaint": Complaint, "task/history": History, "task": Task}
_NEAR = 0.8  # a name so like is meant; entries of a sheet are less like the names that people give


def whole_path(path: str) -> str:
    """The path from the top of the sheet of what is named as people read it on the screen."""
    first = path.partition("/")[0].strip()
    for within, model in _INSIDE.items():
        if first in {field.alias or name for name, field in model.model_fields.items()}:
            return f"{within}/{path}"
    return path


def replaced(tree: Any, path: str, value: str, file: str) -> str:
    """The sheet as YAML text with the value at `path` replaced; raises BadInput where there is none."""
    root = deepcopy(tree)
    *way, last = [step.strip() for step in path.split("/")]
    node = root
    inside = path.rpartition("/")[0] in _INSIDE  # which may be left out of a sheet
    for step in way:
        node = node.setdefault(step, {}) if inside else _into(node, step, file)
    named = _named(node)
    if isinstance(node, dict) and last not in node:
        for near in get_close_matches(last, list(named), n=1, cutoff=_NEAR):
            raise BadInput([Fault(file, 0, _whole("/".join((*way, near)), near, named[near], path))])
    if not isinstance(node, dict):
        raise BadInput([Fault(file, 0, _whole(path, last, _into(node, last, file), path))])
    node[last] = value
    return written(root)


def _whole(path: str, name: str, item: Any, given: str) -> str:
    """That a path leads to a whole thing of the sheet, with a path to an entry of it as an example."""
    entries = item if isinstance(item, dict) else {}
    what = next((key for key in _NAMED_BY if entries.get(key) == name), "list")
    told = ((key, entry) for key, entry in entries.items() if isinstance(entry, str) and key != what)
    entry, value = next(told, ("size", "3 in"))
    lead = "" if path == given else f"nothing here is called {given!r}; did you mean {path!r}? "
    names = "It" if lead else repr(path)
    return f"{lead}{names} is a whole {what}; say which entry of it, such as `{path}/{entry}={value}`"


def value_at(tree: Any, path: str, file: str) -> str | None:
    """The value at `path` as written, nothing where it is left out; raises BadInput as `replaced` does."""
    *way, last = [step.strip() for step in path.split("/")]
    node = tree
    inside = path.rpartition("/")[0] in _INSIDE
    for step in way:
        node = node.get(step, {}) if inside else _into(node, step, file)
    found = node.get(last) if isinstance(node, dict) else None
    return found if isinstance(found, str) else None


def inserted(tree: Any, line: str, after: int, piece: dict[str, str]) -> str:
    """The sheet as YAML text with one more piece on a line, after the entry of that number."""
    root = deepcopy(tree)
    pieces = _into(root, line, "")["pieces"]
    pieces.insert(after + 1, piece)
    return written(root)


def _into(node: Any, step: str, file: str) -> Any:
    """The entry that a step names: a key, a number in a list, or an entry that goes by that name."""
    if isinstance(node, dict) and step in node:
        return node[step]
    if isinstance(node, list) and step.isdigit() and int(step) < len(node):
        return node[int(step)]
    named = _named(node)
    if step in named:
        return named[step]
    known = [*named, *(node if isinstance(node, dict) else ())]
    raise BadInput([Fault(file, 0, f"nothing here is called {step!r}{nearest(step, known)}")])


def _named(node: Any) -> dict[str, Any]:
    """Every named entry at or below a node, the nearest first: a line wins over where it joins."""
    found: dict[str, Any] = {}
    children = list(node.values()) if isinstance(node, dict) else list(node) if isinstance(node, list) else []
    for child in children:
        if isinstance(child, dict):
            for key in _NAMED_BY:
                if isinstance(child.get(key), str):
                    found.setdefault(child[key], child)
    for child in children:
        for name, entry in _named(child).items():
            found.setdefault(name, entry)
    return found
