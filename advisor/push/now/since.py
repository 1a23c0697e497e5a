"""How far the counter ran since a landmark was seen in this push: what is measured in a pipe.

Neither the sheet's length nor the riser at the opening is in it. The same landmark read twice tells how far
the counter itself is off.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot

from advisor.push.log.sighting import Seen
from advisor.push.now.now import Now
from advisor.push.track.again import two_sides
from advisor.push.track.fix import Place, called
from advisor.push.track.landmarks import Landmark
from advisor.push.track.track import Belief
from advisor.site.network import Network, Piece
from advisor.tables.where import WhereFile, number


@dataclass(frozen=True)
class Since:
    """What was seen, and m of rod from it to the head; `off` m either way; `chance`, that it was that.

    Less than nothing where the head was drawn back behind it.
    """

    thing: Piece
    run: float
    off: float
    chance: float

    @property
    def name(self) -> str:
        """What it is called on the sheet."""
        return thing_name(self.thing)


@dataclass(frozen=True)
class ReadTwice:
    """What was read at two counter readings, m: the counter slipped, or rod lay slack."""

    thing: Piece
    first: float
    last: float

    @property
    def apart(self) -> float:
        """By how much they differ, m."""
        return abs(self.last - self.first)


@dataclass(frozen=True)
class Passed:
    """A landmark that was told and is called by its name, with the rod and the counter there, m; how likely
    it was that one, and the hour at which it was told."""

    landmark: Landmark
    rod: float
    counter: float
    chance: float
    clock: float | None = None

    def one_side(self, other: Passed, where: WhereFile) -> bool:
        """Whether both may have been told of one side."""
        if self.clock is None or other.clock is None:
            return True
        return not two_sides(where, self.clock, other.clock, abs(self.rod - other.rod))


def thing_name(piece: Piece) -> str:
    """What was seen by its name on the sheet."""
    name = piece.name or piece.kind
    return f"where {name} joins" if piece.kind == "junction" else name


def ends_way(name: str, network: Network) -> bool:
    """Whether it is a trap, valve or tank or the end of a line that is called so: no head stands past it."""
    called_so = [piece for piece in network.pieces.values() if thing_name(piece) == name]
    # A mark that the sheet set there gives it its name.
    named = [*called_so, *(each for mark in called_so if mark.kind == "mark" for each in _at(mark, network))]
    return any(piece.kind in ("stopper", "end", "cap") for piece in named)


def _at(mark: Piece, network: Network) -> Iterator[Piece]:
    tops = network.positions(mark.line)
    return (network.pieces[each] for each, top in tops.items() if top == tops[mark.id])


def sure_of(place: Place, seen: Since | None) -> float:
    """How sure a place is as it is told: by a thing that was seen no surer than that it was that."""
    return place.chance if seen is None else min(place.chance, seen.chance)


def since(now: Now, least: float = 0.0) -> Since | None:
    """From the nearest landmark behind the head that was seen on its way; else the nearest before it.

    Of those that it was with a chance of `least`: what is written down tells no chance of it.
    """
    seen = [each for each in _on_way(now, passed(now), now.belief) if each.chance >= least]
    if not seen or now.off_map:
        return None
    rod = now.belief.rod
    behind = [each for each in seen if each.rod <= rod]
    near = max(behind, key=lambda each: each.rod) if behind else min(seen, key=lambda each: each.rod)
    where = now.push.tracker.chart.where
    # What lies in curves where the rod was turned about.
    turned = number(where.travel.rod_lag) * rod if now.belief.backed else 0.0
    return Since(_thing(now, near.landmark), rod - near.rod, _off(now, near, rod) + turned, near.chance)


def since_at(now: Now, was: Belief, known: Mapping[int, Belief], least: float) -> Since | None:
    """From the landmark that tells best where the head `was` on its way in, be it behind it or seen later.

    `known` is by what each is called: where the head is known now to have been after so many sightings.
    `least` as above.
    """
    seen = [each for each in _on_way(now, passed(now, known), was) if each.chance >= least]
    if not seen:
        return None
    near = min(seen, key=lambda each: _off(now, each, was.rod))
    return Since(_thing(now, near.landmark), was.rod - near.rod, _off(now, near, was.rod), near.chance)


def _off(now: Now, each: Passed, rod: float) -> float:
    """How far off the counter may be between the two, with the eye that read the one, m."""
    where = now.push.tracker.chart.where
    eye = number(where.seen[each.landmark.kind].spread)  # type: ignore[index]
    return hypot(eye, number(where.travel.counter_off) * (rod - each.rod))


def read_twice(now: Now) -> ReadTwice | None:
    """The landmark that was last read anew, where its readings are further apart than counters run off.

    Told on opposite sides it was not one: no counter is said to have slipped for that.
    """
    where = now.push.tracker.chart.where
    travel = where.travel
    found = None
    first: dict[str, Passed] = {}
    for each in passed(now):
        before = first.setdefault(each.landmark.piece.id, each)
        slack = number(travel.counter_off) * each.rod + number(travel.cell)
        if abs(each.rod - before.rod) > slack and each.one_side(before, where):
            found = ReadTwice(
                _thing(now, each.landmark), each.counter - (each.rod - before.rod), each.counter
            )
    return found


def read_at(now: Now, mark: Landmark) -> tuple[float, float] | None:
    """The counter reading at which a landmark was last seen in this push, m, and how far that may be off."""
    last = next((each for each in reversed(passed(now)) if each.landmark.piece.id == mark.piece.id), None)
    if last is None:
        return None
    turned = number(now.push.tracker.chart.where.travel.rod_lag) * now.belief.rod
    return now.counted(last.rod), _off(now, last, now.belief.rod) + turned


def passed(now: Now, known: Mapping[int, Belief] | None = None) -> list[Passed]:
    """Every landmark that was told and can be called by its name, in the order of telling.

    `known` is where the head is known to have been after so many sightings; else as it was known then.
    """
    tracker, found = now.push.tracker, []
    for upto, sighting in enumerate(now.sightings, start=1):
        if isinstance(sighting, Seen):
            belief = now.after(upto)
            # What was told of it before weighs as it did when it was told.
            was = replace((known or {}).get(upto, belief), anew=belief.anew)
            best = called(tracker, was, sighting)
            if best is not None:
                found.append(Passed(best.landmark, belief.rod, belief.counter, best.chance, sighting.clock))
    return found


def _on_way(now: Now, seen: Sequence[Passed], belief: Belief) -> list[Passed]:
    """Those on the way that the head is likeliest on, each where it was told last."""
    by_way = belief.mass.sum(axis=(0, 2))
    # By what it was told as: past a tie-in no head stands that was told to have turned into it.
    on_way = {_told_as(mark) for mark in now.push.tracker.chart.ways[int(by_way.argmax())].landmarks}
    return list({each.landmark.piece.id: each for each in seen if _told_as(each.landmark) in on_way}.values())


def _told_as(mark: Landmark) -> tuple[str, str]:
    return mark.piece.id, mark.kind


def _thing(now: Now, mark: Landmark) -> Piece:
    """What stands there by name: a mark that the sheet set where the pipe changes, else the piece itself.

    The place of an opening that is told not to be there is nothing to see.
    """
    legs = next(way.legs for way in now.push.tracker.chart.ways if mark in way.landmarks)
    near = now.push.study.drawn.likely("same_place")
    marks = (leg for leg in legs if leg.piece.kind == "mark")
    marks = (leg for leg in marks if not (leg.piece.absent or leg.piece.only_measured))
    here = [leg.piece for leg in marks if abs(leg.start - mark.at) < near]
    return here[0] if here else mark.piece
