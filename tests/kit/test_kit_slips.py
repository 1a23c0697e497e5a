"""Metres for millimetres on a kit sheet is a slip of the pen, never a plan."""

from __future__ import annotations

import pytest

from advisor.errors import BadInput
from advisor.kit.sheet import kit_of_text

KIT = """\
kit: van
heads: [{head: small head, diameter: 25 mm, length: 40 mm}]
springs: [{spring: soft, diameter: 20 mm, length: 300 mm}]
rods: [{rod: thin, diameter: 7 mm, core: 4 mm, length: 60 m}]
guides: [{guide: ring, diameter: 60 mm, length: 15 mm}]
"""


def test_the_kit_itself_is_good():
    assert kit_of_text(KIT, "kit").model.kit == "van"


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("diameter: 25 mm", "diameter: 25 m", 2, "diameter: no head or spring on a push rod has that size"),
        ("length: 40 mm", "length: 40 m", 2, "length: no head, spring or guide has that size"),
        ("length: 300 mm", "length: 300 m", 3, "length: no head, spring or guide has that size"),
        ("length: 60 m}", "length: 60 mm}", 4, "length: no rod has that size"),
        ("core: 4 mm", "core: 4 m", 4, "core: no push rod has that size"),
        ("diameter: 60 mm", "diameter: 60 m", 5, "diameter: no guide has that size"),
    ],
)
def test_a_slip_is_told_in_its_line(old, new, line, words):
    assert KIT.count(old) == 1
    with pytest.raises(BadInput) as caught:
        kit_of_text(KIT.replace(old, new), "kit")
    (fault,) = caught.value.faults
    assert (fault.line, fault.message) == (line, words)
