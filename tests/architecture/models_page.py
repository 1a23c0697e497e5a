"""docs/models.md: every mechanics function by what its docstring says of range, error and check."""

from __future__ import annotations

import inspect
import pkgutil
import re
from collections.abc import Iterator
from importlib import import_module
from types import ModuleType

from advisor import mechanics

MADE = "Made from the docstrings of `advisor/mechanics` by `python -m tests.architecture.generate_docs`; "
SHOWN = {"Shape": "formula", "Holds when": "holds when", "Errors": "errs by", "Source": "source"}
PART = re.compile(rf"^({'|'.join((*SHOWN, 'Args', 'Returns'))}):\s*(.*?)(?=^\w[\w ]*:|\Z)", re.M | re.S)


def models_page() -> str:
    """The page as text."""
    text = f"# Mechanics, function by function\n\n{MADE}do not edit by hand.\n\nWhat is what: "
    text += "[mechanics](mechanics.md). All in SI. *Not compared*: nothing outside the project checks it.\n"
    for name in sorted(module.name for module in pkgutil.iter_modules(mechanics.__path__)):
        module = import_module(f"{mechanics.__name__}.{name}")
        told = list(_functions(module))
        if told:
            text += f"\n## {name}\n\n{_one_line(inspect.getdoc(module) or '')}\n" + "".join(told)
    return text


def _functions(module: ModuleType) -> Iterator[str]:
    for name, function in vars(module).items():
        if name.startswith("_") or not inspect.isfunction(function) or function.__module__ != module.__name__:
            continue
        doc = inspect.getdoc(function) or ""
        parts = {key: _one_line(body) for key, body in PART.findall(doc)}
        if "Shape" not in parts:
            continue  # a helper of the others, no model of its own
        text = f"\n### {name}\n\n{_one_line(doc.split(chr(10))[0])}\n\n| | |\n|---|---|\n"
        yield text + "".join(f"| {label} | {_cell(parts[key])} |\n" for key, label in SHOWN.items())


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("*", "\\*")
