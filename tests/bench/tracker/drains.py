"""Random drains: a truth, and the sheet that somebody drew of it, well or badly."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

MATERIALS = ("cast iron", "clay", "pvc")


@dataclass
class Line:
    """A line from its upper end: length, what joins where, bends, and what stands at its top."""

    name: str
    size: int  # inches
    material: str
    length: float
    joins: list[tuple[float, str, str]] = field(default_factory=list)  # place, line, side
    bends: list[float] = field(default_factory=list)
    clay_from: float | None = None
    mouths: list[float] = field(default_factory=list)  # two-way cleanouts in the line
    fixture: str | None = None
    drawn: bool = True


@dataclass
class Drain:
    """The truth: the lines by name, the house drain last; where the rod goes in, and which way it may."""

    lines: dict[str, Line]
    main: str
    start: tuple[str, float] = ("", 0.0)
    both_ways: bool = True

    def parent(self, name: str) -> tuple[str, float, str] | None:
        for line in self.lines.values():
            for at, joined, side in line.joins:
                if joined == name:
                    return line.name, at, side
        return None


def random_drain(draw: np.random.Generator) -> Drain:
    """A house drain of 18 to 36 m with four to seven branches, some of which branch again."""
    main = Line("house drain", 4, str(draw.choice(MATERIALS[:2])), draw.uniform(18, 36))
    drain = Drain({"house drain": main}, "house drain")
    count = int(draw.integers(4, 8))
    fixtures = ["kitchen sink", "bath", "toilet", "basin", "shower", "laundry tub", "washing machine"]
    draw.shuffle(fixtures)
    for place in _spaced(draw, count, 1.5, main.length - 3):
        _branch(drain, main, place, draw, fixtures, deep=draw.random() < 0.4)
    main.bends = [float(x) for x in draw.uniform(1, main.length - 1, int(draw.integers(0, 3)))]
    if draw.random() < 0.6:
        main.clay_from = float(draw.uniform(0.5, 0.9) * main.length)
    if draw.random() < 0.6:
        main.mouths = [float(draw.uniform(0.3, 0.85) * main.length)]
    # In at a cleanout in the run, which may lead either way, or at the upper end of the house drain.
    if draw.random() < 0.75:
        drain.start = ("house drain", float(draw.uniform(0.25, 0.6) * main.length))
    else:
        drain.start, drain.both_ways = ("house drain", 0.0), False
    return drain


def _branch(
    drain: Drain, onto: Line, place: float, draw: np.random.Generator, fixtures: list[str], deep: bool
) -> None:
    number = len(drain.lines)
    size = int(draw.choice([2, 3]) if onto.size > 2 else 2)
    line = Line(f"line {number}", size, str(draw.choice(MATERIALS)), draw.uniform(2.5, 8))
    line.bends = sorted(float(x) for x in draw.uniform(0.3, line.length - 0.3, int(draw.integers(0, 3))))
    kind = fixtures[(number - 1) % len(fixtures)]
    line.fixture = f"{kind} {number}"
    drain.lines[line.name] = line
    onto.joins.append((place, line.name, str(draw.choice(["left", "right", "top"], p=[0.4, 0.4, 0.2]))))
    onto.joins.sort()
    if deep:
        for above in _spaced(draw, int(draw.integers(1, 3)), 0.8, line.length - 0.8):
            _branch(drain, line, above, draw, fixtures, deep=False)


def _spaced(draw: np.random.Generator, count: int, low: float, high: float) -> list[float]:
    """Places that are at least 0.6 m apart, as fittings must be."""
    while True:
        places = sorted(float(x) for x in draw.uniform(low, max(high, low + 0.1), count))
        if all(b - a > 0.6 for a, b in pairwise(places)):
            return places
        count = count if draw.random() < 0.9 else max(count - 1, 1)


def sheet_of(drain: Drain, draw: np.random.Generator, stretch: float, quality: str, sides: float) -> str:
    """The sheet of a drain: each length off by up to `stretch`, sides told in a share of cases."""
    text = f"site: invented\nregion: north america\nbuilt: 1962\nmap: {quality}\nlines:\n"
    for line in drain.lines.values():
        if not line.drawn:
            continue
        text += f"  - line: {line.name}\n    kind: {'drain' if line.name == drain.main else 'branch'}\n"
        text += (
            f"    size: {line.size} in\n    material: {line.material}\n    condition: sound\n    pieces:\n"
        )
        marks: list[tuple[float, str]] = []
        for at, name, side in line.joins:
            if drain.lines[name].drawn:
                told = f"\n        side: {side}" if draw.random() < sides else ""
                marks.append((at, f"      - joined by: {name}\n        fitting: wye{told}\n"))
        marks += [(at, "      - bend: 1/8 bend\n") for at in line.bends]
        marks += [
            (at, f"      - opening: mouths {i}\n        kind: two-way cleanout\n        buried: yes\n")
            for i, at in enumerate(line.mouths)
        ]
        if line.clay_from is not None:
            marks.append((line.clay_from, "      - change: {material: pvc}\n"))
        if line.name == drain.start[0]:
            kind = "two-way cleanout" if drain.both_ways else "end cleanout"
            marks.append(
                (drain.start[1], f"      - opening: way in\n        kind: {kind}\n        depth: 600 mm\n")
            )
        top = ""
        if line.fixture:
            top = f"      - fixture: {line.fixture.rsplit(' ', 1)[0]}\n        label: {line.fixture}\n"
        elif not (line.name == drain.start[0] and drain.start[1] == 0):
            top = "      - capped: yes\n"
        text += top
        at = 0.0
        for place, words in sorted(marks, key=lambda mark: mark[0]):
            if place - at > 1e-6:
                text += _pipe(place - at, stretch, draw)
            text += words
            at = place
        text += _pipe(line.length - at, stretch, draw)
        if line.name == drain.main:
            text += "      - end: public sewer\n"
    return text + "task: {look at: house drain, complaint: {holding: no}}\n"


def _pipe(length: float, stretch: float, draw: np.random.Generator) -> str:
    """A length as it was paced or measured."""
    return f"      - pipe: {max(length * draw.uniform(1 - stretch, 1 + stretch), 0.05):.2f} m\n"
