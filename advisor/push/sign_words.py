"""What was seen and felt at a stop, in the words of the table."""

from __future__ import annotations

from collections.abc import Collection

from advisor.tables.stuck import StuckFile


def sign_words(signs: Collection[str], table: StuckFile) -> str:
    """All of it in one line; a sign that the table has no longer stands as it was told."""
    return "; ".join(table.signs[name].words if name in table.signs else name for name in sorted(signs))
