"""What lies within the rod's reach is a part too: a reel of 45 m in a straight pipe of 50 m, by hand.

In the trade 130 ft of 145 seen, with the rest told as not seen, is a good job (common practice, no source).
"""

from __future__ import annotations

import re

import pytest

from advisor.errors import BadInput
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import kit_of_text
from advisor.outcome.learned import Learned
from advisor.plan import Case, plan, work_through
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.site.target import target_of
from tests.cases.jobs import rules, tables

SITE = """
site: a house
region: britain
septic: no
pumps: no
lines:
  - line: house drain
    kind: drain
    size: 100 mm
    material: pvc
    condition: sound
    pieces:
{pieces}
task:
  look at: house drain
  complaint: {{gas smell: no, holding: no, chemicals: no}}
"""
COVER = "      - {opening: chamber, kind: inspection chamber, there: yes, opens: yes, depth: 0.6 m}\n"
DOWN = COVER + "      - pipe: 50 m\n      - end: public sewer"
UP = (
    "      - {fixture: washing machine, trap: in wall}\n      - pipe: 50 m\n"
    + COVER
    + "      - pipe: 0.3 m\n      - end: public sewer"
)
KIT = """
kit: a large reel
heads: [{head: h, like: large reel, nose: round}]
springs: [{spring: s, like: large reel}]
rods: [{rod: r, like: large reel, length: LONG}]
"""


def study(pieces: str, long: str = "45 m", units: Units = Units.METRIC):
    kit = kit_of(kit_of_text(KIT.replace("LONG", long), "kit"), tables())
    site = site_of_text(SITE.format(pieces=pieces), "site", tables())
    return work_through(Case(site, kit, units, 200), tables(), rules())


def test_a_reel_that_is_too_short_for_all_shows_what_it_reaches():
    found = study(DOWN)
    told = plan_of(found)
    assert told.camera_now
    part = told.target.part
    # 45 m of rod, short of the end by less than the steps of a counter and what stands in the chamber.
    assert 42 <= told.target.length_m <= 45
    assert told.target.words == f"house drain, from chamber to {told.target.length_m:g} m below chamber"
    assert (part.of, part.of_length_m) == ("house drain", pytest.approx(50))
    assert part.covers == pytest.approx(told.target.length_m / 50)
    assert part.trouble == pytest.approx(part.covers), "nothing points anywhere: every metre is as likely"
    assert told.routes[0].opening == "chamber"
    assert told.routes[0].chance > 0.5
    assert seen(DOWN, told.target.words) == pytest.approx(told.target.length_m)


@pytest.mark.parametrize("pieces", [DOWN, UP])
def test_a_part_is_called_in_the_units_of_the_job_and_is_the_same_part(pieces):
    metric, feet = (plan_of(study(pieces, units=units)).target for units in (Units.METRIC, Units.INCH))
    assert feet.length_m == metric.length_m
    (metres,) = re.findall(r"([\d.]+) m below", metric.words)
    (told,) = re.findall(r"([\d.]+) ft below", feet.words)
    assert float(told) * 0.3048 == pytest.approx(float(metres), abs=0.2)  # as a tape is read
    assert feet.words == metric.words.replace(f"{metres} m below", f"{told} ft below")


def seen(pieces: str, words: str) -> float:
    """Metres of what `look at` takes these words for."""
    text = SITE.format(pieces=pieces).replace("look at: house drain", f"look at: {words}")
    sheet = site_of_text(text, "site", tables())
    network, target = target_of(sheet, network_of(sheet, tables()))
    return sum(network.pieces[key].along for key in target.span)


def test_up_the_pipe_too_and_told_from_its_upper_end():
    told = plan_of(study(UP)).target
    assert 42 <= told.length_m <= 45
    assert told.part is not None
    assert seen(UP, told.words) == pytest.approx(told.length_m)


def test_a_reel_that_is_long_enough_or_far_too_short_has_no_such_part():
    assert study(DOWN, "80 m").part is None
    assert study(DOWN, "3 m").part is None


def test_by_the_book_the_same_part_is_looked_at():
    kit = kit_of(kit_of_text(KIT.replace("LONG", "45 m"), "kit"), tables())
    site = site_of_text(SITE.format(pieces=DOWN), "site", tables())
    found = plan(Case(site, kit, Units.METRIC, 100, learned=Learned(friction=1.1)), tables(), rules())
    assert found.part is not None
    assert found.book is not None
    assert found.book.target == found.target


def test_an_end_so_far_below_a_name_is_taken_and_one_beyond_the_line_refused():
    assert seen(DOWN, "house drain, from 10 m below chamber to public sewer") == pytest.approx(40)
    assert seen(DOWN, "house drain, from chamber to 12.5 m below chamber") == pytest.approx(12.5)
    for end in ("60 m below chamber", "5 m below chamber pot", "5 below chamber"):
        with pytest.raises(BadInput):
            seen(DOWN, f"house drain, from chamber to {end}")


def test_a_tank_behind_what_the_rod_reaches_is_still_not_gone_into():
    """The reel may be longer than told, and whoever misses the end pushes on."""
    told = plan_of(study(DOWN.replace("public sewer", "septic tank")))
    assert told.target.part is not None
    (limit,) = [note for note in (told.routes[0].not_past,) if note is not None]
    assert (limit.name, limit.behind) == ("septic tank", True)
    assert limit.at_m == pytest.approx(50, abs=2)
    assert any(note.sight == "stop" for note in told.routes[0].sights), "so that list and card tell it"


def test_a_name_that_two_things_go_by_gives_no_part_and_no_fault():
    twice = COVER.replace("opening: chamber", "opening: sewer") + "      - pipe: 50 m\n      - end: sewer"
    assert study(twice).part is None
