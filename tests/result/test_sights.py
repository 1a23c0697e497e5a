"""What the card's rows are called after: a plain pipe is no bend, and a tank is no end to go on behind."""

from __future__ import annotations

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
            if plain and note.sight != "other pipe":
                told[note.name] = note.sight
    assert told
    assert set(told.values()) == {"pipe"}


def test_what_the_drain_ends_in_is_gone_up_to_slowly():
    """A septic tank: stop at its baffle (our table of stoppers); the line is not merely longer."""
    made = plan_of(study(("- end: public sewer", "- end: septic tank")))
    card = card_of(made, made.routes[0], tables().card, Units.INCH, "2026-11-25", True)
    assert [note.sight for note in made.routes[0].sights][-1] == "stop"
    assert card.sights[-1].missed == "Go slowly. It is ahead."
    marks = [line.text for block in card.blocks for line in block.lines if line.text.startswith("Mark ")]
    places = [text.partition(":")[0] for text in marks]
    assert any("septic tank" in text for text in marks)
    assert sorted(set(places)) == sorted(places), "one mark at a place"


def test_the_gravest_of_what_nobody_has_said_comes_first():
    """ANSI Z535.4: danger before warning, warning before caution, and a notice is no hazard."""
    words = [note.caution.word for note in plan_of(study()).ask]
    rank = {"danger": 0, "warning": 1, "caution": 2, "notice": 3}
    assert len(set(words)) > 1
    assert words == sorted(words, key=rank.__getitem__)
