"""What can hurt stands on every paper, in few words where there is no room; so does what is to be seen."""

from __future__ import annotations

import io
from types import SimpleNamespace

import pytest
from pypdf import PdfReader

from advisor.card.build import card_of
from advisor.card.content import KEPT, Card
from advisor.card.hazards import Hazards
from advisor.quantity import Units
from advisor.result.model import CautionNote, TechniqueNote
from tests.card.cards import DATE, DEMOS, card, made, printer
from tests.card.test_half_sheet import CROWDED
from tests.cases.jobs import rules, tables
from tests.result.test_not_past import ROW, TRAP, plan_text

FOLDS = (
    "Counter runs and the picture stands? Stop. Draw back until the picture moves. Pushing on ties a knot."
)


def front(whole: Card, paper: str) -> str:
    pdf = printer().printed(printer().fitted(whole, paper), None, paper, "pdf")
    (page,) = PdfReader(io.BytesIO(pdf)).pages
    return " ".join(page.extract_text().split())


def changed(first: dict[str, object], second: dict[str, object]) -> Card:
    """A card of which two hard places are told otherwise."""
    plan, units = made("slab-house")
    one, two, *rest = plan.routes[0].passages
    passages = (one.model_copy(update=first), two.model_copy(update=second), *rest)
    route = plan.routes[0].model_copy(update={"passages": passages})
    return card_of(plan, route, tables().card, units, DATE, False)


def test_every_caution_has_its_few_words():
    """Fewer than its text; what is told at its place in the route has them too."""
    cautions = [rule.conclusion.caution for rule in rules().all_rules if rule.conclusion.caution is not None]
    heeded = tables().card.in_the_row
    for caution in cautions:
        assert len(caution.short) < len(caution.text)
        assert caution.short or (caution.word != "caution" and caution.id not in heeded), caution.id


@pytest.mark.parametrize("paper", ["half", "a4"])
def test_what_can_hurt_stands_on_every_paper(paper):
    """Water held off, mains and sewage; a half sheet of a British row with a trap and a chamber."""
    plan = plan_text(ROW.replace("BEHIND", TRAP))
    whole = card_of(plan, plan.routes[0], tables().card, Units.METRIC, DATE, False)
    told = front(whole, paper)
    assert "Hold off all water users." in told
    told_of = (*plan.cautions, *plan.routes[0].cautions)
    cautions = {note.id: note for note in told_of if note.word == "caution"}
    assert {"electricity", "sewage"} <= set(cautions)
    for note in cautions.values():
        assert note.short in told or note.text in told
    for number, what in whole.keys:
        assert f"{what} {number}" in told


@pytest.mark.parametrize("stem", DEMOS)
def test_what_is_to_be_seen_never_goes_from_the_route(stem):
    whole = card(stem)
    ways = [sight.see for sight in whole.sights if sight.see.startswith(("the end: ", "NOT PAST"))]
    ways += [sight.see for sight in whole.sights if "see from here" in sight.see]
    assert ways
    for shorter in (whole, whole.short()):
        bare = shorter.without(shorter.parts())
        assert sorted(sight.see for sight in bare.sights if sight.see in ways) == sorted(ways)
        assert all("See from here" in s.heed for s in bare.sights if s.see.endswith("see from here"))


def test_what_can_hurt_at_a_place_is_told_there_once_in_full_then_in_few_words():
    note = CautionNote(id="folded-head", word="notice", text=FOLDS, short="Stop, back, or it knots.")
    whole = changed({"here": (note,)}, {"here": (note,)})
    rows = [sight for sight in whole.sights if sight.hard]
    assert rows[0].do.startswith(FOLDS)
    assert rows[1].do.startswith(note.short)
    assert all(note.short in row.heed for row in rows[:2])
    assert note.short in front(whole, "half")
    assert not any(FOLDS in line.text for block in whole.blocks for line in block.lines)


def test_what_no_try_is_worth_is_no_try_on_the_card():
    """Water under 1 % that a rule asks for, since it tells which way is down."""
    water = TechniqueNote(
        name="water",
        verdict="required",
        chance=0.004,
        tries=0,
        because="Running water tells which way is down.",
        steps=("Run one tap above, a little.",),
        rules=("water-tells-the-way",),
    )
    whole = changed({"techniques": (water,)}, {})
    row = next(sight for sight in whole.sights if sight.hard)
    assert "water" not in row.do
    line = next(line for line in whole.stuck[0].lines if line.text.startswith("Water"))
    assert line.text == "Water"
    assert line.steps == (water.because, *water.steps)


def test_of_two_hard_places_the_easier_goes_first():
    """Where one finds no room it is not the one at which more pushes end."""
    whole = card(CROWDED).short()
    hard = [sight for sight in whole.sights if sight.hard and sight.worth < KEPT]
    assert len({sight.ease for sight in hard}) > 2
    went: list[float] = []
    for many in range(len(whole.parts()) + 1):
        left = {(sight.reading, sight.see) for sight in whole.without(whole.parts()[:many]).sights}
        gone = [sight.ease for sight in hard if (sight.reading, sight.see) not in left]
        went += [ease for ease in gone if ease not in went]
    assert went == sorted((sight.ease for sight in hard), reverse=True)


def test_where_the_rest_of_the_words_must_go_a_lesser_hazard_gives_up_its_own_first():
    """The order of the signal words: danger, warning, caution, notice (ANSI Z535.4, from memory)."""
    words = ("danger", "warning", "caution", "notice")
    notes = [
        CautionNote(id=f"{word} {n}", word=word, text=f"{word} {n}. And more of it.", short=f"{word} {n}")
        for word in words
        for n in range(5)  # more than find room in the boxes
    ]
    _, mind = Hazards(SimpleNamespace(region="america"), notes, (), tables().card, pushes=False).blocks()
    rest = {
        word: [line.rest_worth for line in mind.lines if line.text.lower().startswith(word)] for word in words
    }
    assert min(rest["danger"] + rest["warning"]) > max(rest["caution"] + rest["notice"])
