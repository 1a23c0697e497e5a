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
    """One reel as told: what was said of its head, its springs by their names, and its rod."""

    name: str
    head: Entries = field(default_factory=dict)
    springs: dict[str, Entries] = field(default_factory=dict)
    rod: Entries = field(default_factory=dict)

    @property
    def head_name(self) -> str:
        """What its head is called on the sheet."""
        return f"{self.name} head"


@dataclass(frozen=True)
class NewGuide:
    """One guide as told, and the names of the reels that it goes on: a ring fits the head it was made for."""

    name: str
    entries: Entries
    reels: tuple[str, ...]


def kit_text(name: str, reels: Sequence[Reel], guides: Sequence[NewGuide]) -> str:
    """YAML text of a kit sheet; each reel is carried with its own head and each of its springs, bare and with
    each guide that goes on it."""
    text = _HEAD + f"kit: {scalar(name)}\nheads:\n"
    for reel in reels:
        text += part_row("head", reel.head_name, reel.head).text()
    text += "springs:\n"
    for reel in reels:
        for called, told in reel.springs.items():
            text += part_row("spring", called, told).text()
    text += "rods:\n"
    for reel in reels:
        text += part_row("rod", reel.name, reel.rod).text()
    if guides:
        text += "guides:\n"
        for guide in guides:
            text += part_row("guide", guide.name, guide.entries).text()
    text += "loadouts:  # what goes into a drain together\n"
    for reel in reels:
        for spring in reel.springs:
            for with_it in (None, *(each.name for each in guides if reel.name in each.reels)):
                each = LoadoutSheet(head=reel.head_name, spring=spring, rod=reel.name, guide=with_it)
                text += loadout_row(each).text()
    return text


@dataclass(frozen=True)
class Row:
    """One row of a list of the sheet: its entries, and those that nobody told, as remarks."""

    entries: Entries
    open: tuple[str, ...] = ()

    def text(self, dash: str = "  - ") -> str:
        """The row as lines, its first behind a dash."""
        told = [f"{key}: {scalar(value)}\n" for key, value in self.entries.items()]
        return dash + (" " * len(dash)).join([*told, *(f"# {key}: not told\n" for key in self.open)])


def part_row(kind: str, name: str, entries: Entries) -> Row:
    """One part as a row of its list, with a remark for each thing that was not told."""
    return Row({kind: name, **entries}, tuple(key for key in _OPEN[kind] if key not in entries))


def loadout_row(loadout: LoadoutSheet) -> Row:
    """One loadout as a row of its list."""
    return Row(loadout.model_dump(exclude_none=True))
