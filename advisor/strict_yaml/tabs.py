"""Tabs that indent, which no YAML reader takes, put right as far as can be, so that the rest is read too."""

from __future__ import annotations

import re

_LINE = re.compile(r"([ \t]*)((?:-[ \t]+)*)(.*)", re.DOTALL)
_OPENS = re.compile(r":\s*(#.*)?")  # as a line ends behind which something further in follows
_STEP = 2  # as far as an entry is put further in than the one that it belongs to


def indented_by_tab(text: str, line: int) -> bool:
    """Whether that line, counted from 1, begins with blanks among which is a tab."""
    lines = text.split("\n")
    return 0 < line <= len(lines) and "\t" in _parts(lines[line - 1])[0]


def with_spaces(text: str) -> tuple[str, tuple[int, ...]]:
    """The text with each such indent made of spaces, and the lines where that was done.

    How wide a tab was meant nobody can know. So a line stands in what the line before it opens; else among
    lines with tabs as far in as the last with the same blanks; else an item stands under the last item that
    begins with the same entry, or under the last, and anything else under the first word of the line before.
    """
    lines, done = [], []
    known: dict[str, int] = {}
    items: dict[str, int] = {}  # by their first entry
    item, content = None, 0  # where the last dash and the first word before it stand
    opens = tabs = False  # of the line before it
    for number, line in enumerate(text.split("\n"), start=1):
        before, dashes, rest = _parts(line)
        if not (dashes + rest).strip() or rest.startswith("#"):
            lines.append(dashes + rest)
            continue
        into, entry = len(before), rest.partition(":")[0]
        if "\t" in before:
            beside = items.get(entry, item) if dashes and item is not None else content
            into = content + _STEP if opens else known.get(before, beside) if tabs else beside
            known[before] = into
            done.append(number)
        lines.append(" " * into + dashes + rest)
        if dashes or (item is not None and into <= item):
            item = into if dashes else None
        if dashes:
            items[entry] = into
        content, opens = into + len(dashes), _OPENS.fullmatch(rest, max(rest.rfind(":"), 0)) is not None
        tabs = "\t" in before
    return "\n".join(lines), tuple(done)


def _parts(line: str) -> tuple[str, str, str]:
    """The blanks that a line begins with, the dashes of its items, and the rest."""
    found = _LINE.fullmatch(line)
    assert found is not None  # it takes anything
    return found[1], found[2], found[3]
