"""What cannot be true on a site sheet: pieces out of order, lines that do not meet, unclear complaints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING

from advisor.errors import Fault
from advisor.site.pieces import CappedEntry, EndEntry, FixtureEntry, JunctionEntry, OpeningEntry, TiedEntry
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest

if TYPE_CHECKING:
    from advisor.site.sheet import LineSheet, SiteSheet


def order_faults(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    """A closed or tied end stands first in its line, the end of the line last."""
    for i, line in enumerate(sheet.model.lines):
        last = len(line.pieces) - 1
        for j, piece in enumerate(line.pieces):
            if isinstance(piece, CappedEntry | TiedEntry) and j > 0:
                key = "capped" if isinstance(piece, CappedEntry) else "tied to"
                message = f"{key}: it stands below other pieces; expected it first in its line"
                yield _of_the_whole(sheet, message, "lines", i, "pieces", j)
            if isinstance(piece, EndEntry) and j < last:
                message = "end: other pieces follow it; expected it last in its line"
                yield _of_the_whole(sheet, message, "lines", i, "pieces", j)


def join_faults(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    """Every line runs into one other line or ends; names of lines are met once."""
    site = sheet.model
    names = [line.line for line in site.lines]
    used: Counter[str] = Counter()
    told: set[str] = set()  # lines of which something is said already
    for i, line in enumerate(site.lines):
        if names.index(line.line) != i:
            yield _of_the_whole(sheet, f"a second line is called {line.line!r}", "lines", i, "line")
        if not line.pieces:
            yield _of_the_whole(sheet, f"line {line.line!r} has no pieces", "lines", i, "pieces")
        for j, piece in enumerate(line.pieces):
            if not isinstance(piece, JunctionEntry):
                continue
            here = ("lines", i, "pieces", j)
            if piece.drawn is False:
                if piece.joined_by in names:
                    told.add(piece.joined_by)
                    message = f"drawn: line {piece.joined_by!r} is on this sheet; expected no `drawn: no`"
                    yield _of_the_whole(sheet, message, *here, "drawn")
            elif piece.joined_by == line.line:
                yield _of_the_whole(sheet, f"line {line.line!r} joins itself", *here, "joined by")
            elif piece.joined_by not in names:
                yield _of_the_whole(
                    sheet,
                    f"no line is called {piece.joined_by!r}{nearest(piece.joined_by, names)}"
                    " (for a line that is not on the plan add `drawn: no`)",
                    *here,
                    "joined by",
                )
            else:
                used[piece.joined_by] += 1
    for i, line in enumerate(site.lines):
        tie = _tie_fault(sheet, i, line, names)
        if tie:
            yield tie
        elif line.line not in told:
            yield from _count_faults(sheet, i, line, used[line.line])


def _tie_fault(sheet: Sheet[SiteSheet], i: int, line: LineSheet, names: list[str]) -> Fault | None:
    tie = _tie(line)
    if tie is None:
        return None
    here = ("lines", i, "pieces", 0, "tied to")
    if tie.tied_to not in names:
        return _of_the_whole(sheet, f"no line is called {tie.tied_to!r}{nearest(tie.tied_to, names)}", *here)
    other = sheet.model.lines[names.index(tie.tied_to)]
    if other is line:
        return _of_the_whole(sheet, f"line {line.line!r} is tied to itself", *here)
    if not any(isinstance(piece, JunctionEntry) and piece.joined_by == line.line for piece in other.pieces):
        message = f"line {other.line!r} has no place for it; expected `joined by: {line.line}` in it"
        return _of_the_whole(sheet, message, *here)
    return None


def _tie(line: LineSheet) -> TiedEntry | None:
    first = line.pieces[0] if line.pieces else None
    return first if isinstance(first, TiedEntry) else None


def _count_faults(sheet: Sheet[SiteSheet], i: int, line: LineSheet, used: int) -> Iterator[Fault]:
    ends = any(isinstance(piece, EndEntry) for piece in line.pieces)
    wanted = (0 if ends else 1) + (_tie(line) is not None)
    if used < wanted:
        yield _of_the_whole(
            sheet,
            f"line {line.line!r} joins no other line and has no end; "
            f"expected `joined by: {line.line}` in the line it runs into, or a last piece "
            "`end: public sewer`",
            *("lines", i, "line"),
        )
    elif used > wanted and ends:
        message = f"line {line.line!r} has an `end` and is joined by another line; expected one of the two"
        yield _of_the_whole(sheet, message, "lines", i, "line")
    elif used > wanted:
        yield _of_the_whole(
            sheet,
            f"line {line.line!r} is joined {used} times; expected {'twice' if wanted == 2 else 'once'}",
            *("lines", i, "line"),
        )


def complaint_faults(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    """Whoever complains must be on the sheet once, and not both run fine and be in trouble."""
    complaint = sheet.model.task.complaint
    names = Counter(
        (piece.label or piece.fixture) if isinstance(piece, FixtureEntry) else piece.opening
        for line in sheet.model.lines
        for piece in line.pieces
        if isinstance(piece, FixtureEntry | OpeningEntry)
    )
    for key in ("backs up", "slow", "fine", "tested with volume"):
        for i, name in enumerate(getattr(complaint, key.replace(" ", "_"))):
            message = None
            if name not in names:
                message = f"no fixture or opening is called {name!r}{nearest(name, sorted(names))}"
            elif names[name] > 1:
                message = f"{names[name]} are called {name!r}; expected a `label` of its own for each"
            elif key == "fine" and name in (*complaint.backs_up, *complaint.slow):
                message = f"{name!r} cannot run fine and be slow or back up; expected it in one list"
            elif key == "tested with volume" and name not in complaint.fine:
                message = f"{name!r} does not stand in `fine`; expected it there too"
            if message:
                yield sheet.fault(message, "task", "complaint", key, i, mends=name not in names)


def _of_the_whole(sheet: Sheet[SiteSheet], message: str, *path: str | int) -> Fault:
    """A fault in what holds the lines together: nothing else can stand there while the rest is read."""
    return sheet.fault(message, *path, mends=False)
