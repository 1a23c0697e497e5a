"""A find stands where all that its push showed has it, not where it was taken to be when it was told.

By hand, after a trial: a pipe of 5 to 15 m, in at its upper end, 0.2 m of rod at the plug. A find
at 8 m of counter, then the end of the pipe at E m: the find lies E - 8 m short of the end. On the drawing, on
which the pipe has 10 m, that is at 10 - (E - 8) * 10 / (E - 0.2) m: 8.0 m for E = 10, 6.6 for 12, 5.7 for 14.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from advisor.push.log.kinds import BACK, FIND, MARK, SIGHTING, START, Value
from advisor.push.log.log import Entry
from advisor.push.log.redrawn import version_of
from advisor.push.now.now import Now
from advisor.push.report.doubt import doubt_now, place_at
from advisor.push.report.placed_anew import may_move, placed_anew
from tests.terminal.test_now_shown import NOON, Told, pushed, study_of

SITE = """
site: invented
region: north america
map: sketch
lines:
  - line: yard drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - opening: top plug
        kind: end cleanout
        depth: 0.2 m
      - pipe: 5 to 15 m
      - end: public sewer
task: {look at: yard drain, complaint: {holding: no}}
"""
FORKED = """
site: invented
region: north america
map: sketch
lines:
  - line: yard drain
    kind: drain
    size: 4 in
    material: pvc
    pieces:
      - capped: yes
      - pipe: 5 to 8 m
      - joined by: side line
        fitting: wye
        side: left
      - pipe: 1 m
      - joined by: other line
        fitting: wye
        side: right
      - pipe: 3 m
      - opening: low plug
        kind: floor cleanout
        depth: 0.2 m
      - pipe: 5 m
      - end: public sewer
  - line: side line
    size: 4 in
    pieces:
      - fixture: kitchen sink
      - pipe: 5 to 8 m
  - line: other line
    size: 4 in
    pieces:
      - fixture: bath
      - pipe: 5 to 8 m
task: {look at: yard drain, complaint: {holding: no}}
"""
READ: tuple[Told, ...] = ((SIGHTING, 4.0, {"what": "nothing"}), (SIGHTING, 8.0, {"what": "nothing"}))


def end(at: float) -> Told:
    return SIGHTING, at, {"what": "end"}


def at(*told: Told) -> Now:
    return pushed(SITE, "top plug", *told, direction="downstream")


def as_told(kind: str = FIND, *before: Told) -> Told:
    """A find or mark with the head at 8 m, and what the log keeps of its place then."""
    now = at(*(before or READ))
    says: dict[str, Value] = {"what": "roots"} if kind == FIND else {"name": "peg 1", "depth": 0.5}
    return kind, 8.0, {**says, **place_at(now, now.fix), **doubt_now(now)}


def standing(*told: Told, **start: Value) -> tuple[Entry, ...]:
    begun = Entry(0, NOON, NOON, START, 0.0, {"opening": "top plug", "direction": "downstream", **start})
    return (begun, *at(*told).entries)


def placed(entries: tuple[Entry, ...], kind: str = FIND) -> Entry:
    return next(each for each in placed_anew(entries, study_of(SITE)) if each.kind == kind)


@pytest.mark.parametrize(("ends", "down", "kind"), [(10.0, 8.0, FIND), (12.0, 6.6, MARK), (14.0, 5.7, FIND)])
def test_the_end_seen_later_places_it(ends, down, kind):
    told = as_told(kind)
    found = placed(standing(*READ, told, end(ends)), kind).data
    assert found["line"] == "yard drain"
    low, here, high = (float(found[name] or 0) for name in ("low", "distance", "high"))
    assert here == pytest.approx(down, abs=0.2), "within the cell of its grid"
    assert low < down < high
    assert high - low < float(told[2]["high"] or 0) - float(told[2]["low"] or 0), "more is known now"
    # By the counter it lies so far before the end: the eye may be 0.25 m off, the counter by a share of 2 %.
    assert found["past"] == "public sewer"
    assert found["run"] == pytest.approx(8.0 - ends)
    assert 0.25 <= float(found["off"] or 0) < 0.4
    # What else it says, and all other entries, stay.
    assert {name: found[name] for name in ("what", "name", "depth") if name in found} == {
        name: told[2][name] for name in ("what", "name", "depth") if name in told[2]
    }


def test_also_where_it_was_told_from_further_in():
    early = placed(standing(*READ, as_told(), end(12.0))).data
    further: Told = (SIGHTING, 9.0, {"what": "nothing"})
    late = placed(standing(*READ, further, as_told(), end(12.0))).data
    assert late["distance"] == pytest.approx(float(early["distance"] or 0), abs=0.2)
    assert late["run"] == early["run"] == -4.0


def test_drawn_back_and_pushed_on_where_nothing_forks_it_is_the_same_place():
    """As for a second try at a rim: the end still lies 4 m of counter past it."""
    on: Told = (SIGHTING, 9.0, {"what": "nothing"})
    back: Told = (BACK, 6.0, {})
    found = placed(standing(*READ, as_told(), on, back, on, end(12.0))).data
    assert found["distance"] == pytest.approx(6.6, abs=0.2)
    assert (found["past"], found["run"]) == ("public sewer", -4.0)


def test_drawn_back_behind_a_fork_what_is_seen_then_does_not_count():
    """Against the flow past two junctions, at 3 and 4 m: pushed on anew it may go up either branch. It keeps
    straight at each in 0.9 (rules/signs/where.yaml), so past both in 0.81: less than settles a way."""
    read: tuple[Told, ...] = tuple((SIGHTING, each, {"what": "nothing"}) for each in (3.0, 6.0))
    told = (*read, (FIND, 6.0, {"what": "roots", "sure": 0.6, "line": "yard drain", "distance": 4.0}))
    on: Told = (SIGHTING, 7.0, {"what": "nothing"})
    behind, before, last = (BACK, 2.0, {}), (BACK, 5.5, {}), end(9.0)

    def found(*more: Told) -> Entry:
        now = pushed(FORKED, "low plug", *told, *more, direction="upstream")
        begun = now.push.began
        (find,) = (e for e in placed_anew((begun, *now.entries), now.push.study) if e.kind == FIND)
        return find

    by_the_first = found(on)
    assert found(on, behind, on, last) == by_the_first
    assert found(on, before, on, last) != by_the_first


@pytest.mark.parametrize("why", ["nothing since", "by the operator", "by another sheet"])
def test_as_it_was_told_stays(why):
    told, more, start = as_told(), (end(12.0),), {}
    if why == "nothing since":
        more = ()
    elif why == "by the operator":
        told = (*told[:2], {"what": "roots", "line": "yard drain", "distance": 3.0})
    else:
        start = {"sheet": "another"}
    entries = standing(*READ, told, *more, **start)
    assert placed(entries) == next(each for each in entries if each.kind == FIND)
    assert may_move(entries) == (why == "by another sheet"), "a plan is made for it only if it may change"


def test_of_this_sheet_it_is_placed():
    told = standing(*READ, as_told(), end(12.0), sheet=version_of(study_of(SITE).network))
    assert placed(told) != next(each for each in told if each.kind == FIND)


def test_the_entries_told_are_left_as_they_are():
    told = standing(*READ, as_told(), end(12.0))
    before = tuple(replace(each, data=dict(each.data)) for each in told)
    after = placed_anew(told, study_of(SITE))
    assert told == before
    assert [each.number for each in after] == [each.number for each in told]
    assert {a.kind for a, b in zip(after, told, strict=True) if a != b} == {FIND}
