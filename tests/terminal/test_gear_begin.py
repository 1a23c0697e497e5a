"""Gear that the plan finds not to get there says so before it goes in, as an opening that is ruled out does.

By hand: a guide of 48 mm does not go through a bore of 1-1/2 in (38 mm), nor round a turn in it.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.result.chances import chance_words
from advisor.result.gear import stopped_with
from advisor.terminal.push.offers import gear_offered, opening_offered, openings, planned_here
from tests.cases.jobs import studied
from tests.push.sites import WALK
from tests.push.test_not_there import SINK

KIT = """
kit: invented
heads: [{head: slim head, like: small reel, diameter: 22 mm, length: 30 mm, nose: round}]
springs: [{spring: soft spring, like: small reel, feel: soft}]
rods: [{rod: slim rod, like: small reel, diameter: 6 mm, length: 20 m}]
guides: [{guide: ring, diameter: 48 mm, length: 15 mm}]
loadouts:
  - {head: slim head, spring: soft spring, rod: slim rod}
  - {head: slim head, spring: soft spring, rod: slim rod, guide: ring}
"""


@pytest.mark.parametrize(("size", "stops"), [("1-1/2 in", True), ("4 in", False)])
def test_a_guide_wider_than_the_bore_is_told_not_to_get_there(size, stops):
    plugged = SINK.replace("fixture: kitchen sink", "opening: wall cleanout\n        kind: end cleanout")
    plugged = plugged.replace("1/4 bend", "45 degree bend")  # which a 6 mm rod goes round in any bore
    of = studied(plugged.replace("size: 2 in", f"size: {size}"), KIT, 200)
    slim, with_ring = of.kit.loadouts
    assert stopped_with(of, "wall cleanout", slim.name) is None
    why = stopped_with(of, "wall cleanout", with_ring.name)
    assert (why is not None) == stops
    of_all, offered = gear_offered(of, "wall cleanout", [slim.name, with_ring.name])
    assert of_all == "", "the slim one gets there"
    shown = next(told for told, name in offered.items() if name == with_ring.name)
    assert shown.startswith(f"{with_ring.name} (unlikely") == stops
    assert with_ring.name in shown
    assert slim.name in offered


PLUG = "opening: wall cleanout\n        kind: end cleanout"


def test_why_an_opening_is_ruled_out_is_told_with_the_opening_alone():
    """An opening that was told not to open lets nothing in, whatever it is."""
    of = studied(SINK.replace("fixture: kitchen sink", f"{PLUG}\n        opens: no"), KIT, 200)
    names = [each.name for each in of.kit.loadouts]
    assert "does not open" in opening_offered(of, "wall cleanout")
    assert gear_offered(of, "wall cleanout", names) == ("", {name: name for name in names})


def test_an_opening_from_which_no_way_leads_to_what_is_to_be_seen_says_so_and_only_that_one():
    """The arm of the trap leads on down to the sewer; what is to be seen lies above the trap."""
    armed = (
        "site: invented\nregion: britain\nlines:\n  - line: back drain\n    pieces:\n"
        "      - opening: front chamber\n        kind: inspection chamber\n      - pipe: 5 m\n"
        "      - opening: low chamber\n        kind: inspection chamber\n      - trap: disconnecting trap\n"
        "      - opening: rodding arm\n        kind: disconnecting trap rodding arm\n      - pipe: 4 m\n"
        "      - end: public sewer\ntask:\n  look at: back drain, from front chamber to low chamber\n"
        "  complaint: {holding: no}\n"
    )
    of = studied(armed, KIT, 50)
    offered = [opening_offered(of, name) for name in openings(of)]
    assert set(offered[:2]) == {"front chamber", "low chamber"}
    assert offered[2].startswith("rodding arm (no way in: from there the rod goes only down the line")


def test_what_stops_all_gear_is_told_once():
    """A trap in the way lets no head through, whatever it is."""
    trapped = SINK.replace("fixture: kitchen sink", PLUG).replace("- bend: 1/4 bend", "- trap: P-trap", 1)
    of = studied(trapped, KIT.replace("diameter: 48 mm", "diameter: 30 mm"), 200)
    names = [each.name for each in of.kit.loadouts]
    of_all, offered = gear_offered(of, "wall cleanout", names)
    assert of_all.startswith("With any gear: ")
    why = of_all.removeprefix("With any gear: ").removesuffix(".")
    assert list(offered.values()) == names
    assert not any(why in told for told in offered), "not with each of them again"
    assert all(told.startswith(f"{name} (unlikely") for told, name in offered.items())


def test_gear_that_shows_a_part_says_so_as_the_plan_does():
    """The plan tells the chance to see that part; that of all of it is none."""
    of = studied(WALK, KIT, 200)
    gear = of.kit.loadouts[0].name
    whole = next(
        each
        for each in of.outcomes
        if (each.route.opening.name, each.loadout.name) == ("yard cleanout", gear)
    )
    part = replace(whole, way=replace(whole.way, route=replace(whole.route, covers=0.73)))
    assert (part.chance, part.part_chance) == (0, whole.part_chance)
    of = replace(of, outcomes=(part,))
    told, why = stopped_with(of, "yard cleanout", gear)
    assert told == f"part, 73% of it: {chance_words(of).say(whole.part_chance)}"
    assert why == ""
    other = of.kit.loadouts[1].name
    _, offered = gear_offered(of, "yard cleanout", [gear, other])
    assert list(offered) == [f"{gear} ({told})", other]


def test_where_no_gear_is_planned_it_is_told_where_the_plan_goes_in():
    """That none is planned tells nobody why an opening that may well do is not in the order."""
    of = studied(WALK, KIT, 200)
    begun = of.ranked[0].outcome
    first, none = begun.route.opening.name, replace(of, settled=replace(of.settled, attempts=()))
    of = replace(of, settled=replace(of.settled, attempts=(begun,)))
    other = next(name for name in openings(of) if name != first)
    assert planned_here(of, first) == "The first is planned."
    assert planned_here(of, other) == f"None is planned here. By the plan it goes in at {first}."
    assert (
        planned_here(none, first) == "None is planned here. By the plan leaving the job undone costs least."
    )
