"""What the card's rows are called after: a plain pipe is no bend, and a tank is no end to go on behind."""

from __future__ import annotations

import re

import pytest

from advisor.archetype import archetypes, typical
from advisor.card.build import card_of
from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.site.sheet import site_of_text
from advisor.tables.place import rules_dir
from tests.cases.jobs import rules, tables


def study(change: tuple[str, str] = ("", "")) -> Study:
    building = next(b for b in archetypes(rules_dir(), tables()) if b.id == "crawl-space")
    text = typical(building, 1972)
    assert change[0] in text
    sheet = site_of_text(text.replace(*change, 1) if change[0] else text, "site", tables())
    return plan(Case(sheet, default_kit(tables()), Units.INCH, 200), tables(), rules())


def test_a_plain_pipe_that_is_hard_is_told_as_pipe():
    """Nothing turns there: the card may not say `wrong pipe` where no bend comes into view."""
    made = study()
    told = {}
    for ranked, route in zip(made.ranked, plan_of(made).routes, strict=False):
        for number, spot in enumerate(ranked.outcome.spots):
            plain = spot.passage.step is None and spot.passage.piece.kind in ("pipe", "mark")
            (note,) = (each for each in route.sights if each.hard == number)
            if plain and note.sight not in ("other pipe", "roots"):
                told[note.name] = note.sight
    assert told
    assert set(told.values()) == {"pipe"}


def test_what_the_drain_ends_in_is_gone_up_to_slowly():
    """A septic tank: stop at its baffle (our table of stoppers); the line is not merely longer."""
    made = plan_of(study(("- end: public sewer", "- end: septic tank")))
    card = card_of(made, made.routes[0], tables().card, Units.INCH, "2026-11-25", True)
    assert [note.sight for note in made.routes[0].sights][-1] == "stop"
    (limit,) = (each for each in card.sights if "not past here" in each.see.lower())
    assert not re.search("go on|go slowly", limit.missed, re.IGNORECASE)
    behind = card.sights[card.sights.index(limit) + 1 :]
    assert all(each.missed.startswith("Stop") for each in behind), "where the tank may lie, nobody goes on"
    marks = [line.text for block in card.blocks for line in block.lines if line.text.startswith("Mark ")]
    places = [text.partition(":")[0] for text in marks]
    assert any("septic tank" in text for text in marks)
    assert sorted(set(places)) == sorted(places), "one mark at a place"


def test_the_gravest_of_what_nobody_has_said_comes_first():
    """ANSI Z535.4: danger before warning, warning before caution, and a notice is no hazard.

    Before all of them what decides whether anybody pushes at all: gas, what was poured in, a full line.
    """
    asked = plan_of(study()).ask
    decide = [note.caution.id for note in asked if note.decides]
    assert set(decide) == {"gas-smell", "chemicals", "holding-line"}
    assert [note.caution.id for note in asked][: len(decide)] == decide
    words = [note.caution.word for note in asked if not note.decides]
    rank = {"danger": 0, "warning": 1, "caution": 2, "notice": 3}
    assert len(set(words)) > 1
    assert words == sorted(words, key=rank.__getitem__)


# -- how deep a mark lies ----------------------------------------------------------------------------

CLEANOUT = """
site: a yard
region: north america
lines:
  - line: house drain
    kind: sewer
    size: 4 in
    material: clay
    condition: sound
    pieces:
      - opening: yard cleanout
        kind: yard cleanout
        depth: 2 ft
      - pipe: {run} ft
      - bend: 1/8 bend
      - pipe: 40 ft
      - end: public sewer
task:
  look at: house drain
"""
FOOT = 0.3048


def depths(run: int, slope: str = "") -> dict[str, tuple[float | None, bool]]:
    text = CLEANOUT.format(run=run).replace("    size: 4 in\n", f"    size: 4 in\n{slope}")
    sheet = site_of_text(text, "site", tables())
    made = plan(Case(sheet, default_kit(tables()), Units.INCH, 100), tables(), rules())
    sights = plan_of(made).routes[0].sights
    return {note.sight: (note.depth_m, note.depth_measured) for note in sights}


def test_a_depth_is_told_a_short_way_on_an_assumed_slope_and_not_far():
    """2 ft and 10 ft at the 1/8 in per ft that IPC table 704.1 asks at least: 2 ft 1-1/4 in. At twice that
    slope it is the same again deeper, which 60 ft of pipe make 7-1/2 in: too much to dig by."""
    near = depths(10)["bend"]
    assert near[0] == pytest.approx((2 + 10 / 96) * FOOT)
    assert near[1] is False
    assert depths(60)["bend"] == (None, False)
    told = depths(60, "    slope: 1/4 in per ft\n")["bend"]
    assert told[0] == pytest.approx((2 + 60 / 48) * FOOT)
    assert told[1] is True


@pytest.mark.parametrize("slope", ["", "    slope: 1/4 in per ft\n"])
def test_the_main_that_the_drain_ends_in_is_told_no_depth(slope):
    """A lateral may drop into its main from far above: mains lie deeper than yard drains."""
    assert depths(5, slope)["drain end"] == (None, False)
