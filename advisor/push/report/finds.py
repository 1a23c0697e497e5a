"""The finds of a report: one row each, with where and how deep it is and what is advised."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from advisor.push.log.kinds import FIND
from advisor.push.now.datum import Datum
from advisor.push.report.depths import depth_words
from advisor.push.report.marks import Spot
from advisor.push.report.parts import Section
from advisor.push.report.words import place_words
from advisor.quantity import Units
from advisor.tables.finds import LOCATE


def finds_section(
    finds: Sequence[Spot], beside: tuple[str, ...], units: Units, datum: Callable[[str], Datum]
) -> Section:
    """The whole section; `beside` is what is told where there is none, `datum` from where lengths count."""
    if not finds:
        return Section("Finds", beside)
    rows = tuple(
        (
            str(spot.number),
            spot.told,
            place_words(spot, units, datum),
            depth_words(spot, units),
            _advised(spot),
        )
        for spot in finds
    )
    return Section("Finds", (), ("no.", "what", "where", "depth", "advice"), rows)


def logged_words(found: Sequence[Spot]) -> str:
    """How many finds were logged, what each is and what is advised, in a word: an owner may read no more."""
    finds = [spot for spot in found if spot.kind == FIND]
    each = "; ".join(f"no. {spot.number}, {spot.told}: {_advised(spot)}" for spot in finds)
    return f"{len(finds)} {'find' if len(finds) == 1 else 'finds'} logged: {each}." if finds else ""


def _advised(spot: Spot) -> str:
    """In one word each; whoever reads no more than that digs nowhere that is not located."""
    if spot.own_advice is None:
        return ", ".join(dict.fromkeys(row.advice for row in spot.advised)) or "somebody has to judge it"
    first = f"{LOCATE}; the operator: " if spot.locate and spot.to_dig else ""
    return f"{first}{spot.own_advice}"
