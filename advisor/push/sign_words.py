"""What was seen and felt at a stop, in the words of the table."""

from __future__ import annotations

from collections.abc import Collection

from advisor.tables.stuck import StuckFile


def sign_words(signs: Collection[str], table: StuckFile) -> str:
    """All of it in one line, what was told apart by its own name only.

    A sign that the table has no longer stands as it was told.
    """
    apart = {table.signs[name].of for name in signs if name in table.signs}
    signs = [name for name in signs if name not in apart]
    return "; ".join(table.signs[name].words if name in table.signs else name for name in sorted(signs))
