"""What is looked at before gear goes in again is what a pull strains: head, spring and coupling, no guide."""

from __future__ import annotations

from advisor import demo
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import read_kit
from advisor.push.before.to_look_at import to_look_at
from advisor.push.log.kinds import STOPPED
from advisor.push.log.sighting import NOT_BACK
from tests.cases.jobs import tables
from tests.push.test_earlier_stop import numbered
from tests.push.test_found_again import BEGUN


def begun(loadout: str, **more: bool):
    return BEGUN[0], 0.0, {**BEGUN[2], "loadout": loadout, **more}


def test_looked_at_without_the_guide_that_it_was_held_with_nothing_is_left_to_look_at():
    kit = kit_of(read_kit(demo.KIT), tables())
    pairs = ((one, more) for one in kit.loadouts for more in kit.loadouts if one.parts < more.parts)
    bare, guided = next((one.name, more.name) for one, more in pairs)
    held = (STOPPED, 2.0, {"sign": NOT_BACK, "feel": "hard"})
    assert to_look_at(numbered(begun(guided), held), kit)
    assert not to_look_at(numbered(begun(guided), held, begun(bare, looked=True)), kit)
