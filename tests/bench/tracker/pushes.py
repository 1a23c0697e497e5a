"""One invented push: a head that really goes somewhere, and an operator who tells what is seen.

Its errors are of other shapes than the filter's: the counter runs off by a fixed share and slips in jumps,
places are told within a flat range, clock positions by whole hours and now and then mirrored, water takes a
gamma-distributed time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tests.bench.tracker.drains import Drain, Line

HIDDEN = "hidden"


@dataclass(frozen=True)
class Eyes:
    """How well the operator sees and the counter runs; `slip` jumps a metre of an average of 0.1 m."""

    missed: float
    false_per_metre: float
    counter_off: float
    slip_per_metre: float
    mirrored: float


GOOD = Eyes(missed=0.25, false_per_metre=0.01, counter_off=0.02, slip_per_metre=0.15, mirrored=0.04)
POOR = Eyes(missed=0.40, false_per_metre=0.03, counter_off=0.03, slip_per_metre=0.30, mirrored=0.10)


@dataclass(frozen=True)
class Step:
    """A stretch of the true way: on a line from one place to another."""

    line: str
    begin: float
    end: float
    away: float  # m from the hand to its beginning

    @property
    def down(self) -> bool:
        return self.end >= self.begin

    def place(self, away: float) -> float:
        run = away - self.away
        return self.begin + run if self.down else self.begin - run


@dataclass(frozen=True)
class Told:
    """What the operator tells: a kind, a counter reading, and what belongs to it."""

    kind: str
    counter: float
    clock: float | None = None
    size: float | None = None


class Push:
    """The true way of one push, and the sightings in the order in which they come."""

    def __init__(self, drain: Drain, eyes: Eyes, draw: np.random.Generator, lost: bool) -> None:
        self.drain, self.eyes, self.draw = drain, eyes, draw
        self.steps = self._way()
        if lost:
            self.steps = self._led_off(self.steps)
        self.length = sum(abs(s.end - s.begin) for s in self.steps) + 0.6
        if self._open_end():
            # Where the house drain runs on into the sewer a push is over somewhere before.
            last = self.steps[-1]
            self.length -= draw.uniform(0.0, 0.5) * abs(last.end - last.begin)
        self.rate = 1 + draw.uniform(-eyes.counter_off, eyes.counter_off)
        self.slips = self._slips()
        self.left_at = next((s.away for s in self.steps if s.line == HIDDEN), None)

    # -- the true way ----------------------------------------------------------------------------

    def _way(self) -> list[Step]:
        line, at = self.drain.start
        down = not self.drain.both_ways or self.draw.random() < 0.5
        steps: list[Step] = []
        away = 0.6
        while True:
            here = self.drain.lines[line]
            if down:
                # Running down it keeps to the main, but for a few heads that slip into a branch.
                turn = next((j for j in here.joins if j[0] > at + 0.05 and self.draw.random() < 0.03), None)
                stop = turn[0] if turn else here.length
                steps.append(Step(line, at, stop, away))
                away += stop - at
                if turn:
                    line, at, down = turn[1], self.drain.lines[turn[1]].length, False
                    continue
                parent = self.drain.parent(line)
                if parent is None:
                    return steps
                line, at = parent[0], parent[1]
                down = self.draw.random() < 0.9
            else:
                above = [j for j in reversed(here.joins) if j[0] < at - 0.05]
                turn = next((j for j in above if self.draw.random() < 0.25), None)
                stop = turn[0] if turn else 0.0
                steps.append(Step(line, at, stop, away))
                away += at - stop
                if not turn:
                    return steps
                line, at = turn[1], self.drain.lines[turn[1]].length

    def _led_off(self, steps: list[Step]) -> list[Step]:
        """The head turns off into a pipe that nobody has drawn, within the first two thirds of the way."""
        total = sum(abs(s.end - s.begin) for s in steps)
        leave = 0.6 + self.draw.uniform(0.0, 0.66) * total
        kept: list[Step] = []
        for step in steps:
            run = abs(step.end - step.begin)
            if step.away + run < leave:
                kept.append(step)
                continue
            place = step.place(leave)
            kept.append(Step(step.line, step.begin, place, step.away))
            break
        pipe = Line(HIDDEN, 3, "cast iron", self.draw.uniform(6, 15))
        pipe.bends = [float(x) for x in self.draw.uniform(0.5, pipe.length, int(self.draw.integers(0, 4)))]
        pipe.joins = [
            (float(x), f"unseen {i}", str(self.draw.choice(["left", "right"])))
            for i, x in enumerate(self.draw.uniform(0.5, pipe.length, int(self.draw.integers(0, 4))))
        ]
        pipe.drawn = False
        self.hidden = pipe
        return [*kept, Step(HIDDEN, 0.0, pipe.length, leave)]

    def _line(self, name: str) -> Line:
        return self.hidden if name == HIDDEN else self.drain.lines[name]

    def where(self, away: float) -> tuple[str, float, bool]:
        """Line, place on it and whether the head looks downstream, so many m from the hand."""
        step = next((s for s in reversed(self.steps) if s.away <= away), self.steps[0])
        return step.line, step.place(max(away, step.away)), step.down

    # -- what is told ----------------------------------------------------------------------------

    def _slips(self) -> list[tuple[float, float]]:
        at, found = 0.0, []
        while at < self.length:
            at += self.draw.exponential(1 / self.eyes.slip_per_metre)
            found.append((at, float(self.draw.choice([1, -1], p=[0.7, 0.3]) * self.draw.exponential(0.1))))
        return found

    def counter(self, away: float) -> float:
        """What the counter shows when the head is so far in: rate, jumps, and a reading to 0.1 m."""
        shown = away * self.rate + sum(jump for at, jump in self.slips if at <= away)
        return max(round(shown, 1), 0.0)

    def _marks(self) -> list[tuple[float, str, float | None, float | None]]:
        """Every landmark on the true way: m from the hand, kind, hour, size in m."""
        found: list[tuple[float, str, float | None, float | None]] = []
        for i, step in enumerate(self.steps):
            line = self._line(step.line)
            low, high = sorted((step.begin, step.end))

            def away(place: float, step: Step = step) -> float:
                return step.away + abs(place - step.begin)

            for at, name, side in line.joins:
                if low + 1e-9 < at < high - 1e-9 or (at == step.end and not step.down):
                    hour = {"left": 9.0, "right": 3.0, "top": 12.0}[side]
                    hour = hour if step.down or hour == 12 else 12 - hour
                    size = self.drain.lines[name].size if name in self.drain.lines else 2
                    found.append((away(at), "tie-in", hour, size * 0.0254))
            found += [(away(at), "bend", None, None) for at in line.bends if low < at < high]
            found += [(away(at), "two mouths", None, None) for at in line.mouths if low < at < high]
            if line.clay_from is not None and low < line.clay_from < high:
                found.append((away(line.clay_from), "material", None, None))
            if i:
                before = self._line(self.steps[i - 1].line)
                found.append((step.away, "bend", None, None))
                if before.size != line.size:
                    found.append((step.away, "bore", None, line.size * 0.0254))
        return found

    def sightings(self) -> Iterator[tuple[Told, float]]:
        """What the operator tells of the way, in order, each with how far in the head truly was."""
        draw, eyes = self.draw, self.eyes
        seen: list[tuple[float, str, float | None, float | None]] = []
        for mark in self._marks():
            if mark[0] < self.length and draw.random() > eyes.missed:
                seen.append(mark)
        for _ in range(int(draw.poisson(eyes.false_per_metre * self.length))):
            kind = str(draw.choice(["tie-in", "bend"]))
            hour = float(draw.integers(1, 13)) if kind == "tie-in" else None
            seen.append((float(draw.uniform(0.7, self.length)), kind, hour, None))
        for at, kind, hour, size in sorted(seen, key=lambda mark: mark[0]):
            told = None
            if hour is not None and draw.random() < 0.85:
                told = hour + float(draw.choice([-1, 0, 1], p=[0.2, 0.6, 0.2]))
                if draw.random() < eyes.mirrored:
                    told = 12 - told
                told = (told - 1) % 12 + 1
            away = min(max(at + draw.uniform(-0.4, 0.4), 0.6), self.length)
            told_size = size * float(np.exp(draw.normal(0, 0.15))) if size and draw.random() < 0.3 else None
            yield Told(kind, self.counter(away), told, told_size), away
        last = "nothing"
        if not self._open_end():
            # Half of those who see the end call it one; the others tell only that it goes no further.
            last = "end" if draw.random() > (1 + eyes.missed) / 2 else "stopped"
        yield Told(last, self.counter(self.length)), self.length

    def _open_end(self) -> bool:
        last = self.steps[-1]
        return last.line == self.drain.main and last.down

    def water(self, fixture: str, away: float) -> tuple[float | None, str]:
        """Seconds until the fixture's water comes by, None within two minutes, and from which side."""
        draw = self.draw
        line, place, down = self.where(away)
        name = next(n for n, each in self.drain.lines.items() if each.fixture == fixture)
        run, at = 0.0, 0.0
        passes = False
        while line != HIDDEN:
            here = self.drain.lines[name]
            if name == line:
                passes = place >= at - 1e-6
                run += place - at
                break
            run += here.length - at
            parent = self.drain.parent(name)
            if parent is None:
                break
            name, at = parent[0], parent[1]
        if passes and draw.random() < 0.93:
            seconds = draw.gamma(5, (2.0 + max(run, 0) / 0.55) / 5) + 1
            if seconds <= 120:
                side = "behind" if down else "ahead"
                if draw.random() < 0.06:
                    side = "ahead" if side == "behind" else "behind"
                return float(seconds), side
        if draw.random() < 0.04:
            return float(draw.uniform(3, 120)), str(draw.choice(["ahead", "behind"]))
        return None, ""
