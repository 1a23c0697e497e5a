"""What earlier pushes of the job told that may hold water back, till it is seen or told otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.push.log.cleared import cleared_since
from advisor.push.log.kinds import START, WATER
from advisor.push.log.log import Entry
from advisor.push.now.drains import last_seen
from advisor.tables.where import WhereFile


@dataclass(frozen=True, eq=False)
class HeldBack:
    """`words` tell what it was, where and by which push; `above` are the fixtures whose water must pass it.

    `standing` is the log before this push, `place` where in it that was told.
    """

    words: str
    above: frozenset[str]
    standing: tuple[Entry, ...]
    place: int

    @property
    def began(self) -> Entry | None:
        """The start of the push that told it."""
        return next((each for each in reversed(self.standing[: self.place + 1]) if each.kind == START), None)

    def still(self, entries: Sequence[Entry], where: WhereFile) -> bool:
        """Whether the entries of this push, its start with them, leave that in doubt.

        What was last seen of the line counts. Water of a fixture that joins below it has shown nothing.
        """
        telling = [e for e in entries if e.kind != WATER or e.data.get("fixture") in self.above]
        seen = last_seen(telling)
        if seen is not None and seen[1]:
            return False
        return not cleared_since((*self.standing, *entries), self.place, where)
