"""What to try at a hard spot: a technique stands with all its steps or with none, and says which."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from advisor.card import worth
from advisor.card.build import card_of
from advisor.card.content import Block, Card, Line
from advisor.card.text import card_text
from tests.card.cards import DATE, DEMOS, card, made, printer
from tests.cases.jobs import tables


def pages(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(pdf)).pages]


def techniques(card_: Card) -> dict[tuple[str, str], Line]:
    return {(b.title, x.text): x for b in card_.stuck for x in b.lines if x.steps or x.steps_left}


def items(card_: Card) -> int:
    """Every line, step, remark, row, drawing and log that a reader could count."""
    listed = [x for b in (*card_.stuck, *card_.blocks) for x in b.lines]
    return (
        sum(1 + len(x.steps) for x in listed)
        + (len(card_.kit) + len(card_.minds) + sum(not sight.bare for sight in card_.sights))
        + (card_.strip != "")
        + (card_.log_rows > 0)
    )


@pytest.mark.parametrize("stem", DEMOS)
def test_however_much_goes_no_technique_is_told_in_part(stem):
    whole = card(stem)
    all_ = {key: line.steps for key, line in techniques(whole).items()}
    for shorter in (whole, whole.limited(), whole.short()):
        parts = shorter.parts()
        for many in range(len(parts) + 1):
            left = shorter.without(parts[:many])
            for key, line in techniques(left).items():
                assert (line.steps, line.steps_left) in ((all_[key], False), ((), True))
            assert left.left_out == items(whole) - items(left)


def test_a_list_that_is_too_long_loses_the_steps_of_its_later_technique_together():
    """Seven steps and four more with their names: the four go as one, and are counted as four."""
    first = Line("Turn it", worth.STUCK_HEAD, True, tuple(f"Turn {n}." for n in range(7)), worth.FIRST_STEP)
    later = Line("Push it", worth.STUCK_HEAD, True, tuple(f"Push {n}." for n in range(4)), worth.LATER_STEP)
    leave = Line("One try, then stop.", worth.STUCK_HEAD, True)
    whole = replace(card(DEMOS[0]), stuck=(Block("Here", "", (first, later, leave), True),), blocks=())
    few = whole.limited()
    assert [(x.text, len(x.steps), x.steps_left) for x in few.stuck[0].lines] == [
        ("Turn it", 7, False),
        ("Push it", 0, True),
        ("One try, then stop.", 0, False),
    ]
    assert few.left_out == 4
    told = card_text(whole)
    assert "- Turn it:\n  - Turn 0." in told
    assert "- Push it: steps on the plan.\n- One try" in told
    front, behind = (
        pages(printer().printed(printer().fitted(whole, "letter"), back, "letter", "pdf"))
        for back in (None, whole)
    )
    assert "Push it: steps on the plan." in front[0]
    assert "Push it: steps behind." in behind[0]
    rest = " ".join(behind[1:])
    assert all(step in rest for step in (*first.steps, *later.steps))


@pytest.mark.parametrize("stem", DEMOS)
def test_what_finds_no_room_in_front_is_whole_behind(stem):
    whole = card(stem)
    behind = " ".join(pages(printer().printed(printer().fitted(whole, "half"), whole, "half", "pdf"))[1:])
    for block in (*whole.stuck, *whole.blocks):
        for line in block.lines:
            for text in (line.text, *line.steps):
                assert " ".join(text.split()) in behind


@pytest.mark.parametrize("stem", DEMOS)
def test_a_half_sheet_names_every_hard_spot_and_with_room_what_to_try_and_when_to_leave(stem):
    """Where nothing is left to ask and to mind: what can hurt has the first room."""
    plan_, _ = made(stem)
    whole = card(stem)
    quiet = replace(whole, boxes=whole.boxes[1:], blocks=())
    front, told = (
        pages(printer().printed(printer().fitted(each, "half"), None, "half", "pdf"))[0]
        for each in (whole, quiet)
    )
    assert "Not told here" not in front
    spots = [block for block in whole.stuck if block.spot]
    assert len(spots) == len(plan_.routes[0].passages)
    for block in spots:
        assert block.title in front
        for line in block.lines:
            assert line.text in told or line.worth < worth.STUCK_HEAD, line
    leaves = [x for a in plan_.attempts if a.opening == plan_.routes[0].opening for x in a.leave]
    assert all(leave.say()[1:] in told for leave in leaves)


def test_two_spots_that_read_alike_are_two():
    """Two bends so near to each other that their readings are the same: none goes for the other."""
    plan_, units = made("slab-house")
    first, *rest = plan_.routes[0].passages
    route = plan_.routes[0].model_copy(update={"passages": (first, *rest, first)})
    spots = [x for x in card_of(plan_, route, tables().card, units, DATE, True).stuck if x.spot]
    assert len(spots) == len(rest) + 2
    assert spots[0] == spots[-1]


def test_a_hard_spot_that_finds_no_room_is_named():
    """Eight spots of five names, forty rows and more, are not all to be had on half a sheet."""
    whole = card(DEMOS[0])
    names = tuple(Line(f"Try way number {n}, twice at most.", worth.STUCK_HEAD, True) for n in range(5))
    spots = tuple(Block(f"Spot {n}", "", names, True) for n in range(8))
    fitted = printer().fitted(replace(whole, blocks=(), stuck=spots), "half")
    (front,) = pages(printer().printed(fitted, None, "half", "pdf"))
    kept = [block for block in fitted.stuck if block.lines]
    assert 0 < len(kept) < 8
    assert all(len(block.lines) == 5 for block in kept), "with all that it has to say, or not at all"
    told, _, named = front.partition("Not told here:")
    for block in fitted.stuck:
        assert (block.title in named, block.title in told) == (not block.lines, bool(block.lines))


def test_only_where_a_string_is_on_the_head_is_it_let_go_after():
    for stem in DEMOS:
        whole = card(stem)
        has = any(kit.startswith("Take:") and "string" in kit for kit in whole.kit)
        after = next(block for block in whole.blocks if block.title == "After")
        assert any("string" in line.text for line in after.lines) == has
    assert {any("string" in kit for kit in card(stem).kit) for stem in DEMOS} == {True, False}
