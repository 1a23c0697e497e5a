"""Words for the reader carry no measure of their own: it would be feet to one who reads metres.

A measure stands in a table and is put into the words at the edge, as `{limits.run_up}` in a rule. "The
further it goes" needs none.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest
import yaml

from tests.architecture.made_page import ROOT
from tests.architecture.test_shape import SOURCES

# The units of both readers' tapes and scales, told in words or with a number before them.
_UNIT = r"(?:foot|feet|inch|inches|yards?|metres?|meters?|millimetres?|centimetres?|pounds?|gallons?|litres?)"
IN_WORDS = re.compile(
    rf"\b(?:an?|one|two|three|each|every|few|last|per) {_UNIT}\b(?! of the| cleanout| chamber| drain)",
    re.IGNORECASE,
)
IN_FIGURES = re.compile(r"(?<![\w{.-])\d+(?:[./-]\d+)* ?(?:in|ft|mm|cm|m|lb|N)\b(?! (?:a|the) )")
FOLDERS = ("difficulty", "technique", "caution", "entry", "signs", "report", "card", "words")
BESIDE = ("examples", "note", "source")  # nobody at the drain reads them
FILES = sorted(path for folder in FOLDERS for path in (ROOT / "rules" / folder).glob("*.yaml"))


def texts(node: object) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict):
        for key, each in node.items():
            if key not in BESIDE:
                yield from texts(each)
    elif isinstance(node, list):
        for each in node:
            yield from texts(each)


@pytest.mark.parametrize("path", FILES, ids=lambda p: f"{p.parent.name}/{p.stem}")
def test_rules_write_no_measure_into_their_words(path):
    told = texts(yaml.safe_load(path.read_text()))
    assert not [text for text in told if IN_WORDS.search(text) or IN_FIGURES.search(text)]


def test_nor_does_the_program():
    """In figures it gives examples of what may be typed, in either unit."""
    found = []
    for path in SOURCES:
        tree = ast.parse(path.read_text())
        documented = (ast.Module, ast.FunctionDef, ast.ClassDef)
        told = {
            ast.get_docstring(each, clean=False) for each in ast.walk(tree) if isinstance(each, documented)
        }
        words = (each.value for each in ast.walk(tree) if isinstance(each, ast.Constant))
        found += [
            f"{path.relative_to(ROOT)}: {text}"
            for text in words
            if isinstance(text, str) and text not in told and IN_WORDS.search(text)
        ]
    assert not found
