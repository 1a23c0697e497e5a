"""The way as a strip to scale along the counter: bores, falls, sags, fittings and distances, in black."""

from __future__ import annotations

from itertools import pairwise

from advisor.card.labels import Label, placed
from advisor.card.scale import Scale, ticks
from advisor.quantity import Units, show_reading
from advisor.result.model import RouteNote, SightNote
from advisor.result.readings import AT_OPENING, at_opening
from advisor.result.way_model import RunNote
from advisor.tables.card import ENDS, PERHAPS, CardFile
from advisor.tables.conditions import ROOTS

WIDTH = 540.0  # points, the text width of the widest page; a narrower one shows it smaller, never cut
EDGE = 24.0  # left free at both ends for half a label
SIZE = 12.0  # points of every letter in it
ROW = 14.0
ROWS = 4  # of labels above the pipe
TALLEST = 22.0  # points of the widest bore drawn
_TURNS = ("bend", "into main", "up the main", "into branch")
_SIDES = ("joins", "fork")
_BARS = (*ENDS, "stop", "drain end", "step", "other pipe")


def strip_svg(route: RouteNote, units: Units) -> str:
    """The drawing; nothing in it is text of users."""
    scale = Scale(route.length_m, WIDTH, EDGE)
    labels = placed(_labels(route, scale, units), WIDTH, ROWS, SIZE)
    used = max((label.row for label in labels), default=-1) + 1
    middle = used * ROW + 14 + TALLEST / 2
    widest = max((run.nominal_m for run in route.runs), default=0.1)
    parts = [_run(run, scale, middle, widest) for run in route.runs]
    parts += [_steps(route.runs, scale, middle, widest)]
    parts += [_mark(note, scale, middle) for note in _drawn(route)]
    for label in labels:
        top = (used - label.row) * ROW
        parts.append(_line(label.at, top + 2, label.at, middle - TALLEST / 2 - 2, 0.6))
        weight = ' font-weight="bold"' if label.strong else ""
        parts.append(_text(label.left, top - 2, label.text, weight))
    axis = middle + TALLEST / 2 + 11
    for at, words in ticks(route.length_m, units):
        x = scale.x(at)
        parts.append(_line(x, axis - 4, x, axis, 0.8))
        parts.append(_text(x, axis + SIZE, words, ' text-anchor="middle"'))
    parts.append(_line(scale.x(0), axis, scale.x(route.length_m), axis, 0.8))
    height = axis + SIZE + 3  # as far as a letter reaches below its line
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" font-family="DejaVu Sans" font-size="{SIZE:.0f}">'
        + "".join(parts)
        + "</svg>"
    )


def strip_words(route: RouteNote, units: Units) -> str:
    """The drawing for those who cannot see it."""
    told = []
    for note in route.sights:
        at = AT_OPENING if at_opening(note) else " to ".join(show_reading(m, units) for m in _ends(note))
        told.append(f"{at} {note.sight} {note.name}")
    return f"The way from {route.opening}, to scale: " + "; ".join(told) + "."


def strip_signs(route: RouteNote, words: CardFile) -> str:
    """What the marks mean that are in this drawing."""
    sights = {note.sight for note in _drawn(route)}
    drawn = {
        "hard": any(note.hard is not None and note.sight != ROOTS for note in route.sights),
        "hard run": ROOTS in sights,
        "turn": not sights.isdisjoint(_TURNS),
        "joins": not sights.isdisjoint(_SIDES),
        "bar": not sights.isdisjoint(_BARS),
        "bore": any(one.nominal_m != other.nominal_m for one, other in pairwise(route.runs)),
        "target": "target" in sights,
        "opening": not sights.isdisjoint(("opening", PERHAPS)),
        "fall": any(run.upright for run in route.runs),
        "water": any(run.sag for run in route.runs),
    }
    told = "; ".join(words.signs[sign] for sign, there in drawn.items() if there)
    return f"{told[0].upper()}{told[1:]}." if told else ""


def _drawn(route: RouteNote) -> list[SightNote]:
    """What lies on the way: what comes behind its end has no place in the drawing."""
    return [note for note in route.sights if not note.behind]


def _ends(note: SightNote) -> tuple[float, ...]:
    """Where it stands, m; of roots, which may stand at any joint of a run, the two ends of that."""
    return (note.at_low_m, note.at_high_m) if note.sight == ROOTS else (note.at_m,)


def _labels(route: RouteNote, scale: Scale, units: Units) -> list[Label]:
    """One label for each reading; what lies at one place shares it, and a hard spot makes it strong."""
    by_words: dict[str, Label] = {}
    for note, at in ((each, at) for each in _drawn(route) for at in _ends(each)):
        words = "opening" if at_opening(note) else show_reading(at, units)
        strong = note.hard is not None
        kept = by_words.get(words)
        by_words[words] = Label(scale.x(at), words, strong or (kept is not None and kept.strong))
    return list(by_words.values())


def _run(run: RunNote, scale: Scale, middle: float, widest: float) -> str:
    half = TALLEST / 2 * run.nominal_m / widest
    left, right = scale.x(run.from_m), scale.x(run.to_m)
    parts = [_line(left, middle + y, right, middle + y, 1.6) for y in (-half, half)]
    if run.upright:
        parts += [_chevron(x, middle) for x in _spread(left, right, 14)]
    if run.sag:
        parts += [
            f'<path d="M{x:.1f} {middle + half - 3:.1f} q 3 -5 6 0 t 6 0" fill="none" stroke="black" '
            'stroke-width="1.2"/>'
            for x in _spread(left, right, 13)
        ]
    return "".join(parts)


def _steps(runs: tuple[RunNote, ...], scale: Scale, middle: float, widest: float) -> str:
    """The rims between stretches of different bore."""
    parts = []
    for one, other in pairwise(runs):
        a, b = (TALLEST / 2 * run.nominal_m / widest for run in (one, other))
        if a != b:
            x = scale.x(other.from_m)
            parts += [_line(x, middle - a, x, middle - b, 1.6), _line(x, middle + a, x, middle + b, 1.6)]
    return "".join(parts)


def _mark(note: SightNote, scale: Scale, middle: float) -> str:
    """Our own plain marks: an elbow for a turn, a stub for a pipe that joins, a bar for a rim or an end."""
    x, half = scale.x(note.at_m), TALLEST / 2
    parts = []
    if note.hard is not None:
        ends = [scale.x(at) for at in _ends(note)]
        parts += [
            f'<path d="M{end - 6:.1f} {middle - half - 12:.1f} h 12 l -6 11 z" fill="black" stroke="none"/>'
            for end in ends
        ]
        if note.sight == ROOTS:
            parts.append(_line(ends[0], middle - half - 10.5, ends[1], middle - half - 10.5, 3))
        else:
            parts.append(_line(x, middle - half, x, middle + half, 3.5))
    if note.sight in _TURNS:
        parts.append(
            f'<path d="M{x - 7:.1f} {middle:.1f} h 7 v 7" fill="none" stroke="black" stroke-width="2.2"/>'
        )
    elif note.sight in _SIDES:
        down = note.side == "right"
        y = middle + half if down else middle - half
        dash = "" if note.side else ' stroke-dasharray="2 1.5"'
        parts.append(
            f'<path d="M{x:.1f} {y:.1f} l -6 {9 if down else -9}" fill="none" stroke="black" '
            f'stroke-width="2.6"{dash}/>'
        )
    elif note.sight in _BARS:
        parts.append(_line(x, middle - half, x, middle + half, 1.2))
    elif note.sight == "target":
        parts.append(_line(x, middle - half - 3, x, middle + half + 3, 1.2))
        parts.append(_chevron_right(x + 3, middle))
    elif note.sight in ("opening", PERHAPS):
        dash = ' stroke-dasharray="2 1.5"' if note.sight == PERHAPS else ""
        parts.append(
            f'<circle cx="{x:.1f}" cy="{middle - half:.1f}" r="3.5" fill="white" stroke="black" '
            f'stroke-width="1.4"{dash}/>'
        )
    return "".join(parts)


def _spread(left: float, right: float, step: float) -> list[float]:
    count = max(int((right - left) / step), 1)
    gap = (right - left) / count
    return [left + gap * (i + 0.5) - (6 if gap > 12 else 0) for i in range(count)]


def _line(x1: float, y1: float, x2: float, y2: float, width: float) -> str:
    return (
        f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="black" '
        f'stroke-width="{width}"/>'
    )


def _chevron(x: float, y: float) -> str:
    return f'<path d="M{x:.1f} {y - 3:.1f} l 4 5 l 4 -5" fill="none" stroke="black" stroke-width="1.4"/>'


def _chevron_right(x: float, y: float) -> str:
    return f'<path d="M{x:.1f} {y - 4:.1f} l 5 4 l -5 4" fill="none" stroke="black" stroke-width="1.4"/>'


def _text(x: float, y: float, words: str, more: str) -> str:
    quoted = words.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")
    return f'<text x="{x:.1f}" y="{y:.1f}"{more}>{quoted}</text>'
