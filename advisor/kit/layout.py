"""Rows of a kit sheet's lists in its text: put in or taken out, every other line as it was to the letter."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from advisor.errors import BadInput, Fault
from advisor.kit.new import Row
from advisor.strict_yaml import Branch, Leaf, Node, Twigs, scalar, tree_of_text


@dataclass(frozen=True)
class Change:
    """The text of a sheet after a change, and the lines that are new in it or gone from it."""

    text: str
    lines: tuple[str, ...] = ()


def own_way(file: str, line: int, kind: str) -> BadInput:
    """For what is laid out so that nothing can be put in or taken out without guessing."""
    message = (
        f"it is laid out in a way of its own; give each row a line of its own, as in `  - {kind}: NAME`, "
        "and do it again, or change it by hand"
    )
    return BadInput([Fault(file, line, message)])


def lines_of(text: str, file: str) -> tuple[list[str], str]:
    """The lines, each without its `\\n`, and what stands before that in this file: `\\r` or nothing.

    Raises BadInput where a line ends in `\\r` alone: our lines and those of YAML would not be the same.
    """
    alone = re.search(r"\r(?!\n)", text)
    if alone:
        line = len(re.findall(r"\r\n|\r|\n", text[: alone.start()])) + 1
        message = (
            "its line ends in a way of old (CR alone); save the sheet with usual line ends, then do it again"
        )
        raise BadInput([Fault(file, line, message)])
    return text.split("\n"), "\r" if "\r\n" in text else ""


def bare(line: str) -> tuple[str, str]:
    """A line and its own `\\r`, if any."""
    text = line.removesuffix("\r")
    return text, line[len(text) :]


def flow(entries: Mapping[str, str]) -> str:
    """Entries between braces on one line."""
    return f"{{{', '.join(f'{key}: {scalar(value)}' for key, value in entries.items())}}}"


def appended(so_far: Change, key: str, rows: Sequence[Row], file: str) -> Change:
    """Rows after the last one of a list, or a list of them where there is none yet; raises BadInput."""
    tree, (lines, cr) = _tree(so_far.text, file), lines_of(so_far.text, file)
    if lines[-1]:
        lines = [*lines[:-1], bare(lines[-1])[0] + cr, ""]
    dash, new, gone, indent = "  - ", [f"{key}:"], 0, 0
    at = tree.key_lines["loadouts"] - 1 if "loadouts" in tree.key_lines else _body_end(lines)
    if key in tree.entries:
        starts = tree.key_lines[key] - 1
        braced = _braced(tree, key, lines)
        if braced is not None:
            items, remark = braced
            at, gone = starts, 1
            new = [f"{key}: [{', '.join((*items, *(flow(row.entries) for row in rows)))}]{remark}"]
            if not items:
                new = [f"{key}:{remark}"]
            rows = () if items else rows
        else:
            first, at = _span(tree, key, lines, file)
            dash, new = _dash(first, lines, file, key), []
            indent = dash.index("-")
    at = at if gone else _above_remarks(lines, at, indent)
    new += [line for row in rows for line in row.text(dash).splitlines()]
    text = "\n".join([*lines[:at], *(line + cr for line in new), *lines[at + gone :]])
    return Change(text, (*so_far.lines, *new))


def dropped(so_far: Change, key: str, which: Sequence[int], file: str) -> Change:
    """A list without some of its rows, each with the remark just above it; raises BadInput.

    A remark that an empty line sets apart stays, and one that stands above what follows.
    """
    if not which:
        return so_far
    tree, (lines, _) = _tree(so_far.text, file), lines_of(so_far.text, file)
    rows = tree.entries[key]
    assert isinstance(rows, Twigs)
    starts, gone = tree.key_lines[key] - 1, set[int]()
    every = len(which) == len(rows.items)
    if every:
        gone = set(range(_with_remark(lines, starts, 0) if starts else starts, starts + 1))
    braced = _braced(tree, key, lines)
    if braced is not None and not every:
        items, remark = braced
        kept = [item for i, item in enumerate(items) if i not in which]
        was, cr = bare(lines[starts])
        lines[starts] = f"{key}: [{', '.join(kept)}]{remark}{cr}"
        return Change("\n".join(lines), (*so_far.lines, was))
    if braced is None:
        _, end = _span(tree, key, lines, file)
        begin = [row.line - 1 for row in rows.items] + [end]
        for i in which:
            indent = _dash(begin[i], lines, file, key).index("-")
            if begin[i] == begin[i + 1]:
                raise own_way(file, begin[i] + 1, key[:-1])
            after = _above_remarks(lines, begin[i + 1], indent)
            gone |= set(range(_with_remark(lines, begin[i], indent), after))
    text = "\n".join(line for i, line in enumerate(lines) if i not in gone)
    return Change(text, (*so_far.lines, *(bare(lines[i])[0] for i in sorted(gone))))


def _tree(text: str, file: str) -> Branch:
    tree = tree_of_text(text, file)
    assert isinstance(tree, Branch)
    return tree


def _braced(tree: Branch, key: str, lines: Sequence[str]) -> tuple[list[str], str] | None:
    """The rows of a list that stands whole on the line of its name, and the remark behind it."""
    rows, at = tree.entries[key], tree.key_lines[key] - 1
    found = re.fullmatch(rf"{key}:\s*\[.*?\](\s*|\s+#.*)", bare(lines[at])[0])
    if found is None or not isinstance(rows, Twigs):
        return None
    items = []
    for row in rows.items:
        told = _values(row)
        if told is None:
            return None
        items.append(flow(told))
    return items, found[1].rstrip()


def _values(row: Node) -> dict[str, str] | None:
    if not isinstance(row, Branch):
        return None
    told = {key: value.text for key, value in row.entries.items() if isinstance(value, Leaf)}
    return told if len(told) == len(row.entries) else None


def _span(tree: Branch, key: str, lines: Sequence[str], file: str) -> tuple[int, int]:
    """The first line of a list's rows, and the line before which it ends."""
    rows: Node = tree.entries[key]
    starts = tree.key_lines[key] - 1
    bracket = "[" in lines[starts].partition("#")[0]
    if not isinstance(rows, Twigs) or not rows.items or bracket:
        raise own_way(file, starts + 1, key[:-1])
    after = [line - 1 for line in tree.key_lines.values() if line - 1 > starts]
    return rows.items[0].line - 1, min(after, default=_body_end(lines))


def _body_end(lines: Sequence[str]) -> int:
    """The line before which a sheet ends: that of `...`, which closes a YAML document, if there is one."""
    end = len(lines)
    for i in range(len(lines) - 1, -1, -1):
        if re.match(r"\.\.\.(\s|$)", lines[i]):
            end = i
        elif not re.fullmatch(r"\s*(#.*)?", bare(lines[i])[0]):
            break
    return end


def _dash(first: int, lines: Sequence[str], file: str, key: str) -> str:
    found = re.match(r"\s*-\s+(?=\S)", lines[first])
    if found is None:
        raise own_way(file, first + 1, key[:-1])
    return found[0]


def _above_remarks(lines: Sequence[str], end: int, indent: int) -> int:
    """The end without empty lines, and remarks indented no further than so, just above it."""
    while end > 0 and re.fullmatch(rf"\s*|\s{{0,{indent}}}#.*", bare(lines[end - 1])[0]):
        end -= 1
    return end


def _with_remark(lines: Sequence[str], start: int, indent: int) -> int:
    """The start with the remark that stands just above it, as far in."""
    begin = start
    while begin > 0 and re.fullmatch(rf"\s{{{indent}}}#.*", bare(lines[begin - 1])[0]):
        begin -= 1
    # What a sheet begins with is about the whole of it.
    return begin if begin > 0 else start
