"""A sketch of finds and marks as SVG: a plan where it was measured, else a strip along the lines."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from advisor.errors import printable
from advisor.push.report.marks import Spot
from advisor.push.track.place import Place, place_of
from advisor.quantity import Dimension, Units, show
from advisor.site.network import Network, Piece
from advisor.site.sheet import SiteSheet

WIDE, TALL, EDGE, ROW = 680.0, 420.0, 50.0, 70.0  # of the page, in its points
FONT = "DejaVu Sans"
NAME_ROWS, NAME_LETTER = 4, 6.0  # of names below a line; the width of a letter at 9 points, with room


@dataclass(frozen=True)
class Sketch:
    """The drawing, and what it shows in words for those who do not see it."""

    svg: str
    words: str


def sketch_of(
    found: tuple[Spot, ...], network: Network, site: SiteSheet, units: Units, met: frozenset[str]
) -> Sketch | None:
    """The best sketch that what was measured allows; nothing where no find is tied to a line."""
    if any(isinstance(spot.place, Place) for spot in found):
        return _plan(found, network, site, units, met)
    tied = [spot for spot in found if spot.line in network.lines and spot.distance is not None]
    return _strip(tied, network, units, met) if tied else None


def _plan(
    found: tuple[Spot, ...], network: Network, site: SiteSheet, units: Units, met: frozenset[str]
) -> Sketch:
    """Pipes with a place, openings and finds on them, north at the top."""
    runs: list[tuple[Place, Place, str]] = []
    holes: list[tuple[Place, str]] = []
    for line in network.lines:
        for piece_id, top in network.positions(line).items():
            piece = network.pieces[piece_id]
            upper = place_of(network, site, line, top)
            lower = place_of(network, site, line, top + piece.along)
            if not isinstance(upper, Place) or not isinstance(lower, Place):
                continue
            if piece.along and not piece.vertical:
                runs.append((upper, lower, line))
            if piece.hole is not None:
                holes.append((upper, _called(piece, met)))
    dots: dict[Place, list[str]] = {}
    for spot in found:
        if isinstance(spot.place, Place):
            dots.setdefault(spot.place, []).append(str(spot.number))
    points = [point for run in runs for point in run[:2]] + list(dots)
    low_e, high_e = min(p.east for p in points), max(p.east for p in points)
    low_n, high_n = min(p.north for p in points), max(p.north for p in points)
    wide, high = max(high_e - low_e, 1.0), max(high_n - low_n, 1.0)
    scale = min((WIDE - 2 * EDGE) / wide, (TALL - 2 * EDGE) / high)
    tall = high * scale + 2 * EDGE + 30

    def at(place: Place) -> tuple[float, float]:
        return EDGE + (place.east - low_e) * scale, EDGE + (high_n - place.north) * scale

    parts, named = [], set[str]()
    for one, other, line in runs:
        (x1, y1), (x2, y2) = at(one), at(other)
        parts.append(_line(x1, y1, x2, y2, 2))
        if line not in named:
            named.add(line)
            parts.append(_text(x1 + (x2 - x1) / 4 + 8, y1 + (y2 - y1) / 4 - 16, line))
    for place, name in holes:
        x, y = at(place)
        parts += [_line(x - 5, y - 5, x + 5, y + 5, 1), _line(x - 5, y + 5, x + 5, y - 5, 1)]
        parts.append(_text(x + 4, y + 20, name, 9))
    parts += [_dot(*at(place), ", ".join(numbers)) for place, numbers in dots.items()]
    one_unit = 0.3048 if units is Units.INCH else 1.0
    bar = _round(wide / 4 / one_unit) * one_unit
    shown = show(bar, Dimension.LENGTH, units)
    parts += [_line(EDGE, tall - 12, EDGE + bar * scale, tall - 12, 3), _text(EDGE, tall - 20, shown)]
    parts += [_line(WIDE - 25, 55, WIDE - 25, 20, 2), _text(WIDE - 25, 15, "N", 12, "middle")]
    parts += [_line(WIDE - 30, 30, WIDE - 25, 20, 2), _line(WIDE - 20, 30, WIDE - 25, 20, 2)]
    words = "Plan sketch to scale, north at the top, from measured lengths and headings. "
    return Sketch(_svg(parts, tall), words + "Circles: numbers of the finds and marks. Crosses: openings.")


def _strip(found: list[Spot], network: Network, units: Units, met: frozenset[str]) -> Sketch:
    """Each line drawn straight, from its upper end on the left: distances, no plan."""
    parts, y = [], 0.0
    for name in dict.fromkeys(spot.line or "" for spot in found):
        y += ROW
        long = sum(network.pieces[i].along for i in network.lines[name]) or 1.0
        scale = (WIDE - 2 * EDGE) / long
        title = f"{name}, {show(long, Dimension.LENGTH, units)}, water runs to the right"
        parts += [_line(EDGE, y, WIDE - EDGE, y, 2), _text(EDGE, y - 30, title)]
        ends = [0.0] * NAME_ROWS  # where the last name of each row below the line ends
        for piece_id, top in network.positions(name).items():
            piece = network.pieces[piece_id]
            if piece.kind in ("opening", "junction") or piece.landmark:
                x, words = EDGE + top * scale, piece.landmark or _called(piece, met)
                parts.append(_line(x, y - 6, x, y + 6, 1))
                left = max(min(x, WIDE - NAME_LETTER * len(words)), 0.0)
                row = next((r for r, end in enumerate(ends) if left >= end), ends.index(min(ends)))
                left = max(left, ends[row])
                parts.append(_text(left, y + 22 + 12 * row, words, 9))
                ends[row] = left + NAME_LETTER * (len(words) + 1)
        dots: dict[float, list[str]] = {}
        for spot in found:
            if spot.line == name:
                dots.setdefault(min(spot.distance or 0.0, long), []).append(str(spot.number))
        parts += [_dot(EDGE + at * scale, y, ", ".join(numbers)) for at, numbers in dots.items()]
        y += 20 + 12 * (NAME_ROWS - 2)
    words = "Strip sketch: likely distances along each line, no plan and no directions. "
    return Sketch(_svg(parts, y + 40), words + "Circles: numbers of the finds and marks.")


def _called(piece: Piece, met: frozenset[str]) -> str:
    """Its name, and where neither the sheet nor a push knows of it, that."""
    doubted = piece.hole is not None and piece.hole.there < 1 and piece.id not in met
    return f"{piece.name}, if it is there" if doubted else piece.name


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


def _dot(x: float, y: float, numbers: str) -> str:
    half = 10.0 + 3.0 * max(len(numbers) - 2, 0)
    ring = f'<rect x="{x - half:.1f}" y="{y - 10:.1f}" width="{2 * half:.1f}" height="20" rx="10" '
    return ring + 'fill="white" stroke="black" stroke-width="2"/>' + _text(x, y + 4, numbers, 11, "middle")


def _text(x: float, y: float, words: str, size: int = 12, anchor: str = "start") -> str:
    shown = escape(printable(words))
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-family="{FONT}, sans-serif" font-size="{size}" '
        f'text-anchor="{anchor}" fill="black">{shown}</text>'
    )


def _svg(parts: list[str], tall: float) -> str:
    size = f'width="{WIDE:.0f}" height="{tall:.0f}" viewBox="0 0 {WIDE:.0f} {tall:.0f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(parts)}</svg>'
