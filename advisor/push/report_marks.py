"""The marks of a report, with their sketch, and who is to be asked before anybody digs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations

from advisor.push.advice import Advice
from advisor.push.kinds import MARK
from advisor.push.marks import Spot
from advisor.push.place import Place
from advisor.push.report_depths import depth_words, unlike_words
from advisor.push.report_parts import Section
from advisor.push.report_words import lengths, place_words
from advisor.push.sketch import sketch_of
from advisor.quantity import Dimension, show_told
from advisor.result.study import Study
from advisor.site.sheet import SiteSheet

Length = Callable[[float], str]


def marks_section(found: tuple[Spot, ...], study: Study, site: SiteSheet, advice: Advice) -> Section | None:
    """Every mark with its depth, place and tapes, what makes it right, and a sketch of marks and finds."""
    if not found:
        return None
    length = lengths(study.units)
    marks = [spot for spot in found if spot.kind == MARK]
    rows = tuple(
        (
            str(spot.number),
            spot.words,
            place_words(spot, study.units),
            depth_words(spot, study.units),
            "; ".join(
                f"{show_told(long, Dimension.LENGTH, study.units)} from {name}" for name, long in spot.tapes
            )
            or "no tape",
        )
        for spot in marks
    )
    lines = [words for spot in marks for words in spot.remarks]
    lines += [line for spot in found if spot.depths for line in unlike_words(spot, advice, study.units)]
    lines += [line for spot in found for line in _about(spot, site, study)]
    lines += _two_sides(marks, length)
    header = ("no.", "mark", "where", "depth", "tape") if rows else ()
    heading = "Marks and sketch" if marks else "Sketch"
    sketch = sketch_of(found, study.network, site, study.units)
    return Section(heading, tuple(dict.fromkeys(lines)), header, rows, sketch)


def digging_section(study: Study) -> Section:
    """Who is to be asked before a spade goes in: the caution of the region, whatever else is told."""
    region = study.network.region.replace(" ", "-")
    rule = next(rule for rule in study.base.all_rules if rule.id == f"digging-{region}")
    caution = rule.conclusion.caution
    assert caution is not None
    return Section("Before anybody digs", (f"{caution.word.upper()}: {caution.text}",), strong=True)


def _about(spot: Spot, site: SiteSheet, study: Study) -> Iterator[str]:
    number, length = f"No. {spot.number}", lengths(study.units)
    if spot.same_depth is False:
        told = ", ".join(f"{length(depth)} ({how})" for how, depth in spot.depths)
        yield f"{number}: the depths disagree ({told}). Take none of them; look for iron or a tilt."
    if isinstance(spot.place, Place):
        yield f"{number}: {_compass(spot.place, site, study)}."
    else:
        yield f"{number} has no place in plan: {spot.place}."
    if isinstance(spot.taped, str):
        yield f"{number}: {spot.taped}."
    elif spot.taped is not None:
        (one, _), (other, _) = spot.tapes
        along, off = length(spot.taped.along), length(spot.taped.off)
        yield f"{number}: {along} from {one} toward {other}, {off} off that line."
    if spot.offset:
        yield f"{number}: lens and transmitter are {length(spot.offset)} apart."


def _two_sides(marks: list[Spot], length: Length) -> Iterator[str]:
    """One place marked from two openings: the counters check each other."""
    for one, other in combinations(marks, 2):
        if one.words != other.words or one.opening == other.opening or one.line != other.line:
            continue
        if one.distance is not None and other.distance is not None:
            apart = length(abs(one.distance - other.distance))
            openings = f"from {one.opening} and from {other.opening}"
            yield f"{one.words} was marked {openings}: {apart} apart along {one.line}."


def _compass(place: Place, site: SiteSheet, study: Study) -> str:
    length = lengths(study.units)
    parts = [
        f"{length(abs(value))} {ahead if value > 0 else behind}"
        for value, ahead, behind in ((place.east, "east", "west"), (place.north, "north", "south"))
        if abs(value) >= study.drawn.likely("same_place")
    ]
    origin = site.origin.at if site.origin else "the origin"
    return f"{' and '.join(parts)} of {origin}" if parts else f"at {origin}"
