"""Which hard place holds the head, and what is not tried while that is open.

From a trial: a street drain of old clay, roots seen to hold the head in the run that the card
marks for roots; a rim in that run, where the card says not to turn the rod; a head in the throat of a
cleanout tee, the direction not told. What the plan forbids at a place is not tried as long as it may be it.
"""

from __future__ import annotations

import pytest

from advisor.push.disagree import disagree
from advisor.push.held.all_the_same import all_the_same
from advisor.push.held.stuck import Stuck
from advisor.push.held_now import held_now, may_be_at
from advisor.push.log.kinds import PASSED, SIGHTING, STOPPED, TRY
from advisor.push.now.now import Now
from advisor.result.spots import passage_note
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from advisor.terminal.push.stuck import show_stuck
from tests.terminal.test_now_shown import pushed

CLAY = """
site: invented
region: britain
built: 1905
map: guess
lines:
  - line: rear drain
    size: 100 mm
    material: clay
    pieces:
      - pipe: 3.5 m
      - opening: yard chamber
        kind: inspection chamber
      - pipe: 5 to 14 m
      - opening: front chamber
        kind: inspection chamber
        depth: 1 m
      - pipe: 5 m
      - end: public sewer
task: {look at: "rear drain, from yard chamber to front chamber", complaint: {holding: no, chemicals: no}}
"""
FERN = """
site: invented
region: north america
built: 1998
map: guess
lines:
  - line: kitchen line
    kind: branch
    size: 2 in
    material: pvc
    pieces:
      - fixture: kitchen sink
      - pipe: 1 to 3 ft
      - bend: unknown
      - drop: 1 to 2 ft
      - opening: wall plug
        kind: wall cleanout
      - drop: 1 to 4 ft
      - bend: unknown
      - pipe: 6 to 20 ft
      - end: public sewer
task: {look at: kitchen line, complaint: {holding: no, chemicals: no}}
"""
ROOTED = CLAY.replace("material: clay", "material: clay\n    condition: roots")
ROOTS = {"sign": "blocked, roots", "feel": "soft"}
RIM = {"sign": "rim ahead"}


def in_clay(*told, text: str = CLAY) -> Now:
    """Pushed upstream from the front chamber."""
    return pushed(text, "front chamber", (SIGHTING, 2.1, {"what": "nothing"}), *told, direction="upstream")


def found(now: Now) -> Stuck:
    held = held_now(now)
    assert held is not None
    return held


def forbidden_by_plan(now: Now, name: str) -> set[str]:
    """What the plan itself rejects at a spot by this name."""
    met = next(met for met in now.push.course.spots if met.name == name)
    notes = passage_note(met.hard, met.outcome, now.push.study.reader).techniques
    return {note.name for note in notes if note.verdict == "rejected"}


def test_roots_seen_to_hold_it_in_the_run_of_the_card_hold_it_at_that_place():
    now = in_clay((STOPPED, 6.0, ROOTS))
    assert found(now).spot == "roots in rear drain"
    assert "It is held where the plan has no hard place." not in disagree(now)


@pytest.mark.parametrize("signs", [RIM, {"feel": "soft"}])
def test_nothing_seen_of_roots_does_not_make_the_run_hold_it(signs):
    assert found(in_clay((STOPPED, 6.0, signs))).spot == ""


def test_a_run_that_the_card_marks_is_named_and_what_it_forbids_is_not_tried_there(capsys):
    now = in_clay((STOPPED, 6.0, RIM), text=ROOTED)
    held = found(now)
    assert "turn the rod" in forbidden_by_plan(now, "roots in rear drain")
    assert "turn the rod" not in [each.technique for each in held.tries]
    assert dict(held.not_now)["turn the rod"].endswith("Turning winds the roots round spring and rod.")
    show_stuck(held, now, Page())
    said = capsys.readouterr().out
    assert "HELD AT A RIM OR STEP, IN THE RUN MARKED FOR ROOTS IN REAR DRAIN" in said
    assert "no hard place" not in said.lower()


def test_the_run_is_told_from_a_metre_before_it_and_all_along_it(capsys):
    """The card marks it as a hard place; what to do among roots is the plan's own, six steps of it."""

    def said(now: Now) -> str:
        show_now(now, Page())
        return " ".join(capsys.readouterr().out.replace("│", " ").split())

    first = said(pushed(CLAY, "front chamber", direction="upstream"))
    assert "HARD PLACE" in first
    assert "Slow. Roots in rear drain, counter" in first
    assert "Never ram it, never lean on it." in first
    for within in (in_clay(), in_clay((SIGHTING, 4.0, {"what": "nothing"}))):
        told = said(within)
        assert "Roots may stand at any joint here, to" in told
        assert "Go slowly, look before you are in one. Not turn the rod and not quick push." in told


@pytest.mark.parametrize(
    ("technique", "force", "told"),
    [
        ("turn the rod", False, "Turning winds the roots round spring and rod."),
        ("water", False, None),
        ("water", True, "it can shut a broken pipe"),
        ("water", True, None),
    ],
)
def test_what_was_tried_against_the_advice_is_told_with_what_it_may_have_cost(technique, force, told):
    """Soil came back from that drain: the warning is that no hard push is made there."""
    came_back = "roots" if told is None else "soil or pipe"
    sheet = ROOTED.replace("complaint:", f"history: {{came back: [{came_back}]}}, complaint:")
    now = pushed(sheet, "front chamber", (STOPPED, 6.0, RIM), direction="upstream")
    remark = all_the_same(now.push.course, found(now), technique, force)
    if told is None:
        assert remark is None
    else:
        assert told in remark
        assert "look at rod and spring" in remark


def test_past_one_joint_with_roots_the_run_is_not_behind():
    past = (
        (STOPPED, 4.0, ROOTS),
        (TRY, 4.0, {"technique": "steady push", "spot": "roots in rear drain", "outcome": PASSED}),
    )
    now = in_clay(*past, (STOPPED, 6.0, ROOTS))
    assert "roots in rear drain" not in in_clay(*past).passed
    assert found(now).spot == "roots in rear drain"


def test_while_it_may_be_one_of_several_places_what_any_of_them_forbids_is_not_tried(capsys):
    """In the tee of the cleanout backing off for a stroke draws the head out, whichever way it went."""
    now = pushed(
        FERN,
        "wall plug",
        (STOPPED, 0.12, {"sign": "wall ahead", "feel": "springs back"}),
        direction="unknown",
    )
    spot = "turn in the cleanout tee at wall plug"
    held = found(now)
    assert held.spot == ""
    assert spot in [met.name for met in may_be_at(now)]
    assert "quick push" in forbidden_by_plan(now, spot)
    assert not {each.technique for each in held.tries} & forbidden_by_plan(now, spot)
    assert "would draw it out of the pipe" in dict(held.not_now)["quick push"]
    show_stuck(held, now, Page())
    said = capsys.readouterr().out
    assert "HELD, AT WHICH PLACE IS NOT SURE" in said
    assert f"It may be held at the {spot}" in " ".join(said.split())
