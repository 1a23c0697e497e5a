"""What pushes of a job have lost for its plan: openings that do not open, a rod or spring that kinked.

Kept in the log and known to every plan of the job until the log says otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from advisor.kit.model import Kit, KitPart
from advisor.push.kinds import KINKED, SHUT, START, TRY
from advisor.push.log import Entry, standing_in


@dataclass(frozen=True)
class Lost:
    """Openings by name, and the rod and spring of gear that kinked: nobody says which of them it was."""

    shut: tuple[str, ...] = ()
    kinked: frozenset[KitPart] = frozenset()


def lost_of(standing: Iterable[Entry], kit: Kit) -> Lost:
    """What is lost as the log stands.

    An opening is no more once a push began there; rod and spring, once a push began with them for which it
    was said that what kinked is renewed.
    """
    shut: dict[str, None] = {}
    kinked: set[KitPart] = set()
    for entry in standing:
        data = entry.data
        if entry.kind == SHUT:
            shut[str(data["opening"])] = None
        elif entry.kind == START:
            shut.pop(str(data["opening"]), None)
            if data.get("renewed"):
                kinked -= kit.can_kink(str(data.get("loadout")))
        elif entry.kind == TRY and data.get("outcome") == KINKED:
            kinked |= kit.can_kink(str(data.get("loadout")))
    return Lost(tuple(shut), frozenset(kinked))


def lost_in(path: Path, kit: Kit) -> Lost:
    """That of a log; nothing where there is none that can be read."""
    return lost_of(standing_in(path), kit)
