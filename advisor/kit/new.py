"""A kit sheet as text from what was told: reels with head, spring and rod, and remarks to fill in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from advisor.strict_yaml import scalar

Entries = dict[str, str]

_HEAD = """\
# What is on the truck. Numbers carry their unit: 1 in, 25 mm, 0.4 N m2.
# What is left out is taken from the class of reel (`like`), with a wide range. Measured values stand above.
# Change one value: advisor kit edit PART/ENTRY=VALUE. Measure a rod: advisor kit droop.
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
    """One reel as told: its class, and what was said of its head, spring and rod."""

    name: str
    like: str
    head: Entries = field(default_factory=dict)
    spring: Entries = field(default_factory=dict)
    rod: Entries = field(default_factory=dict)


def kit_text(name: str, reels: Sequence[Reel], guides: Sequence[tuple[str, Entries]]) -> str:
    """YAML text of a kit sheet; each reel is carried with its own head, bare and with each guide that fits.

    A guide fits every head here: which is too narrow for a pipe is for the plan to say.
    """
    text = _HEAD + f"kit: {scalar(name)}\n"
    for kind in ("head", "spring", "rod"):
        text += f"{kind}s:\n"
        for reel in reels:
            text += _part(kind, _called(reel, kind), {"like": reel.like, **getattr(reel, kind)})
    if guides:
        text += "guides:\n"
        for called, entries in guides:
            text += _part("guide", called, entries)
    text += "loadouts:  # what goes into a drain together\n"
    for reel in reels:
        for guide in (None, *(called for called, _ in guides)):
            text += f"  - head: {scalar(_called(reel, 'head'))}\n"
            text += f"    spring: {scalar(_called(reel, 'spring'))}\n    rod: {scalar(reel.name)}\n"
            text += f"    guide: {scalar(guide)}\n" if guide else ""
    return text


def _called(reel: Reel, kind: str) -> str:
    return reel.name if kind == "rod" else f"{reel.name} {kind}"


def _part(kind: str, name: str, entries: Entries) -> str:
    text = f"  - {kind}: {scalar(name)}\n"
    for key, value in entries.items():
        text += f"    {key}: {scalar(value)}\n"
    for key in _OPEN[kind]:
        if key not in entries:
            text += f"    # {key}: not told\n"
    return text
