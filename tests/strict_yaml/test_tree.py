"""YAML without surprises: what YAML 1.1 resolves to other types (its type repository) stays text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, Field

from advisor.errors import BadInput, Fault
from advisor.strict_yaml import sheet_of_text
from advisor.strict_yaml.tree import Branch, tree_of_text


@pytest.mark.parametrize(
    "text",
    ["no", "yes", "on", "3:00", "1:40", "010", "0x1f", "1_000", "2001-01-01", "~", "null", ".inf", "1e3"],
)
def test_a_scalar_stays_what_was_written(text):
    tree = tree_of_text(f"a: {text}\n", "f")
    assert isinstance(tree, Branch)
    assert tree.entries["a"].text == text


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("a: &x 1\nb: *x\n", 1, "an anchor that an alias repeats"),
        ("a: {<<: *x}\n", 1, "not YAML"),
        ("a: 1\nb: !!int 2\n", 2, "a tag"),
        ("a: 1\nb: !python/object:os.system ls\n", 2, "a tag"),
        ("a: 1\nc: 2\na: 3\n", 3, "'a' stands twice, first on line 1"),
        ("a: 1\n---\nb: 2\n", 2, "another document"),
        ("a: 1\n? [x]\n: 2\n", 2, "a key that is not a word"),
        ("a:\n  - 1\n\t- 2\n", 3, "not YAML"),
        ("a: 1\nb: \x1b[31m\n", 2, "a control character"),
        ("a: 1\r\nb: \x00\r\n", 2, "a control character"),
        ("", 0, "it is empty"),
        ("# only a remark\n", 0, "it is empty"),
        ("a: " + "[" * 25 + "]" * 25, 1, "nested deeper than 20"),
        ("[" * 100_000, 1, "nesting"),
        ("- " * 100_000, 1, "nesting"),
    ],
    ids=lambda v: repr(v)[:30],
)
def test_refused(text, line, words):
    with pytest.raises(BadInput) as refused:
        tree_of_text(text, "f")
    (fault,) = refused.value.faults
    assert fault.line == line
    assert words in fault.message


@given(st.text(max_size=80) | st.text(alphabet="ab:-[]{}&*!|>#'\"\n ,?%@\t", max_size=60))
def test_any_text_is_a_tree_or_refused(text):
    try:
        tree_of_text(text, "f")
    except BadInput as refused:
        for fault in refused.faults:
            assert len(str(fault).splitlines()) == 1


class _Inner(BaseModel, extra="forbid"):
    back_wall: str = Field(default="", alias="back wall")


class _Outer(BaseModel, extra="forbid"):
    rooms: tuple[_Inner, ...] = ()
    cellar: _Inner | None = None
    sizes: dict[str, _Inner] = Field(default_factory=dict)


@pytest.mark.parametrize(
    ("text", "line", "near"),
    [
        ("celler: {}\n", 1, "cellar"),
        ("rooms:\n  - {}\n  - bak wall: x\n", 3, "back wall"),
        ("cellar:\n  back wal: x\n", 2, "back wall"),
        ("sizes:\n  one:\n    back walls: x\n", 3, "back wall"),
    ],
)
def test_a_misspelt_entry_is_told_the_nearest(text, line, near):
    with pytest.raises(BadInput) as refused:
        sheet_of_text(text, _Outer, "f")
    (fault,) = refused.value.faults
    assert fault.line == line
    assert f"did you mean {near!r}?" in fault.message


@pytest.mark.parametrize("raw", ["\n", "\x1b[31m", "\u202e", "\u200b", "\x9b", "\U000e0001", "\u2066"])
def test_what_a_terminal_would_obey_is_shown_as_an_escape(raw):
    shown = str(Fault(f"dir{raw}/f", 1, f"got {raw}"))
    assert raw not in shown
    assert shown.isprintable()
