"""Places, landmarks and hours in the words of the trade."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from math import inf

from advisor.outcome.entry import entry_length
from advisor.push.log.sighting import BORE, CHAMBER, MATERIAL, MOUTHS_SEEN, PIPE_END, POOL, TRAP
from advisor.push.now.across import across
from advisor.push.now.ahead import Ahead, Hard
from advisor.push.now.datum import Datum, datum_of
from advisor.push.now.facing import facing
from advisor.push.now.now import Now
from advisor.push.now.ran_otherwise import ran_otherwise
from advisor.push.now.seen import runs_of
from advisor.push.now.since import ReadTwice, Since, ends_way, since, sure_of, thing_name
from advisor.push.track.fix import Fix, Place
from advisor.push.track.landmarks import Clocks, Landmark
from advisor.quantity import Dimension, Units, show, show_counter
from advisor.result.chances import chance_words
from advisor.site.network import Network, Piece
from advisor.tables.where import number

_ONE = 0.01  # m; layout: a shorter piece is no piece
_SOLID = ("junction", "opening", "stopper", "mark", "end", "cap", "reducer")
_ENDS = ("stopper", "end")  # of a way
IF_ON_MAP = "If it is in a pipe of the map"


class Words:
    """Words for one push: its units, its names."""

    def __init__(self, now: Now) -> None:
        study = now.push.study
        self.units: Units = study.units
        self.sure = study.tables.where.sure
        self._counter_off = number(study.tables.where.travel.counter_off)
        self.network: Network = study.network
        self._missed = {each.opening for each in now.push.looked_for if each.odds < 1}
        self.say = chance_words(study).say
        self.call = study.reader.call
        self._since, self._best = since(now), now.fix.best
        self._now = now
        self._opening, self._rod = now.push.opening, now.belief.rod
        self._own = entry_length(now.push.opening, self._port(now), study.tables)
        self._counter, self._runs = now.counter, runs_of((now.push.began,))
        # Straight across a double fitting, or not, the sheet's reading of either alone does not fit.
        over = across(now.push.tracker, now.belief)
        self.unfit = now.apart and over is not None and over.arm.id in self.network.pieces

    def length(self, metres: float) -> str:
        """A length as a counter shows it: feet and tenths, or metres."""
        return show_counter(metres, self.units, 1)

    def far(self, slow_from: float) -> bool:
        """Whether it goes on as before till then: the counter will show another reading than now."""
        return self._counter < slow_from and self.length(slow_from) != self.length(self._counter)

    def size(self, metres: float) -> str:
        """A size of pipe."""
        return show(metres, Dimension.LENGTH, self.units)

    def place(self, place: Place, rod: float | None = None, unseen: Piece | None = None) -> str:
        """Line, and how far past what is known on it; with so much `rod` out, if it is not that of now.

        By no thing that is still `unseen`: nobody is at what comes next, or past what was not there. Where
        the sheet's middle ran otherwise than the rod only its span is told.
        """
        if place.line not in self.network.lines:  # against the flow it is counted back from where it begins
            place = replace(place, at=abs(place.at), low=abs(place.low), high=abs(place.high))
        low, high = sorted((place.low, place.high))
        line, zero, wide = place.line, self.datum(place.line), high - low > number(self.sure.spread)
        spread = f" ({zero.between(low, high, self.length)})" if wide else ""
        if line not in self.network.lines:
            return f"{self.call(line)}, {self.length(place.at)} in{spread}"
        drawn = self._drawn_at(place)
        at = place.at if drawn is None else drawn
        down = zero.point(at, self.length, "it") if zero.at else f"{self.length(at)} from its top"
        by_sheet = f"{down}{spread}"
        somewhere = wide and drawn is None and place == self._best and self._ran_otherwise
        if somewhere:
            span = zero.span(low, high, self.length, "it")
            by_sheet = (
                f"somewhere {span if zero.at else f'{zero.between(low, high, self.length)} from its top'}"
            )
        if place == self._best and self.unfit:
            return line if self._since is None else f"{line}, {self.since(self._since)}"
        if self._since is not None and place == self._best:
            return f"{line}, {self.since(self._since)}; by the sheet {by_sheet}"
        past, counted = self._past(place, self._rod if rod is None else rod, unseen)
        if counted:
            return f"{line}, {past}; by the sheet {by_sheet}"
        if somewhere:  # what lies behind it there hangs on the middle
            return f"{line}, by the sheet {by_sheet}"
        same = zero.at > 0 and (past == f", at {zero.name}" or past.endswith(f" past {zero.name}"))
        return f"{line}{past}{spread}" if same else f"{line}, {by_sheet}{past}"

    @cached_property
    def _ran_otherwise(self) -> bool:
        return ran_otherwise(self._now, self._since)

    def _drawn_at(self, place: Place) -> float | None:
        """How far down its line the sheet has what was seen at a place, m; None where it is not at such.

        A head is known to no more than a cell, and so far off the sheet's own number nobody can follow it.
        """
        seen = self._since if place == self._best else None
        if seen is None or abs(seen.run) > seen.off or seen.thing.line != place.line or seen.thing.along:
            return None
        drawn = self.network.positions(place.line).get(seen.thing.id)
        return drawn if drawn is not None and place.low <= drawn <= place.high else None

    def datum(self, line: str) -> Datum:
        """From where lengths along a line count: as in the report, the opening in use where that is on it."""
        return datum_of(line, self._runs, self.network)

    def chance(self, place: Place) -> float:
        """How sure that place is, as it is told."""
        return sure_of(place, self._since if place == self._best else None)

    def since(self, since: Since) -> str:
        """How far past a landmark that was seen, by the counter."""
        name = self.call(since.name) if since.thing.kind == "stopper" else since.name
        if self._twin(since.thing):
            name = f"{name} of {since.thing.line}"
        run = abs(since.run)
        if run <= since.off:
            here = name if since.thing.kind == "junction" else f"at {name}"
            return f"{here}, as it was seen"
        low, high = self.length(max(run - since.off, 0.0)), self.length(run + since.off)
        told = f"{self.length(run)} ({low} to {high})"
        if since.run > 0 and ends_way(since.name, self.network):
            return f"{told} more by the counter than where {name} was seen: no head stands past that"
        side = "past" if since.run > 0 else "short of"
        return f"{told} {side} {name} by the counter"

    def _twin(self, thing: Piece) -> bool:
        """Whether the line that the head is told in has another of that name, for which it would be taken."""
        line = self._best.line
        here = self.network.positions(line) if line in self.network.lines else {}
        names = (self.network.pieces[each].name for each in here)
        return thing.line != line and thing.kind != "junction" and thing.name in names

    def apart(self, now: Now) -> str:
        """Counter and sheet that disagree, both counted from the same rim."""
        counter, sheet = self.length(now.belief.rod), self.length(now.along)
        both = (
            f", both with the {self.length(self._own)} from its rim to the line" if self._own >= _ONE else ""
        )
        return (
            f"In from {now.push.opening.name} {counter} by the counter, {sheet} by the sheet{both}: one of "
            "them is off. Before digging, locate it from above."
        )

    def _port(self, now: Now) -> str:
        """The port of the opening that the head most likely left it by."""
        by_way = now.belief.mass.sum(axis=(0, 2))
        return now.push.tracker.chart.ways[int(by_way.argmax())].legs[0].leaves

    def twice(self, twice: ReadTwice) -> str:
        """A landmark that was read at two counter readings."""
        first, last, apart = (self.length(each) for each in (twice.first, twice.last, twice.apart))
        return (
            f"By the counter {thing_name(twice.thing)} was read at {first} and at {last}: the counter "
            f"slipped, or rod lay slack. What it shows may be {apart} off."
        )

    def _past(self, place: Place, rod: float, unseen: Piece | None) -> tuple[str, bool]:
        """The nearest named thing behind the head, and whether the counter tells how far: from the opening in
        use it does, also where the sheet has the place further in than there is rod."""
        tops, near = self.network.positions(place.line), number(self.sure.at)
        end = max(at + self.network.pieces[key].along for key, at in tops.items())
        if place.at > end + near:
            over = self.length(place.at - end)
            return f", {over} past where the sheet ends it: the line may be longer", False
        named = [
            (at, self.network.pieces[key])
            for key, at in tops.items()
            if self.network.pieces[key].kind in _SOLID and self._is_there(self.network.pieces[key])
            if unseen is None or key != unseen.id
        ]
        behind = [
            (abs(place.at - at), piece)
            for at, piece in named
            if (at <= place.at + near if place.with_flow else at >= place.at - near)
        ]
        if not behind:
            return "", False
        away, piece = self._nearest(behind, place.with_flow, near)
        too_far = place.inside > rod * (1 + self._counter_off) + near
        if away >= near and (piece.id == self._opening.id or too_far):
            inside = self.length(max(rod - self._own, 0.0))
            return f"{inside} past {self._opening.name} by the counter", True
        name = f"where {piece.name} joins" if piece.kind == "junction" else piece.name
        at = name if piece.kind == "junction" else f"at {name}"
        return f", {at}" if away < near else f", {self.length(away)} past {name}", False

    def _nearest(self, found: list[tuple[float, Piece]], with_flow: bool, near: float) -> tuple[float, Piece]:
        """Of what lies at one spot, as the plugs on both sides of a trap: the opening in use, which the rod
        went in by; else what the head comes to first, and once it is well past, what it came by last."""
        least = min(away for away, _ in found)
        at_once = [each for each in found if each[0] - least < _ONE]
        own = next((each for each in at_once if each[1].id == self._opening.id), None)
        return own or at_once[0 if with_flow == (least < near) else -1]

    def _is_there(self, piece: Piece) -> bool:
        """Whether places may be told from it: not from an opening that perhaps does not exist, nor from what
        is itself told by how far it lies from another."""
        sure = piece.id == self._opening.id or piece.hole is None or piece.hole.there == 1
        return sure and not piece.absent and not piece.only_measured

    def way(self, fix: Fix, off_map: bool = False) -> str:
        """Which way is downstream; of a pipe that is not on the map nobody knows it."""
        told = facing(fix, self.say) or "which way is downstream is not known yet"
        told = f"{IF_ON_MAP}, {told}" if off_map else told
        return f"{told[:1].upper()}{told[1:]}."

    def landmark(self, mark: Landmark) -> str:
        """What is to be seen there."""
        name = mark.piece.name
        if mark.kind == "tie-in":
            where = f" {hours(mark.clocks)}" if mark.clocks else ""
            what = name if mark.piece.kind == "junction" else f"the {name}, from below"
            return f"a tie-in{where}: {what}"
        if mark.kind == "two mouths":
            return f"{MOUTHS_SEEN}: {name}"
        if mark.kind == CHAMBER:
            return f"a chamber (open channel): the {name}"
        if mark.kind == POOL:
            return "standing water (a belly)"
        if mark.kind == TRAP:
            return f"a trap (the pipe dips under water): the {self.call(mark.piece.stopper or name)}"
        if mark.kind == PIPE_END:
            return f"the end of the pipe: {self.call(name)}"
        if mark.kind == "bend":
            return (
                f"the turn where {name} joins"
                if mark.piece.kind == "junction"
                else "a bend"
                if name == "bend"  # nobody knows of what kind
                else f"a bend ({self.call(name)})"
            )
        if mark.kind == BORE and mark.size is not None:
            return f"the pipe changes to {self.size(mark.size)}"
        if mark.kind == MATERIAL:
            return f"the pipe changes to {self.material(mark)}"
        return name

    def material(self, mark: Landmark) -> str:
        """What the sheet has a pipe change to."""
        likely, share = max(mark.to, key=lambda each: each[1])
        return f"{self.call(likely)}{'' if share == 1 else ' or another material'}"

    def reading(self, ahead: Ahead | Hard) -> str:
        """The readings at which it comes; what is still to be seen comes at none that the head is past.

        Of what ends a way that shows nothing: it is told from where it may lie, whatever was not seen.
        """
        unseen = isinstance(ahead, Ahead) and ahead.landmark.piece.kind not in _ENDS
        begins = max(ahead.low, self._counter) if unseen else ahead.low
        low, high = self.length(begins), self.length(max(ahead.high, begins))
        return f"counter {low}" if low == high else f"counter {low} to {high}"

    def ahead(self, ahead: Ahead) -> str:
        """The next landmark with its readings."""
        there = ahead.landmark.there
        doubt = "" if there == 1 else ". It may not be there"
        if doubt and ahead.landmark.piece.name in self._missed:
            doubt += ": an earlier push did not see it"
        chance = self.say(ahead.chance * there)
        return f"{self.landmark(ahead.landmark)}, {self.reading(ahead)}: {chance}{doubt}"

    def hard(self, hard: Hard) -> str:
        """The next hard passage with its readings."""
        if not hard.by_sheet:
            return f"{hard.met.name}, {self.reading(hard)}"
        return f"{hard.met.name}, counter {self.length(hard.low)} {self.to_end(hard.high)}"

    def to_end(self, reading: float) -> str:
        """To where a run goes by the sheet; no end where the counter is past that and the run may go on."""
        return "and on" if reading == inf else f"to {self.length(reading)} by the sheet"


def hours(clocks: Clocks) -> str:
    """Where on the clock, 12 at the top: the likely hours."""
    likely = [round(hour) for hour, share in clocks if share >= max(s for _, s in clocks)]
    return "at " + " or ".join(str(hour) for hour in likely) + " o'clock"
