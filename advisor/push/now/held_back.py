"""What earlier pushes of the job told that may hold water back, till it is seen or told otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from advisor.push.log.cleared import cleared_since
from advisor.push.log.kinds import START, WATER
from advisor.push.log.log import Entry
from advisor.push.now.backs_up import ran_away
from advisor.push.now.drains import last_seen
from advisor.push.now.ran_since_cleared import ran_since_cleared
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

        What was last seen of the line counts, with water run. Water of a fixture that joins below it has
        shown nothing, nor has a machine that came past it.
        """
        telling = [e for e in entries if e.kind != WATER or e.data.get("fixture") in self.above]
        seen = last_seen(telling)
        if seen is not None and ran_away(telling[seen[0]]):
            return False
        return not self.cleared(entries, where)

    def cleared(self, entries: Sequence[Entry], where: WhereFile) -> bool:
        """Whether it was cut or cleaned, and water that was run ran away after that."""
        return ran_since_cleared((*self.standing, *entries), self.place, where, self.above)

    def cut(self, entries: Sequence[Entry], where: WhereFile) -> bool:
        """Whether it was cut or cleaned, whatever was seen of water since."""
        return cleared_since((*self.standing, *entries), self.place, where)
