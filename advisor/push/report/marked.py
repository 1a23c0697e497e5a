"""The marks of a report, with their sketch, and who is to be asked before anybody digs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations

from advisor.push.log.kinds import MARK
from advisor.push.now.datum import Datum
from advisor.push.report.advice import Advice
from advisor.push.report.depths import depth_words, unlike_words
from advisor.push.report.marks import Spot
from advisor.push.report.parts import Section
from advisor.push.report.sketch import sketch_of
from advisor.push.report.words import lengths, place_words
from advisor.push.track.place import Place
from advisor.quantity import show_tape
from advisor.result.build import plan_of
from advisor.result.study import Study
from advisor.rulebase.rule import Caution, Rule
from advisor.site.sheet import SiteSheet

Length = Callable[[float], str]


def marks_section(
    found: tuple[Spot, ...],
    study: Study,
    site: SiteSheet,
    advice: Advice,
    datum: Callable[[str], Datum],
    met: frozenset[str],
) -> Section | None:
    """Every mark with its depth, place and tapes, what makes it right, and a sketch of marks and finds.

    `met`: the ids of what the pushes recognized of the map.
    """
    if not found:
        return None
    length = lengths(study.units)
    marks = [spot for spot in found if spot.kind == MARK]
    rows = tuple(
        (
            str(spot.number),
            spot.words,
            place_words(spot, study.units, datum),
            depth_words(spot, study.units),
            "; ".join(f"{show_tape(long, study.units)} from {name}" for name, long in spot.tapes)
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
    sketch = sketch_of(found, study.network, site, study.units, met)
    return Section(heading, tuple(dict.fromkeys(lines)), header, rows, sketch)


def digging_section(study: Study) -> Section:
    """Who is to be asked before a spade goes in: the caution of the region, and those who share the drain."""
    rules = {rule.id: rule for rule in study.base.all_rules}
    dig = rules[f"digging-{study.network.region.replace(' ', '-')}"]
    shared = rules["neighbours-share-the-drain"]
    lines, plan = [_warned(dig)], plan_of(study)
    hazard = _caution(shared).id
    if any(note.id == hazard for note in plan.cautions):
        lines.append(_warned(shared))
    elif any(ask.caution.id == hazard for ask in plan.ask):
        lines.append(f"Not known whether neighbours share the drain. Until it is known, {_warned(shared)}")
    return Section("Before anybody digs", tuple(lines), strong=True)


def _caution(rule: Rule) -> Caution:
    assert rule.conclusion.caution is not None
    return rule.conclusion.caution


def _warned(rule: Rule) -> str:
    caution = _caution(rule)
    return f"{caution.word.upper()}: {caution.text} {rule.mechanism}"


def _about(spot: Spot, site: SiteSheet, study: Study) -> Iterator[str]:
    number, length = f"No. {spot.number}", lengths(study.units)
    if spot.same_depth is False:
        told = ", ".join(f"{show_tape(depth, study.units)} ({how})" for how, depth in spot.depths)
        yield f"{number}: the depths disagree ({told}). Take none of them; look for iron or a tilt."
    if isinstance(spot.place, Place):
        yield f"{number}: {_compass(spot.place, site, study)}."
    else:
        yield f"{number} has no place in plan: {spot.place}."
    if isinstance(spot.taped, str):
        yield f"{number}: {spot.taped}."
    elif spot.taped is not None:
        (one, _), (other, _) = spot.tapes
        along, off = (show_tape(long, study.units) for long in (spot.taped.along, spot.taped.off))
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
