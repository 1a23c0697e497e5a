"""A kit sheet as text from what was told: reels with head, spring and rod, and remarks to fill in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from advisor.kit.sheet import LoadoutSheet
from advisor.strict_yaml import scalar

Entries = dict[str, str]

_HEAD = """\
# What is on the truck. Numbers carry their unit: 1 in, 25 mm, 0.4 N m2.
# What is left out is taken from the class of reel (`like`), with a wide range. Measured values stand above.
# Change one value: advisor kit edit PART/ENTRY=VALUE. One part more: advisor kit edit --add spring.
# Measure a rod: advisor kit droop.
"""
# What a part may say further, as a remark where nobody said it.
_OPEN = {
    "head": ("diameter", "length", "nose"),
    "spring": ("feel", "diameter", "length", "stiffness", "minimum radius", "pull limit"),
    "rod": ("diameter", "core", "length", "stiffness", "weight", "minimum radius"),
    "guide": ("diameter", "length"),
}


@dataclass(frozen=True)
class Reel:
    """One reel as told: its class, and what was said of its head, its springs by their names, and its rod."""

    name: str
    like: str
    head: Entries = field(default_factory=dict)
    springs: dict[str, Entries] = field(default_factory=dict)
    rod: Entries = field(default_factory=dict)

    @property
    def head_name(self) -> str:
        """What its head is called on the sheet."""
        return f"{self.name} head"


def kit_text(name: str, reels: Sequence[Reel], guides: Sequence[tuple[str, Entries]]) -> str:
    """YAML text of a kit sheet; each reel is carried with its own head and each of its springs, bare and with
    each guide.

    A guide fits every head here: which is too narrow for a pipe is for the plan to say.
    """
    text = _HEAD + f"kit: {scalar(name)}\nheads:\n"
    for reel in reels:
        text += part_text("head", reel.head_name, {"like": reel.like, **reel.head})
    text += "springs:\n"
    for reel in reels:
        for called, told in reel.springs.items():
            text += part_text("spring", called, {"like": reel.like, **told})
    text += "rods:\n"
    for reel in reels:
        text += part_text("rod", reel.name, {"like": reel.like, **reel.rod})
    if guides:
        text += "guides:\n"
        for called, entries in guides:
            text += part_text("guide", called, entries)
    text += "loadouts:  # what goes into a drain together\n"
    for reel in reels:
        for spring in reel.springs:
            for guide in (None, *(called for called, _ in guides)):
                each = LoadoutSheet(head=reel.head_name, spring=spring, rod=reel.name, guide=guide)
                text += loadout_text(each)
    return text


def part_text(kind: str, name: str, entries: Entries, dash: str = "  - ") -> str:
    """One part as a row of its list, with a remark for each thing that was not told."""
    text, stands_in = f"{dash}{kind}: {scalar(name)}\n", " " * len(dash)
    for key, value in entries.items():
        text += f"{stands_in}{key}: {scalar(value)}\n"
    for key in _OPEN[kind]:
        if key not in entries:
            text += f"{stands_in}# {key}: not told\n"
    return text


def loadout_text(loadout: LoadoutSheet, dash: str = "  - ") -> str:
    """One loadout as a row of its list."""
    told = [f"{key}: {scalar(name)}\n" for key, name in loadout.model_dump(exclude_none=True).items()]
    return dash + (" " * len(dash)).join(told)
