"""A typical building as the site sheet of one house: nothing of it seen, every value assumed."""

from __future__ import annotations

from advisor.archetype.building import Archetype
from advisor.strict_yaml import written

_HEAD = """\
# {name}: a typical one, not this one. Nothing here was seen.
# What is `assumed` is our own planning value. Replace it by what you see, or leave it.
# `there`: how likely such an opening is to be there at all; write yes or no once you know.
"""


def typical(archetype: Archetype, built: int | None) -> str:
    """YAML text of an ordinary site sheet for a building of that kind and year.

    Materials and conditions that the archetype leaves open follow from the year where the sheet is read.
    """
    year = "unknown" if built is None else str(built)
    return _HEAD.format(name=archetype.name) + written({**archetype.tree, "built": year})
