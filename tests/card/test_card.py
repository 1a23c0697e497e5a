"""The route card: what must stand on it does or is counted; sizes, words and items keep their limits."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader

from advisor import demo
from advisor.card import worth
from advisor.card.content import Block, Card, Line
from advisor.card.text import COLUMNS, card_text
from advisor.paper.typeset import FONTS
from advisor.rulebase.load import RuleBase
from advisor.tables.card import SIGHTS
from advisor.tables.place import rules_dir
from tests.card.cards import DEMOS, card, made, printer
from tests.cases.jobs import rules, tables

PAPERS = ("letter", "a4", "half")
# PDF points: ISO 216 A4 and ANSI letter; a half sheet is half a letter.
SIZES = {"letter": (612, 792), "a4": (595.28, 841.89), "half": (396, 612)}


def text_of(pdf: bytes) -> str:
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages).split())


def words(text: str) -> str:
    return " ".join(text.split())


def lines(card_: Card) -> list[str]:
    told = (line for block in (*card_.stuck, *card_.blocks) for line in block.lines)
    return [text for line in told for text in (line.text, *line.steps)]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("stem", DEMOS)
def test_one_page_with_everything_on_it_or_counted(stem, paper):
    whole = card(stem)
    fitted = printer().fitted(whole, paper)
    pdf = printer().printed(fitted, None, paper, "pdf")
    reader = PdfReader(io.BytesIO(pdf))
    assert len(reader.pages) == 1
    assert (float(reader.pages[0].mediabox.width), float(reader.pages[0].mediabox.height)) == pytest.approx(
        SIZES[paper], abs=0.1
    )
    text = text_of(pdf)
    for box in whole.boxes:
        told = [words(f"{box.word}: {each}") for each in (box.text, box.short) if each]
        assert any(each in text for each in told), "what can hurt somebody never goes"
    # The half sheet is for the opening: what to bring was packed by then, and is counted as left out.
    take, *bring = whole.kit
    assert words(take) in text
    for told in bring if paper != "half" else ():
        assert words(told) in text
    for item in made(stem)[0].routes[0].bring if paper != "half" else ():
        assert item in text
    for number, what in whole.keys:
        assert number in text
        assert what in text
    rows = sum(not sight.bare for sight in fitted.sights)
    gone = len(lines(whole)) + len(whole.sights) - len(lines(fitted)) - rows
    gone += (
        len(whole.kit)
        - len(fitted.kit)
        + len(whole.minds)
        - len(fitted.minds)
        + bool(whole.strip)
        - bool(fitted.strip)
        + bool(whole.log_rows)
        - bool(fitted.log_rows)
    )
    assert fitted.left_out == whole.left_out + gone
    if fitted.left_out:
        assert f"{fitted.left_out} line{'s' * (fitted.left_out > 1)} left out" in text
    for line in lines(fitted):
        assert words(line) in text, line
    for sight in fitted.sights:
        if sight.bare:
            assert words(sight.short) in text
            continue
        assert sight.reading in text
        assert words(sight.see) in text


@pytest.mark.parametrize("stem", DEMOS)
def test_every_hard_spot_distance_and_caution_of_the_plan_is_in_the_whole_card(stem):
    plan_, _ = made(stem)
    route, told = plan_.routes[0], card_text(card(stem))
    flat = words(told)
    assert sum(sight.hard for sight in card(stem).sights) == len(route.passages)
    for note in (*plan_.cautions, *route.cautions):
        kept = words(note.text) in flat
        assert kept or card(stem).left_out, note.text
    for note in plan_.ask:
        if (short := tables().card.find_out.get(note.caution.id)) is not None:
            assert words(short) in flat
            continue
        assert words(re.split(r"(?<=[.?!])\s", note.caution.text)[0]) in flat
    for passage in route.passages:
        assert passage.name in flat


@pytest.mark.parametrize("stem", DEMOS)
def test_boxes_are_few_and_for_injury_only(stem):
    boxes = card(stem).boxes
    # ANSI Z535: danger and warning are for injury; a lost camera is a notice and never in a box.
    # What decides whether anybody pushes stands above them.
    assert {box.word for box in boxes} <= {"FIRST", "DANGER", "WARNING"}
    assert sum(box.word in ("DANGER", "WARNING") for box in boxes) <= 5
    assert sum(box.word == "WARNING" for box in boxes) <= 3
    notices = {note.text for note in made(stem)[0].routes[0].cautions if note.word == "notice"}
    assert not notices & {box.text for box in boxes}


@pytest.mark.parametrize("stem", DEMOS)
def test_blocks_are_short(stem):
    short = card(stem).limited()
    for block in (*short.stuck, *short.blocks):
        assert len(block.lines) <= 9, block.title
        assert all(len(line.steps) <= 9 for line in block.lines), block.title


def test_our_own_items_are_short_and_begin_with_what_to_do():
    own = tables().card
    for text in (*own.before_safe, *own.before, own.after_string, *own.after, *own.locating, *own.stuck):
        for sentence in re.split(r"(?<=[.?!])\s", text):
            assert len(sentence.split()) <= 12, sentence
    for sight in SIGHTS:
        assert len(own.sights[sight].missed.split()) <= 12


def long_sentences(base: RuleBase) -> list[str]:
    texts = [r.conclusion.caution.text for r in base.all_rules if r.conclusion.caution]
    texts += [step for r in base.all_rules for steps in r.conclusion.steps.values() for step in steps]
    texts += [text for r in base.all_rules for text in r.conclusion.do]
    texts += [text for kind in tables().openings.values() for text in kind.first]
    found = [s for text in texts for s in re.split(r"(?<=[.?!:])\s", text)]
    return [s for s in found if len(s.split()) > 12]


def test_no_sentence_of_a_caution_or_a_step_has_more_than_twelve_words():
    assert long_sentences(rules()) == []


@pytest.mark.parametrize("stem", DEMOS)
def test_type_is_large_enough(stem):
    pdf = printer().printed(printer().fitted(card(stem), "letter"), None, "letter", "pdf")
    sizes: set[float] = set()

    def seen(text: str, _: object, matrix: list[float], __: object, size: float) -> None:
        if text.strip():
            sizes.add(round(size * abs(matrix[3]), 1))

    for page in PdfReader(io.BytesIO(pdf)).pages:
        page.extract_text(visitor_text=seen)
    assert min(sizes) >= 12
    assert max(sizes) >= 16


def test_same_plan_same_bytes():
    one, other = (printer().printed(card(DEMOS[0]), None, "letter", form) for form in ("pdf", "pdf"))
    assert one == other


def test_every_sign_is_in_the_font():
    font = set(TTFont(FONTS / "DejaVuSansCondensed.ttf").getBestCmap())
    bold = set(TTFont(FONTS / "DejaVuSansCondensed-Bold.ttf").getBestCmap())
    texts = [path.read_text(encoding="utf-8") for path in rules_dir().rglob("*.yaml")] + [
        str(tables().card),
        "½¼¾⅛⅜⅝⅞°×–²³·–",
    ]
    texts += [card_text(card(stem)) for stem in DEMOS]
    for kind in (*tables().openings.values(), *tables().stoppers.values()):
        texts.append(str(kind))
    both = font & bold
    missing = {c for c in set("".join(texts)) if c.isprintable() and ord(c) not in both}
    assert not missing


HOSTILE = '*x* #panic("a") $y$ <svg> &amp; \\u{1} @b'


def hostile_sheet() -> str:
    text = demo.MAIN.read_text(encoding="utf-8")
    return text.replace("stack foot plug", "'" + HOSTILE.replace("'", "''") + "'").replace(
        "site: Larkspur Court, house 7", 'site: "evil \\e[2J \\u202e [bold] =1+1"'
    )


@pytest.mark.parametrize("form", ["pdf", "svg", "png"])
def test_hostile_text_prints_as_text(form):
    fitted = printer().fitted(card(hostile_sheet()), "letter")
    data = printer().printed(fitted, None, "letter", form)
    assert data
    if form == "pdf":
        text = text_of(data)
        assert HOSTILE in text
        assert "\\u001b[2J \\u202e [bold] =1+1" in text


def test_a_name_of_three_hundred_letters_is_refused_before_it_comes_here_and_eighty_fit():
    text = demo.MAIN.read_text().replace("stack foot plug", "p" * 80)
    assert (
        len(
            PdfReader(
                io.BytesIO(printer().printed(printer().fitted(card(text), "half"), None, "half", "pdf"))
            ).pages
        )
        == 1
    )


@pytest.mark.parametrize("stem", DEMOS)
def test_text_is_forty_eight_columns_of_plain_signs(stem):
    told = card_text(card(stem))
    assert all(len(line) <= COLUMNS for line in told.splitlines())
    assert told.isascii()


def test_the_back_says_what_next_and_how_the_chance_was_found():
    whole = card(DEMOS[1])
    pdf = printer().printed(printer().fitted(whole, "letter"), whole, "letter", "pdf")
    assert len(PdfReader(io.BytesIO(pdf)).pages) >= 2
    text = text_of(pdf)
    for line in (*whole.fallback, *whole.chance):
        assert words(line.text) in text
    assert whole.fallback, "this house has a second way"


def test_a_large_part_that_goes_makes_room_for_small_ones_of_less_worth():
    """The card of a technician's house stood half empty: the log had gone last, and the steps before it."""
    whole, press = replace(card(DEMOS[0]), boxes=()), printer()
    many = tuple(Line(f"Do thing number {n} and look.", worth.FIRST_STEP) for n in range(40))
    hard = next(sight for sight in whole.sights if sight.hard)
    more = (Block(f"Place {n}", "read, then do", many[n : n + 8]) for n in range(0, 40, 8))
    stuck = (*more, *whole.stuck)
    crowded = replace(whole, sights=(hard,) * 4, stuck=stuck)
    fitted = press.fitted(crowded, "letter")
    parts = crowded.parts()
    kept = {line.text for block in fitted.stuck for line in block.lines}
    assert fitted.log_rows == 0
    assert any(line.text in kept for line in many)
    # One more of the lines that went would not find room: the page is used.
    first = next(line for line in many if line.text not in kept)
    with_one = replace(fitted, stuck=(Block("More", "read", (first, *many[:3])), *fitted.stuck))
    assert press._over(with_one, "letter") > 0
    assert len(parts) > fitted.left_out > 0


def test_a_bend_that_nobody_saw_is_no_reason_to_stop():
    """The typical house put it there; a card that says `wrong pipe` would end a good push."""
    site = next(path for path in demo.ALL if path.stem == "basement-house").read_text()
    assumed = site.replace("- bend: 1/8 bend", "- bend: assumed 1/8 bend")
    told = [next(s for s in card(text, route=1).sights if s.see == "1/8 bend") for text in (site, assumed)]
    assert [sight.missed for sight in told] == ["Stop: wrong pipe or count.", "Go on. It was only assumed."]


def test_on_a_crowded_page_the_rows_to_write_in_go_before_what_to_do_and_stand_behind_it():
    """The worth of lines is our judgement: a step forgotten costs more than a row written elsewhere."""
    whole = card(DEMOS[0])
    fitted = printer().fitted(whole, "letter")
    assert (whole.log_rows, fitted.log_rows) == (8, 0)
    kept = {words(text).rstrip(":.") for text in lines(fitted)}
    heads = [x for block in whole.stuck for x in block.lines if x.worth >= worth.FIRST_STEP]
    wanted = [t for x in heads for t in (x.text, *(x.steps if x.rest_worth >= worth.FIRST_STEP else ()))]
    assert wanted
    assert [text for text in wanted if words(text).rstrip(":.") not in kept] == []
    turning = [sight.see for sight in whole.sights if sight.worth >= worth.TURNING_SIGHT]
    assert [see for see in turning if see not in {sight.see for sight in fitted.sights}] == []
    front, behind = (text_of(printer().printed(fitted, back, "letter", "pdf")) for back in (None, whole))
    assert "Tear off" not in front
    assert behind.count("Tear off") == 1
    for text in lines(whole):
        assert words(text) in behind


def test_with_room_the_rows_stay_in_front_and_without_them_none_are_printed():
    whole = card(DEMOS[0])
    roomy = replace(whole, blocks=(), sights=whole.sights[:2], stuck=(), strip="")
    press = printer()
    fitted = press.fitted(roomy, "letter")
    assert fitted.log_rows == 8
    assert text_of(press.printed(fitted, roomy, "letter", "pdf")).count("Tear off") == 1
    spoken = card(DEMOS[0], False)
    assert "Tear off" not in text_of(press.printed(press.fitted(spoken, "letter"), spoken, "letter", "pdf"))
