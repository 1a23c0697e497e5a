"""A pipe seen to change is told back as it was seen, and where the sheet has another one, that is said.

From a trial: PVC was told where the sheet, told by the same man, has clay; the screen said "the
pipe changes to clay". A slip of the key, or a piece that was replaced, as is usual in old clay. Common
practice, no source.
"""

from __future__ import annotations

import pytest

from advisor.push.log.kinds import SIGHTING
from advisor.terminal.push.here import show_now
from tests.terminal.test_now_shown import TEE_PLUG, pushed, shown, tee

__all__ = ["shown"]
SLIP = "A slip of the key? u takes it back."


def changed(to: str) -> str:
    """The tee, and 3 m on the pipe changes."""
    return tee().replace("- pipe: 9 m", f"- pipe: 3 m\n      - change: {{{to}}}\n      - pipe: 6 m")


def said_of(shown, to: str, seen: dict[str, str]) -> str:
    told = (SIGHTING, 5.0, {"what": "material", **seen})
    return shown(show_now, pushed(changed(to), TEE_PLUG, told))


def test_another_than_the_sheet_has_is_said_at_once(shown):
    said = said_of(shown, "material: clay", {"material": "pvc"})
    assert "That is: where the sheet has the pipe change to clay." in said
    assert (
        f"The sheet has clay, not pvc. {SLIP} Seen so? A piece was replaced, or the sheet is wrong." in said
    )
    assert "That is: the pipe changes to clay" not in said


@pytest.mark.parametrize(
    ("to", "seen", "told"),
    [
        ("material: clay", "clay", "clay"),
        ("material: clay", "vcp", "clay"),  # by its alias
        ("material: clay", None, "clay"),  # nobody could tell to what
        ("material: thin-wall plastic sewer", "pvc", "pvc"),  # plastic is plastic through a lens
    ],
)
def test_what_may_be_that_is_told_as_it_was_seen(shown, to, seen, told):
    said = said_of(shown, to, {"material": seen} if seen else {})
    assert f"That is: the pipe changes to {told}." in said
    assert SLIP not in said
