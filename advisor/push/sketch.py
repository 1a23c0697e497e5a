"""A sketch of finds and marks as SVG: a plan where it was measured, else a strip along the lines."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from html import escape

from advisor.errors import printable
from advisor.push.marks import Spot
from advisor.push.place import Place, place_of
from advisor.site.network import Network
from advisor.site.sheet import SiteSheet

WIDE, EDGE, ROW = 680.0, 50.0, 70.0
FONT = "DejaVu Sans"


@dataclass(frozen=True)
class Sketch:
    """The drawing, and what it shows in words for those who do not see it."""

    svg: str
    words: str


def sketch_of(
    found: tuple[Spot, ...], network: Network, site: SiteSheet, length: Callable[[float], str]
) -> Sketch | None:
    """The best sketch that what was measured allows; nothing where no find is tied to a line."""
    if any(isinstance(spot.place, Place) for spot in found):
        return _plan(found, network, site, length)
    tied = [spot for spot in found if spot.line in network.lines and spot.distance is not None]
    return _strip(tied, network, length) if tied else None


def _plan(
    found: tuple[Spot, ...], network: Network, site: SiteSheet, length: Callable[[float], str]
) -> Sketch:
    """Pipes with a place, and the finds on them, north at the top."""
    runs: list[tuple[Place, Place, str]] = []
    for line in network.lines:
        for piece_id, top in network.positions(line).items():
            piece = network.pieces[piece_id]
            if piece.along and not piece.vertical:
                ends = [place_of(network, site, line, top), place_of(network, site, line, top + piece.along)]
                if isinstance(ends[0], Place) and isinstance(ends[1], Place):
                    runs.append((ends[0], ends[1], line))
    dots = [(spot, spot.place) for spot in found if isinstance(spot.place, Place)]
    points = [point for run in runs for point in run[:2]] + [place for _, place in dots]
    low_e, high_e = min(p.east for p in points), max(p.east for p in points)
    low_n, high_n = min(p.north for p in points), max(p.north for p in points)
    scale = (WIDE - 2 * EDGE) / max(high_e - low_e, high_n - low_n, 1.0)
    tall = (high_n - low_n) * scale + 2 * EDGE + 40

    def at(place: Place) -> tuple[float, float]:
        return EDGE + (place.east - low_e) * scale, EDGE + (high_n - place.north) * scale

    parts, named = [], set[str]()
    for one, other, line in runs:
        (x1, y1), (x2, y2) = at(one), at(other)
        parts.append(_line(x1, y1, x2, y2, 2))
        if line not in named:
            named.add(line)
            parts.append(_text((x1 + x2) / 2 + 6, (y1 + y2) / 2 - 8, line))
    parts += [_dot(*at(place), str(spot.number)) for spot, place in dots]
    bar = _round((high_e - low_e + high_n - low_n) / 6 or 1.0)
    parts += [_line(EDGE, tall - 20, EDGE + bar * scale, tall - 20, 3), _text(EDGE, tall - 28, length(bar))]
    parts += [_line(WIDE - 25, 55, WIDE - 25, 20, 2), _text(WIDE - 30, 15, "N"),
              _line(WIDE - 30, 30, WIDE - 25, 20, 2), _line(WIDE - 20, 30, WIDE - 25, 20, 2)]  # fmt: skip
    words = "Plan sketch to scale, north at the top, from measured lengths and headings. Numbers: the log's."
    return Sketch(_svg(parts, tall), words)


def _strip(found: list[Spot], network: Network, length: Callable[[float], str]) -> Sketch:
    """Each line drawn straight, from its upper end on the left: distances, no plan."""
    lines = list(dict.fromkeys(spot.line or "" for spot in found))
    parts, y = [], 0.0
    for name in lines:
        y += ROW
        long = sum(network.pieces[i].along for i in network.lines[name]) or 1.0
        scale = (WIDE - 2 * EDGE) / long
        parts += [
            _line(EDGE, y, WIDE - EDGE, y, 2),
            _text(EDGE, y - 30, f"{name}, {length(long)}, water runs to the right"),
        ]
        for piece_id, top in network.positions(name).items():
            piece = network.pieces[piece_id]
            if piece.kind in ("opening", "junction") or piece.landmark:
                parts += [_line(EDGE + top * scale, y - 6, EDGE + top * scale, y + 6, 1)]
                parts += [_text(EDGE + top * scale, y + 22, piece.landmark or piece.name, 9)]
        for spot in found:
            if spot.line == name:
                parts.append(_dot(EDGE + min(spot.distance or 0.0, long) * scale, y, str(spot.number)))
    words = "Strip sketch: likely distances along each line, no plan and no directions. Numbers: the log's."
    return Sketch(_svg(parts, y + 40), words)


def _round(value: float) -> float:
    """A round number of m near a value: 1, 2 or 5 times a power of ten."""
    power = 1.0
    while power * 10 <= value:
        power *= 10
    return next(power * n for n in (5, 2, 1) if power * n <= value or n == 1)


def _line(x1: float, y1: float, x2: float, y2: float, wide: float) -> str:
    return (
        f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" stroke="black" stroke-width="{wide}" fill="none"/>'
    )


def _dot(x: float, y: float, number: str) -> str:
    ring = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="10" fill="white" stroke="black" stroke-width="2"/>'
    return ring + _text(x, y + 4, number, 11, "middle")


def _text(x: float, y: float, words: str, size: int = 12, anchor: str = "start") -> str:
    shown = escape(printable(words))
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-family="{FONT}, sans-serif" font-size="{size}" '
        f'text-anchor="{anchor}" fill="black">{shown}</text>'
    )


def _svg(parts: list[str], tall: float) -> str:
    size = f'width="{WIDE:.0f}" height="{tall:.0f}" viewBox="0 0 {WIDE:.0f} {tall:.0f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(parts)}</svg>'
