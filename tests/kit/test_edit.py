"""One entry of a kit sheet changed in place: refused where it is not clear what is meant."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.kit.edit import edited, part_names
from advisor.kit.sheet import kit_of_text

KIT = """\
kit: van
heads:
  - {head: thin, diameter: 25 mm, length: 42 mm}
springs:
  - spring: soft
    like: small reel
rods:
  - rod: thin
    diameter:
      7 mm
  - "rod": thick
    diameter: 11 mm
"""


def change(about: str, value: str) -> str:
    return edited(kit_of_text(KIT, "kit.yaml"), KIT, about, value)


def test_parts_that_share_a_name_are_told_apart_by_their_kind():
    assert part_names(kit_of_text(KIT, "kit.yaml")) == ("heads/thin", "soft", "rods/thin", "thick")
    with pytest.raises(BadInput) as caught:
        change("thin/diameter", "8 mm")
    assert "two parts are called 'thin'" in str(caught.value)
    assert "`heads/thin/diameter` or `rods/thin/diameter`" in str(caught.value)
    assert change("heads/thin/diameter", "26 mm") == KIT.replace("25 mm", "26 mm")
    # Only the rod has a core, so its name alone is clear.
    assert "    core: 4 mm\n" in change("thin/core", "4 mm")


@pytest.mark.parametrize(("about", "line"), [("rods/thin/diameter", 9), ("thick/core", 11)])
def test_a_sheet_laid_out_otherwise_is_left_to_its_owner_with_the_line(about, line):
    """A value on a line of its own and a key in quotation marks: nothing is guessed at."""
    with pytest.raises(BadInput) as caught:
        change(about, "9 mm")
    assert str(caught.value).startswith(f"kit.yaml:{line}: it is laid out in a way of its own")


@pytest.mark.parametrize(
    ("about", "value"), [("heads/thin/diameter", "26 mm"), ("soft/like", "large reel"), ("soft/feel", "firm")]
)
def test_other_line_ends_stay(about, value):
    """A value in its line, one behind its key, one that was not there: as with the usual ends."""
    windows = KIT.replace("\n", "\r\n")
    made = edited(kit_of_text(windows, "kit.yaml"), windows, about, value)
    assert made == change(about, value).replace("\n", "\r\n")
