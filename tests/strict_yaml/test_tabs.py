"""A tab that indents is told in its line, and hides nothing else. By hand: each text with its spaces by it.

YAML 1.2, section 6.1: indentation is of spaces; tabs elsewhere are allowed.
"""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.strict_yaml import plain, tree_and_twice, tree_of_text

SPACED = """\
site: here
lines:
  - line: drain
    size: 4 in
    pieces:
      - opening: plug
        kind: floor cleanout
      - pipe: 3 m
      - end: sewer
  - line: side
    size: 2 in
task:
  complaint:
    holding: no
  look at: drain
"""


def tabbed(*numbers: int, tab: str = "\t") -> str:
    """The text with the indents of some lines made a tab."""
    lines = SPACED.splitlines()
    for number in numbers:
        lines[number - 1] = tab + lines[number - 1].lstrip()
    return "\n".join(lines) + "\n"


def levels() -> str:
    """The text with a tab for each step further in, as an editor sets it."""
    lines = SPACED.splitlines()
    return "\n".join("\t" * ((len(x) - len(x.lstrip())) // 2) + x.lstrip() for x in lines) + "\n"


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        (tabbed(4), [4]),
        (tabbed(7), [7]),
        (tabbed(8), [8]),
        (tabbed(9), [9]),
        (tabbed(4, 11), [4, 11]),
        (tabbed(4, 6), [4, 6]),
        (tabbed(7, tab="\t\t"), [7]),
        (tabbed(7, tab="    \t"), [7]),
        (tabbed(1), [1]),
        (tabbed(6), [6]),
        (tabbed(10), [10]),
        (tabbed(13), [13]),
        (tabbed(14), [14]),
        (levels(), [3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 14, 15]),
        (tabbed(8).replace("\n", "\r\n"), [8]),
        (tabbed(8).replace("task:", "\t# a remark\n\t\ntask:"), [8]),
    ],
)
def test_the_line_is_told_and_the_rest_is_read_as_if_it_had_spaces(text, lines):
    with pytest.raises(BadInput) as caught:
        tree_of_text(text, "f")
    assert all("a tab at the beginning of the line" in fault.message for fault in caught.value.faults)
    told = [fault.line for fault in caught.value.faults]
    assert told == lines
    assert plain(tree_and_twice(text, "f")[0]) == plain(tree_of_text(SPACED, "f"))


def test_where_no_guess_can_be_read_the_tabs_alone_are_told():
    with pytest.raises(BadInput) as caught:
        tree_of_text(tabbed(4).replace("look at: drain", "look at: 'drain"), "f")
    assert [fault.line for fault in caught.value.faults] == [4]


def test_what_is_not_yaml_for_another_reason_is_told_as_that():
    with pytest.raises(BadInput) as caught:
        tree_of_text("a: 'one\nb:\t2\n", "f")
    assert "tab" not in str(caught.value)


@pytest.mark.parametrize("text", ["a:\t1\n", "a: [1,\n\t2]\n", "a: 1 \t# remark\n\t# another\n"])
def test_a_tab_that_indents_nothing_is_taken(text):
    assert plain(tree_of_text(text, "f"))


def test_a_long_file_of_tabs_is_told_at_once():
    """One reading more, however many there are."""
    text = "a:\n" + "".join(f"\tb{i}: 1\n" for i in range(20_000))
    with pytest.raises(BadInput) as caught:
        tree_of_text(text, "f")
    assert len(caught.value.faults) == 20_000
