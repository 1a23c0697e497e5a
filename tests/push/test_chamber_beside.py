"""A chamber whose channel several pipes join in is seen out of each of them, whichever way the head turns.

From a trial: through the stack into a chamber that is drawn at the same metre as the stack, and
the head was said to have gone up the drain because it had seen the chamber. By Bayes, what is as likely seen
on either way tells them apart by nothing: the plan's belief in the fitting stands.
"""

from __future__ import annotations

import pytest

from advisor.push.before.limit import limit_of
from advisor.push.log.kinds import BACK, SIGHTING
from advisor.push.log.sighting import CHAMBER, Seen
from advisor.push.track.fix import named
from advisor.push.track.landmarks import Landmark
from advisor.push.track.ways import Way
from advisor.terminal.page import Page
from advisor.terminal.push.here import show_now
from tests.push.test_ways import ways_of
from tests.terminal.test_now_shown import pushed

# In at the foot of the stack: 0.4 m to its bend and 2 m to the chamber, from which the drain falls 12 m.
FOOT = "access door"
DRAIN = """
site: invented
region: britain
map: measured
lines:
  - line: yard drain
    kind: drain
    size: 100 mm
    material: clay
    condition: sound
    pieces:
      - opening: top gully
        kind: gully
      - pipe: 4 m
      - BESIDE
      - pipe: 12 m
      - opening: far rodding eye
        kind: rodding eye
      - pipe: 3 m
      - end: public sewer
  - line: soil stack
    kind: stack
    size: 100 mm
    material: cast iron
    condition: sound
    pieces:
      - opening: roof vent
        kind: roof vent
      - drop: 3 m
      - opening: access door
        kind: stack access door
      - drop: 400 mm
      - bend: stack-base bend
      - pipe: 2 m
task: {look at: "yard drain, from soil stack to public sewer", complaint: {holding: no, chemicals: no}}
"""
PIT, JOINT = (
    "opening: pit\n        kind: inspection chamber",
    "joined by: soil stack\n        fitting: chamber branch",
)
GUTTER = "joined by: gutter line\n        fitting: chamber branch"
APART = "\n      - pipe: 1 m\n      - "
GUTTER_LINE = """  - line: gutter line
    size: 100 mm
    pieces:
      - opening: gutter gully
        kind: gully
      - pipe: 2 m
task:"""


def drawn(*beside: str, between: str = "\n      - ") -> str:
    sheet = DRAIN.replace("BESIDE", between.join(beside))
    return sheet.replace("task:", GUTTER_LINE) if GUTTER in beside else sheet


def chamber_on(way: Way) -> list[Landmark]:
    return [mark for mark in way.landmarks if mark.kind == CHAMBER]


@pytest.mark.parametrize("beside", [(PIT, JOINT), (JOINT, PIT), (PIT, GUTTER, JOINT), (JOINT, GUTTER, PIT)])
def test_what_was_seen_of_the_chamber_turns_the_head_neither_way(beside):
    """2.4 m of pipe from the door to the chamber, as the sheet has it."""
    before, after = (
        pushed(drawn(*beside), FOOT, *told, direction="downstream")
        for told in ((), ((SIGHTING, 2.6, {"what": "chamber"}),))
    )
    ways = before.push.tracker.chart.ways
    leads = [(row, way.legs[-1].line) for row, way in enumerate(ways) if way.legs[0].leaves == "down"]
    assert {"public sewer", "yard drain"} <= {line for _, line in leads}
    shares = []
    for now in (before, after):
        mass = now.belief.mass.sum(axis=(0, 2))
        up = sum(
            mass[row] for row, _ in leads if ways[row].legs[-1].line == "yard drain" and ways[row].closed
        )
        shares.append(up / sum(mass[row] for row, _ in leads))
    assert shares[1] == pytest.approx(shares[0], abs=0.02)
    assert after.fix.downstream > 0.9


@pytest.mark.parametrize("beside", [(PIT, JOINT), (JOINT, PIT)])
def test_from_the_chamber_on_the_sewer_stays_told_at_the_least_that_the_sheet_allows(beside):
    """By hand: 6 m and 3 m of pipe at the least behind the chamber read at 2.6 m, the counter 3 parts of 100
    fast and the eye 0.25 m off (rules/signs/where.yaml). A head that drops into a sewer is lost."""
    text = drawn(*beside).replace("pipe: 12 m", "pipe: 6 to 18 m").replace("pipe: 3 m", "pipe: 3 to 10 m")
    readings = (
        (SIGHTING, 2.6, {"what": "chamber"}),
        *((SIGHTING, at, {"what": "nothing"}) for at in (5, 13)),
    )
    for count in (1, 2, 3):
        stop = limit_of(pushed(text, FOOT, *readings[:count], direction="downstream")).stop
        assert stop is not None
        assert stop.piece.name == "public sewer"
        assert stop.low == pytest.approx(2.6 + 9 / 1.03 - 0.25, abs=0.1)


def test_on_a_way_that_does_not_pass_what_was_seen_the_least_is_from_the_opening():
    """A chamber up the drain, drawn out and in again: the head may go down now, 5 m at the least by the sheet
    and the riser of the opening."""
    text = drawn(
        PIT, "pipe: 3 m", "opening: middle plug\n        kind: two-way cleanout\n        depth: 0.4 m"
    )
    text = text.replace("pipe: 12 m", "pipe: 3 to 18 m")
    text = text.replace("pipe: 3 m\n      - end", "pipe: 2 to 8 m\n      - end")
    text = text.replace("- pipe: 4 m\n", "- pipe: 4 m\n      - joined by: soil stack\n", 1)
    told = ((SIGHTING, 3.4, {"what": "chamber"}), (BACK, 0.0, {}), (SIGHTING, 2.0, {"what": "nothing"}))
    stop = limit_of(pushed(text, "middle plug", *told, direction="unknown")).stop
    assert stop is not None
    assert stop.low <= 5.4


@pytest.mark.parametrize("beside", [(PIT, JOINT), (JOINT, PIT)])
@pytest.mark.parametrize("opening", ["access door", "far rodding eye", "top gully"])
def test_every_way_through_the_channel_meets_the_chamber_once(beside, opening):
    ways, _ = ways_of(drawn(*beside), opening, 40.0)
    through = [way for way in ways if any(leg.piece.name == "soil stack" for leg in way.legs)]
    assert len(through) >= 2
    for way in through:
        (mark,) = chamber_on(way)
        assert mark.piece.name == "pit"
        assert mark.at == pytest.approx(next(leg.start for leg in way.legs if leg.piece.name == "soil stack"))


def test_out_of_the_chamber_itself_it_is_no_landmark():
    ways, _ = ways_of(drawn(PIT, JOINT), "pit", 40.0)
    assert len(ways) >= 3
    assert not any(chamber_on(way) for way in ways)


@pytest.mark.parametrize("between", [APART, "\n      - trap: disconnecting trap\n      - "])
def test_behind_a_pipe_or_a_trap_it_is_seen_only_on_the_way_that_passes_it(between):
    ways, _ = ways_of(drawn(PIT, JOINT, between=between), "access door", 40.0)
    down = [way for way in ways if way.legs[-1].line == "public sewer"]
    assert down
    assert not any(chamber_on(way) for way in down)


@pytest.mark.parametrize(("at", "called"), [(0.7, "soil stack"), (1.4, "gutter line")])
@pytest.mark.parametrize("depth", ["0.6 m", "assumed 0.6 m"])
def test_what_joins_in_the_opening_s_own_channel_is_seen_there_and_no_further_in(at, called, depth, capsys):
    """From a trial: a tie-in 0.8 m past the chamber was the stack that joins in it, 95 %, as the
    pipe behind may be 1 m to 4 m long. It is the line that joins next, or one that nobody drew."""
    pit = PIT + f"\n        depth: {depth}"
    text = drawn(pit, JOINT, "pipe: assumed 1 to 4 m", GUTTER).replace("map: measured", "map: guess")
    now = pushed(
        text, "pit", (SIGHTING, at, {"what": "tie-in", "clock": 3.0, "size": 0.1}), direction="downstream"
    )
    last = now.sightings[-1]
    assert isinstance(last, Seen)
    found = named(now.push.tracker, now.belief, last)
    assert found[0].landmark.piece.name == called
    if called != "soil stack":
        assert found[0].chance < 0.9, "it may be one that nobody drew"
        assert "soil stack" not in {each.landmark.piece.name for each in found}
    show_now(now, Page())
    said = " ".join(capsys.readouterr().out.split())
    assert called not in said.partition("Next:")[2].partition("counter")[0], (
        "what was seen is not the next one"
    )
