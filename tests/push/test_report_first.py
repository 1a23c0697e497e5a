"""What a report recommends first: what holds a head is taken away, a shut opening freed, and only then dug.

After how drains are cleared: a soft stop is cleaned and looked at again from where it was reached; a plug
that is seized is drilled or cut out and replaced; a new opening through a floor is what is left.
"""

from __future__ import annotations

import pytest

from tests.push.test_report import HOUSE, START, TASK, Told, report, section

END: Told = ("end", 12.5, {"reached": False})
STOP: Told = ("stopped", 12.5, {"sign": "wall ahead"})
SHUT = (HOUSE + TASK).replace(
    "      - drop: 1 m\n",
    "      - opening: wall plug\n        kind: wall cleanout\n        opens: no\n      - drop: 1 m\n",
)


def advised(*told: Told, text: str = HOUSE + TASK) -> str:
    return section(report(START, *told, END, text=text), "Recommended")


def test_where_nothing_is_told_of_what_holds_it_a_new_opening_is():
    told = advised(STOP)
    assert "new opening here" in told
    assert "Under a slab that is the last thing to do." in told


@pytest.mark.parametrize(
    "told",
    [
        (STOP, ("find", 12.5, {"what": "heavy grease, half the bore"})),
        (("stopped", 12.5, {"sign": "blocked", "feel": "gritty"}),),
        (("stopped", 12.5, {"sign": "blocked, roots"}),),
        (
            ("stopped", 12.5, {"sign": "blocked"}),
            ("try", 12.5, {"technique": "turn the rod", "outcome": "kinked"}),
        ),
    ],
)
def test_what_can_be_cleaned_is_cleaned_and_nothing_new_is_dug(told):
    said = advised(*told)
    assert "clean" in said
    assert "new opening here" not in said


def test_a_find_elsewhere_says_nothing_of_the_stop():
    assert "new opening here" in advised(("find", 3.0, {"what": "grease"}), STOP)


def test_an_opening_that_is_shut_is_to_be_freed_and_comes_before_a_new_one():
    said = advised(STOP, text=SHUT)
    assert "wall plug does not open: free it. Have its plug or lid freed or replaced" in said
    assert said.index("free it") < said.index("new opening here")
    assert "does not open" not in advised(STOP)


CHAMBER = (
    "      - opening: yard chamber\n        kind: inspection chamber\n        opens: yes\n      - drop: 1 m\n"
)
LATER = (HOUSE + TASK).replace("      - drop: 1 m\n", CHAMBER)  # 19 m down the drain, 19.5 m by the counter
UP: Told = ("start", 0.0, {"opening": "yard chamber", "direction": "upstream", "loadout": "large reel"})
ENDED_UP: Told = ("end", 4.0, {"reached": False})


@pytest.mark.parametrize(
    ("at", "text", "short"),
    [
        (12.5, LATER, True),
        (12.5, LATER.replace("opens: yes", "opens: no"), False),
        (12.5, LATER.replace("opens: yes", "there: 50 %"), False),
        (21.5, LATER, False),  # past it
        (12.5, HOUSE + TASK, False),
    ],
)
def test_between_two_openings_that_open_it_is_cleared_and_no_new_one_made(at, text, short):
    stop: Told = ("stopped", at, {"sign": "dark on both sides", "feel": "dead and hard"})
    said = section(report(START, stop, ("end", at, {"reached": False}), text=text), "Recommended")
    assert ("by the counter, short of yard chamber: look again. It lies between two" in said) == short
    assert ("new opening here" in said) != short
    assert not short or "no cutter and no water under pressure until it is" in said, "it may be a gas pipe"


def test_both_were_pushed_from_so_both_open():
    text = LATER.replace("        opens: yes\n", "")
    first = (START, ("end", 3.0, {"reached": False}))
    up = (UP, ("stopped", 4.0, {"sign": "wall ahead"}), ENDED_UP)
    assert "short of yard cleanout" in section(report(*first, *up, text=text), "Recommended")
    assert "new opening here" in section(report(*up, text=text), "Recommended")


@pytest.mark.parametrize("kind", ["gully", "floor drain"])
def test_what_may_have_no_stopper_at_all_is_not_sent_to_be_freed(kind):
    """Past the trap of a gully many have no rodding stopper: "no, it does not move" may be that."""
    said = advised(STOP, text=SHUT.replace("kind: wall cleanout", f"kind: {kind}"))
    assert "wall plug does not open: look again. Many have no stopper or plug past their trap." in said
    assert "free it" not in said
    assert "a way in without a new hole" not in said


@pytest.mark.parametrize(
    "told",
    [("stopped", 12.5, {"sign": "object", "feel": "dead and hard"}), ("find", 12.5, {"what": "object"})],
)
def test_what_holds_the_head_comes_before_a_lid_that_is_shut(told):
    """An object may be another's gas pipe: whoever reads one line only must have read that."""
    said = advised(told, text=SHUT)
    assert said.index("take out") < said.index("wall plug does not open: free it")


@pytest.mark.parametrize("what", ["hole in the wall", "yellow hose across"])
@pytest.mark.parametrize(
    ("at", "behind", "tool"),
    [
        (12.5, ("stopped", 12.5, {"sign": "scale or grease"}), "descale"),
        (12.5, ("find", 12.5, {"what": "heavy grease"}), "clean"),
        (12.5, ("stopped", 12.5, {"sign": "object"}), "take out"),
        (3.0, ("find", 3.0, {"what": "heavy grease"}), "clean"),
    ],
)
def test_nothing_is_advised_through_what_nothing_may_be_sent_through(what, at, behind, tool):
    """Common practice, no source: no rod, cutter or jet through a hole or another's pipe."""
    said = advised(("find", 8.0, {"what": what}), behind)
    (number,) = {each for each in (1, 2) if f"No. {each}, {what}" in said}
    assert f"Nothing goes through no. {number}, from whichever opening" in said
    gated = f"first no. {number}, on the way there. Nothing goes through it. Only then, {tool}."
    assert (gated in said) is (at > 8.0)
    assert tool in said


@pytest.mark.parametrize("what", ["roots", "root mass, three quarters of the bore"])
def test_where_nothing_bars_the_way_nothing_comes_before_the_advice(what):
    """Through a mass of roots no head goes, but the cutter does (common practice, no source)."""
    said = advised(("find", 8.0, {"what": what}), ("find", 12.0, {"what": "grease"}))
    assert "Nothing goes through" not in said
    assert "Have the roots cut and look again the same day." in said


@pytest.mark.parametrize(("second", "gated"), [(START, True), (UP, False)])
def test_what_bars_one_way_in_does_not_lie_before_what_was_read_from_another_opening(second, gated):
    """As far in from the chamber as the hole was from the cleanout, the grease lies on no way through it."""
    told = START, ("find", 3.0, {"what": "hole in the wall"}), ("end", 3.0, {"reached": False})
    again = second, ("find", 4.0, {"what": "heavy grease"}), ("end", 4.0, {"reached": False})
    said = section(report(*told, *again, text=LATER), "Recommended")
    assert "clean" in said
    assert ("on the way there. Nothing goes through it. Only then, clean." in said) is gated


def test_through_a_hole_with_a_root_mass_no_cutter_goes_either():
    said = advised(("find", 8.0, {"what": "root mass in a hole"}))
    assert "Nothing goes through no. 1" in said
