"""A file is read on behind its faults, and what only follows from putting one right is not told."""

from __future__ import annotations

from typing import Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field

from advisor.errors import BadInput
from advisor.strict_yaml import Node, Sheet, read_on, sheet_of_tree


class _Row(BaseModel):
    model_config = ConfigDict(extra="forbid")
    name: str
    side: Literal["left", "right"] | None = None
    goes_to: str | None = Field(default=None, alias="goes to")


class _Sheet(BaseModel):
    model_config = ConfigDict(extra="forbid")
    title: str
    rows: list[_Row]
    seen: list[str] = []


def read(tree: Node) -> Sheet[_Sheet]:
    """A reader of three stages: the shape, then names, then where it begins."""
    sheet = sheet_of_tree(tree, _Sheet, "f")
    names = [row.name for row in sheet.model.rows]
    faults = [
        sheet.fault(f"nothing is called {row.goes_to!r}", "rows", i, "goes to")
        for i, row in enumerate(sheet.model.rows)
        if row.goes_to not in (None, *names)
    ]
    faults += [
        sheet.fault(f"nothing is called {name!r}", "seen", i)
        for i, name in enumerate(sheet.model.seen)
        if name not in names
    ]
    if faults:
        raise BadInput(faults)
    if sheet.model.title == "nowhere":
        raise BadInput([sheet.fault("it begins nowhere", "title")])
    return sheet


GOOD = """\
title: here
rows:
  - {name: a, side: left}
  - {name: b, goes to: a}
seen: [a, b]
"""


def faults(*changes: str) -> list[tuple[int, str]]:
    text = GOOD
    for old, new in zip(changes[::2], changes[1::2], strict=True):
        assert text.count(old) == 1
        text = text.replace(old, new)
    with pytest.raises(BadInput) as caught:
        read_on(text, "f", read)
    return [(fault.line, fault.message) for fault in caught.value.faults]


def test_a_good_sheet_is_read_as_it_stands():
    assert read_on(GOOD, "f", read) == read_on(GOOD, "f", lambda tree: sheet_of_tree(tree, _Sheet, "f"))


def test_faults_of_all_stages_are_told_at_once_each_in_its_line():
    found = faults("title: here", "title: nowhere", "side: left", "side: lefft", "goes to: a", "goes to: x")
    assert found == [
        (1, "it begins nowhere"),
        (3, "side: got 'lefft'; did you mean 'left'?"),
        (4, "nothing is called 'x'"),
    ]


def test_behind_a_misspelt_entry_its_value_is_read_too():
    found = faults("name: b, goes to: a", "name: b, gos to: x")
    assert found == [(4, "nothing is called 'x'"), (4, "unknown entry 'gos to'; did you mean 'goes to'?")]


def test_an_entry_nobody_knows_and_one_that_stands_twice_hide_nothing():
    found = faults("title: here", "title: nowhere\nzzz: [1]", "side: left", "side: left, side: right")
    assert [line for line, _ in found] == [1, 2, 4]
    assert "stands twice" in found[2][1]


def test_what_was_put_right_makes_no_faults_of_its_own():
    """A name that is missing is not called unknown; of a list with two wrong ones the third is read."""
    assert faults("name: a, side: left", "side: left", "goes to: a", "goes to: b", "[a, b]", "[b]") == [
        (3, "'name' is missing")
    ]
    found = faults("title: here", "title: nowhere", "seen: [a, b]", "seen: [x, a, y]")
    assert found == [(1, "it begins nowhere"), (5, "nothing is called 'x'"), (5, "nothing is called 'y'")]
