"""What was told before hands went on of what nobody had said, and how long that counts."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from advisor.outcome.at_door import AtDoor
from advisor.push.log.kinds import ANEW, START
from advisor.push.log.log import Entry, entry_text
from advisor.push.now.drains import seen_to_drain
from advisor.tables.load import Tables
from advisor.tables.where import WhereFile, number

# As they stand in the logs, by which they are known again.
NO_GAS = "nobody smells gas, at the door and at each opening"
NOTHING_POURED = "everybody was asked, and nobody poured in a drain cleaner"
BETWEEN = "; "


def at_door(entries: Sequence[Entry], tables: Tables) -> AtDoor:
    """What of it an open push has, by what was told last; that it drains, until it was stopped."""
    told = [entry_text(entry, "told") for entry in entries if entry.kind in (START, ANEW)]
    return settled(told[-1] if told else None, seen_to_drain(entries, tables))


def settled(told: str | None, drains: bool | None) -> AtDoor:
    """What the plan of a push goes by of what was `told`, and of whether the line was seen to drain."""
    said = (told or "").split(BETWEEN)
    return AtDoor(NO_GAS in said, NOTHING_POURED in said, drains is True)


def to_ask_anew(
    entries: Sequence[Entry], at: datetime, where: WhereFile, asked: datetime | None = None
) -> bool:
    """Whether so long ago was the last entry of an open push that it may be otherwise now.

    Unless it was `asked` since. A clock that was set back tells nothing of how long.
    """
    last = [*(entry.told_at for entry in entries), *((asked,) if asked else ())]
    since = (at - max(last)).total_seconds() if last else 0.0
    return not 0.0 <= since <= number(where.told_holds)
