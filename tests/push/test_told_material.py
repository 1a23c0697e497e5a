"""A material that was seen on the way is believed of the pipe from there on.

From a trial: at 32 ft "the pipe changes material, to clay"; at 33 ft it spoke of pitch fibre
and of lumps of rust. Clay does not rust; a pipe that was mended may change again, so no caution goes.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import BACK, SIGHTING
from advisor.push.now.here import likely_here
from advisor.push.now.told_material import told_material
from advisor.result.model import CautionNote
from advisor.terminal.push.material import heeded
from advisor.terminal.push.words import Words
from tests.push.test_which_spot import CLAY
from tests.terminal.test_now_shown import Told, pushed

OLD = CLAY.replace("built: 1905", "built: 1960")
IRON = OLD.replace("material: clay", "material: cast iron")
TO_CLAY: Told = (SIGHTING, 3.0, {"what": "material", "material": "clay"})


def read(at: float) -> Told:
    return SIGHTING, at, {"what": "nothing"}


def test_clay_does_not_rust():
    before = likely_here(pushed(IRON, "front chamber", read(3.5), direction="upstream"))
    assert any("rust" in words for words, _ in before.conditions)
    after = likely_here(pushed(IRON, "front chamber", TO_CLAY, read(3.5), direction="upstream"))
    assert not any("rust" in words for words, _ in after.conditions)


def test_a_notice_of_another_material_stays_with_what_was_told_before_it():
    now = pushed(CLAY, "front chamber", TO_CLAY, read(3.5), direction="upstream")
    fibre, fire = (CautionNote(id=name, word="notice", text="Heed it.") for name in ("pitch-fibre", "fire"))
    assert heeded(fibre, now, Words(now)) == (
        "From 3 m on clay, it was told. Where that changes again: Heed it."
    )
    assert heeded(fire, now, Words(now)) == "Heed it."
    before = pushed(CLAY, "front chamber", read(3.5), direction="upstream")
    assert heeded(fibre, before, Words(before)) == "Heed it."


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ((read(3.5),), "clay"),
        (((BACK, 2.0, {}),), None),  # the head is in the pipe before it again
        (((SIGHTING, 4.0, {"what": "material", "material": "vcp"}),), "clay"),  # by its alias
        (((SIGHTING, 4.0, {"what": "material"}),), None),  # to another, nobody knows to what
    ],
)
def test_the_last_that_the_head_has_come_into_counts(more, told):
    found = told_material(pushed(CLAY, "front chamber", TO_CLAY, *more, direction="upstream"))
    assert (found and found.name) == told
