"""Gear that was held both ways, left in, or in beside a machine: it is looked at before it goes in again."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.kit.model import Kit, KitPart
from advisor.outcome.attempts import GUIDE
from advisor.push.log.kinds import HAD_OUT, START
from advisor.push.log.log import Entry
from advisor.push.log.sighting import NOT_BACK, sign_names, wedged
from advisor.result.study import Study


def to_look_at(standing: Sequence[Entry], kit: Kit) -> frozenset[KitPart]:
    """The parts that a push began with for which nobody has said since that they were looked at.

    No guide: what a pull strains is head, spring and coupling, and those are what is looked at.
    """
    gear: dict[object, str] = {}  # by the start of its push
    now, parts = "", set[KitPart]()
    for entry in standing:
        if entry.kind == START:
            now = gear[entry.number] = str(entry.data.get("loadout"))
            if entry.data.get("looked"):
                parts -= kit.parts(now)
        elif wedged(entry) or NOT_BACK in sign_names(entry) or entry.data.get("outside") is False:
            parts |= kit.parts(now)
        elif entry.kind == HAD_OUT:
            parts |= kit.parts(gear.get(entry.data["push"], ""))
    return frozenset(part for part in parts if part[0] != GUIDE)


def look_at_words(study: Study, standing: Sequence[Entry]) -> tuple[str, ...]:
    """What is told of it with every plan; not of what lies in the pipe, which is told otherwise."""
    parts = to_look_at(standing, study.kit)
    gear = [
        each.name for each in study.kit.loadouts if each.parts & parts and not study.barred.lies_there(each)
    ]
    return (study.tables.stuck.free_first.plan.format(gear=" or ".join(gear)),) if gear else ()
