"""`advisor batch`: plans every sheet of a folder into one table, says how far it is, and can go on later."""

from __future__ import annotations

import os
from collections import Counter
from pathlib import Path

from advisor.batch.run import With, planned, sheets_in
from advisor.batch.table import Table
from advisor.errors import BadInput, Fault, printable
from advisor.terminal.plain_line import complain, say
from advisor.terminal.progress import tell

STEP = 250  # sheets from one line of progress to the next where there is no terminal


def batch(folder: Path, out: Path, with_what: With, cores: int | None) -> int:
    """Plan what the table does not hold yet. Raises BadInput; a bad sheet is a row, not a stop."""
    paths = sheets_in(folder)
    if out.is_dir() or out.suffix in (".yaml", ".yml"):
        raise BadInput([Fault(str(out), 0, "expected the name of a table, such as plans.csv")])
    planner, table = with_what.planner(), Table(out)
    contents = {path: planner.content(path) for path in paths}
    named = {path: path.relative_to(folder).as_posix() for path in paths}
    # What cannot be read has no content and is tried again.
    todo = [p for p in paths if not contents[p] or table.content_of(named[p]) != contents[p]]
    kept = len(paths) - len(todo)
    if kept:
        complain(printable(f"{kept:,} of {len(paths):,} sheets stand in {out} already."))
    results: Counter[str] = Counter()
    try:
        for row in planned(todo, folder, with_what, cores or os.cpu_count() or 1):
            table.add(row)
            results[row.result] += 1
            tell(sum(results.values()), len(todo), STEP)
    finally:
        table.close()
    say(printable(f"{out}: {len(paths):,} sheets. Now: {_counted(results) or 'nothing new'}."))
    return 0


def _counted(results: Counter[str]) -> str:
    return ", ".join(f"{count:,} {result}" for result, count in sorted(results.items()))
