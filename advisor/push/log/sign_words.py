"""What was seen and felt at a stop, in the words of the table."""

from __future__ import annotations

from collections.abc import Collection

from advisor.tables.stuck import StuckFile


def sign_words(signs: Collection[str], table: StuckFile) -> str:
    """All of it in one line in the order of the table, what was told apart by its own name only.

    A sign that the table has no longer stands last, as it was told.
    """
    apart = {table.signs[name].of for name in signs if name in table.signs}
    listed = [name for name in table.signs if name in signs and name not in apart]
    gone = sorted(name for name in signs if name not in table.signs)
    return "; ".join((*(table.signs[name].words for name in listed), *gone))
