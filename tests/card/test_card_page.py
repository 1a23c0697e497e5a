"""The page as printed: what is typed stays as typed, no letter touches a rule, numbers stand on a line."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.content import Card, Line
from advisor.card.text import card_text
from advisor.paper.typeset import FONTS
from advisor.result.model import Plan, SightNote
from tests.card.cards import DATE, DEMOS, card, made, printer
from tests.card.test_techniques import pages
from tests.cases.jobs import tables

FONT = TTFont(FONTS / "DejaVuSansCondensed-Bold.ttf")
EM = FONT["head"].unitsPerEm
# Of the size, from the font's own tables: how far a letter reaches below and above the line.
DESCENT = -FONT["hhea"].descent / EM
CAPITAL = FONT["glyf"]["H"].yMax / EM


def front(card_: Card, paper: str = "letter", back: Card | None = None) -> str:
    pdf = printer().printed(printer().fitted(card_, paper), back, paper, "pdf")
    return " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())


@pytest.mark.parametrize("paper", ["letter", "half"])
def test_an_option_is_printed_as_it_is_typed(paper):
    assert "print with --back." in front(card(DEMOS[0]), paper)
    dashed = replace(card(DEMOS[0]), first="Use --force, 3 -- 4.")
    assert "Use --force, 3 -- 4." in front(dashed, paper)


@pytest.mark.parametrize("paper", [pytest.param("letter", marks=pytest.mark.slow), "half"])
@pytest.mark.parametrize("stem", DEMOS)
def test_what_the_plan_says_to_mind_of_the_way_stands_with_the_numbers(stem, paper):
    mind = "The hand works 2 ft from the opening."
    plan_, units = made(stem)
    route = plan_.routes[0].model_copy(update={"difficulty": (mind,)})
    whole = card_of(plan_, route, tables().card, units, DATE, True)
    numbers, told, rest = front(whole, paper).partition(f"Mind: {mind}")
    if paper == "half" and not told:  # for want of room: what to try where it is held goes after it
        assert mind in pages(printer().printed(printer().fitted(whole, paper), whole, paper, "pdf"))[1]
        return
    assert "never pull more" in numbers
    assert "never pull more" not in rest
    assert "IF STUCK" not in numbers
    before, _, after = " ".join(card_text(whole).split()).partition(f"Mind: {mind}")
    assert "never pull more" in before
    assert "ROUTE (COUNTER READING)" in after


def at_the_opening() -> tuple[Plan, Card]:
    """The demo's first hard spot, put within the opening itself."""
    plan_, units = made(DEMOS[0])
    zero = {"at_m": 0.0, "at_low_m": 0.0, "at_high_m": 0.0}
    first = plan_.routes[0]
    spot = first.passages[0].model_copy(update=zero)
    sights = tuple(s.model_copy(update=zero) if s.hard == 0 else s for s in first.sights)
    route = first.model_copy(update={"passages": (spot, *first.passages[1:]), "sights": sights})
    moved = plan_.model_copy(update={"routes": (route, *plan_.routes[1:])})
    return moved, card_of(moved, route, tables().card, units, DATE, True)


def test_a_spot_within_the_opening_is_told_to_be_there():
    plan_, whole = at_the_opening()
    spot = next(sight for sight in whole.sights if sight.hard)
    assert (spot.reading, spot.span) == ("at the opening", "")
    assert "wrong pipe" not in spot.missed
    assert whole.stuck[0].title == f"At the opening: {plan_.routes[0].passages[0].name}"
    told = (card_text(whole), front(whole), whole.strip, whole.strip_words, *(x.text for x in whole.chance))
    assert not [text for text in told if "0 in" in text.replace("10 in", "")]
    assert "at the opening: " in card_text(whole)
    later = next(sight for sight in card(DEMOS[0]).sights if sight.hard)
    assert "wrong pipe" in later.missed


def drawn(stem: str, paper: str) -> tuple[list[tuple[float, float, float, str]], list[float]]:
    """Texts as (x, baseline, size, words) and the heights of level lines across the page, in points."""
    pdf = printer().printed(printer().fitted(card(stem), paper), None, paper, "pdf")
    page = PdfReader(io.BytesIO(pdf)).pages[0]
    texts: list[tuple[float, float, float, str]] = []
    rules: list[float] = []
    start: list[float] = []

    def at(cm: list[float], tm: list[float]) -> tuple[float, float]:
        x, y = tm[4], tm[5]
        return cm[0] * x + cm[2] * y + cm[4], cm[1] * x + cm[3] * y + cm[5]

    def seen(words: str, cm: list[float], tm: list[float], _: object, size: float) -> None:
        if words.strip():
            texts.append((*at(cm, tm), size, words.strip()))

    def before(operator: bytes, operands: list[float], cm: list[float], _: object) -> None:
        if operator == b"m":
            start[:] = [float(each) for each in operands]
        elif operator == b"l" and start:
            ends = [at(cm, [0, 0, 0, 0, *xy]) for xy in (start, [float(each) for each in operands])]
            if abs(ends[0][1] - ends[1][1]) < 0.1 and abs(ends[0][0] - ends[1][0]) > 40:
                rules.append(ends[0][1])

    page.extract_text(visitor_text=seen, visitor_operand_before=before)
    return texts, rules


@pytest.mark.parametrize("paper", ["letter", pytest.param("a4", marks=pytest.mark.slow)])
@pytest.mark.parametrize("stem", DEMOS)
def test_no_letter_of_the_route_touches_a_rule(stem, paper):
    texts, rules = drawn(stem, paper)
    top = next(y for _, y, _, words in texts if words.startswith("ROUTE"))
    table = [y for y in rules if y < top]
    assert len(table) >= 3
    inside = [(y, size, words) for _, y, size, words in texts if min(table) < y < top - 1]
    assert inside
    for y, size, words in inside:
        near = [rule - y for rule in table if -DESCENT * size - 0.5 < rule - y < CAPITAL * size + 0.5]
        assert not near, (words, near)


@pytest.mark.parametrize("stem", DEMOS)
def test_what_stands_beside_a_key_number_stands_on_its_line(stem):
    texts, _ = drawn(stem, "letter")
    top = next(y for _, y, _, words in texts if words.startswith("ROUTE"))
    keys = [(y, words) for _, y, size, words in texts if y < top and size >= 16]
    assert keys
    for key, words in keys:
        beside = [y for _, y, size, _ in texts if size < 16 and abs(y - key) < 6]
        assert beside, words
        assert all(y == pytest.approx(key, abs=0.1) for y in beside), words


@pytest.mark.parametrize("paper", ["letter", pytest.param("half", marks=pytest.mark.slow)])
def test_guessing_finds_what_trying_one_after_the_other_finds(paper):
    press = printer()
    whole = card(DEMOS[1]).limited()
    parts = whole.parts()

    def one_page(many: int) -> bool:
        pdf = press.printed(whole.without(parts[:many]), None, paper, "pdf")
        return len(PdfReader(io.BytesIO(pdf)).pages) == 1

    plain = next(many for many in range(len(parts) + 1) if one_page(many))
    assert plain > 0
    assert press._least(whole, [], parts, paper, 0, press._over(whole, paper)) == plain


@pytest.mark.parametrize("paper", ["half", "letter", "a4"])
def test_whether_it_gets_there_stands_in_front(paper):
    """A technician in a hurry looks there for it: the first hard place alone does not tell it."""
    plan_, _ = made(DEMOS[0])
    assert f"public sewer, {plan_.chance_words.say(plan_.routes[0].chance)}." in front(card(DEMOS[0]), paper)


def test_it_goes_before_a_hard_place_does():
    whole = card(DEMOS[0])
    gone = next(n for n in range(len(whole.parts())) if not whole.without(whole.parts()[: n + 1]).gets_there)
    rows = [sight.short for sight in whole.without(whole.parts()[: gone + 1]).sights if sight.hard]
    assert rows == [sight.short for sight in whole.sights if sight.hard]
    assert "likely (" in card_text(whole).partition("Take:")[0]


def _lesser(line: Line) -> Line:
    """A warning that is to be asked about, as if it were less than a warning."""
    return replace(line, worth=worth.ASK) if line.worth == worth.WARNING_ASKED else line


def test_what_fits_into_the_shorter_column_stands_there_though_better_found_no_room():
    """Rows of the route are as wide as the page; a question goes into a column that has room below it."""
    plain = replace(card(DEMOS[0]), boxes=())  # of a house where all that hurts is ruled out
    lists = tuple(block for block in plain.blocks if block.title != "Before")  # that is worth more than rows
    plain = replace(plain, blocks=lists, stuck=tuple(b for b in plain.stuck if "not open" not in b.title))
    lists = tuple(replace(block, lines=tuple(map(_lesser, block.lines))) for block in plain.blocks)
    plain = replace(plain, blocks=lists)
    easy = next(sight for sight in plain.sights if sight.worth == worth.EASY_SIGHT)
    more = tuple(replace(easy, reading=f"{at} ft") for at in range(60, 68))
    whole = replace(plain, sights=(*plain.sights, *more))
    fitted = printer().fitted(whole, "letter")
    gone = [sight.worth for sight in whole.sights if sight not in fitted.sights]
    kept = [x.worth for block in fitted.blocks for x in block.lines]
    assert worth.ASK in kept
    assert gone
    assert min(gone) > worth.ASK


def test_the_steps_of_a_guide_stand_in_front_on_every_paper():
    """A guide goes on before the head goes in: its steps are read first, though much has to be asked too."""
    whole = card("slab-house")
    (guide,) = (x for block in whole.stuck for x in block.lines if x.text.startswith("Guide"))
    anywhere = next(block for block in whole.stuck if block.title == "Stuck anywhere else")
    assert len(guide.steps) >= 4
    assert whole.boxes[0].word == "FIRST"
    assert len([block for block in whole.stuck if block.spot]) > 1, "and it passes a later spot"
    for paper in ("letter", "a4"):
        told = front(whole, paper)
        assert [step for step in (*guide.steps, *(x.text for x in anywhere.lines)) if step not in told] == []


def test_what_begins_at_a_spot_shares_its_row():
    plan_, _ = made("slab-house")
    notes = plan_.routes[0].sights
    begins = next(i for i, note in enumerate(notes) if note.sight == "target")
    assert notes[begins].at_m == notes[begins - 1].at_m
    rows = card("slab-house").sights
    assert len(rows) == len(notes) - 1
    (row,) = (row for row in rows if "see from here" in row.see)
    assert row.hard
    assert "the rim" in row.do
    assert plan_.routes[0].passages[notes[begins - 1].hard].name in row.see


@pytest.mark.parametrize("sight", ["target", "into branch"])
def test_a_mouth_stays_on_the_card_as_long_as_the_one_that_is_looked_for_behind_it(sight):
    """The first hole that came was taken for the second, as a full card had left out the first."""
    plan_, units = made("slab-house")
    plain = {"hard": None, "assumed": False, "side": "left", "behind": False}

    def met(at: float, seen: str, name: str) -> SightNote:
        span = {"at_m": at, "at_low_m": at - 0.5, "at_high_m": at + 0.5}
        return plan_.routes[0].sights[0].model_copy(update={**plain, **span, "sight": seen, "name": name})

    looked_for = [met(9, "joins", "other riser"), met(9, sight, "main")]
    sights = (met(2, "joins", "riser"), *looked_for[sight == "into branch" :], met(15, "joins", "last"))
    route = plan_.routes[0].model_copy(update={"sights": sights})
    whole = card_of(plan_, route, tables().card, units, DATE, True)
    first, second, last = whole.sights
    for paper in (whole, whole.short()):
        kept = paper.without([part for part in paper.parts() if part[0] < worth.TURNING_SIGHT]).sights
        assert [row.short for row in kept] == [first.short, second.short]
    assert last.worth < first.worth <= second.worth


def test_both_ends_of_a_range_are_told_in_one_unit():
    """A counter counts in one: 1 ft 5-5/8 in is 17.625 in, and over 12 in a foot 1.47 ft."""
    told = [sight.span for stem in DEMOS for sight in card(stem).sights if sight.span]
    assert told
    assert [
        span for span in told if len({w for w in span.split() if w in ("in", "ft", "mm", "m")}) != 1
    ] == []
    plan_, units = made("slab-house")
    low, high = 17.625 * 0.0254, 3.8 * 0.3048
    moved = plan_.routes[0].sights[0].model_copy(update={"at_low_m": low, "at_high_m": high})
    route = plan_.routes[0].model_copy(update={"sights": (moved, *plan_.routes[0].sights[1:])})
    assert card_of(plan_, route, tables().card, units, DATE, True).sights[0].span == "1.5 to 3.8 ft"
