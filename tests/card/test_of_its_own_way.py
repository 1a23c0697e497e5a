"""A card speaks of the way that it is for: no mark above ground upstairs, nothing assumed elsewhere."""

from __future__ import annotations

from advisor.card.content import Card
from advisor.result.told import assumed_near
from tests.card.cards import card, made

# An invented house: a toilet upstairs on a branch of its own, a cleanout in the yard; nothing was measured.
HOUSE = """
site: invented house
region: north america
built: 1931
map: guess
lines:
  - line: house drain
    kind: drain
    pieces:
      - opening: cleanout
        kind: wall cleanout
      - pipe: assumed 2 to 4 m
      - joined by: main stack
        fitting: wye
      - pipe: assumed 8 to 12 m
      - end: public sewer
  - line: main stack
    kind: stack
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: assumed 2 to 3 m
      - joined by: upper branch
        fitting: sanitary tee
      - drop: assumed 2 to 3 m
      - bend: long sweep
      - pipe: assumed 1 to 2 m
  - line: upper branch
    kind: branch
    pieces:
      - opening: upstairs toilet
        kind: toilet flange
      - bend: closet bend
      - pipe: assumed 2 to 4 m
      - joined by: bath branch
        fitting: wye
      - pipe: assumed 0.5 to 1 m
  - line: bath branch
    kind: branch
    pieces:
      - fixture: bath
      - pipe: assumed 1 to 2 m
task:
  look at: LOOK
  complaint: {holding: no, chemicals: no, gas smell: no}
"""
UPSTAIRS = HOUSE.replace("LOOK", "upper branch, from upstairs toilet to bath branch")
DRAIN = HOUSE.replace("LOOK", "house drain, from main stack to public sewer")


def block(of: Card, title: str) -> list[str]:
    return [line.text for each in of.blocks if each.title == title for line in each.lines]


def by(text: str, opening: str) -> Card:
    number = next(i for i, each in enumerate(made(text)[0].routes) if each.opening == opening)
    return card(text, route=number)


def test_nobody_marks_above_ground_what_hangs_upstairs():
    """Nor is anybody told to call before digging there."""
    assert not block(by(UPSTAIRS, "upstairs toilet"), "Marking it above ground")
    below = block(by(DRAIN, "cleanout"), "Marking it above ground")
    assert any(text.startswith("Mark ") for text in below)
    assert any("Call before you dig" in text for text in below)


def test_on_the_way_down_only_what_lies_under_ground_is_marked():
    marks = block(by(DRAIN, "upstairs toilet"), "Marking it above ground")
    assert marks
    assert not any("closet bend" in text or "bath branch" in text for text in marks)


def test_what_was_assumed_is_of_the_way_of_the_card():
    plan, _ = made(UPSTAIRS)
    told = block(by(UPSTAIRS, "upstairs toilet"), "Assumed, not seen")
    assert any("upper branch" in text for text in told)
    assert not any("house drain" in text for text in told)
    route = next(each for each in plan.routes if each.opening == "upstairs toilet")
    assert [f"{note.about}: {note.taken}" for note in assumed_near(plan, route)] == told
