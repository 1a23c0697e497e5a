"""A practice site in words: what somebody who stands there knows, line by line, and what the trouble is."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.walk import HardSpot
from advisor.practice.cause import variant_of
from advisor.practice.drill import Drain
from advisor.quantity import Dimension, show
from advisor.result.ends import ends_of
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.rulebase.rule import Caution
from advisor.rulebase.trace import Firing
from advisor.site.network import Piece

_SMELLS = {True: "It smells of gas.", False: "No smell of gas.", None: "Nobody has smelled for gas."}
_POURED = {
    True: "Drain cleaner was poured in.",
    False: "Everybody was asked: nobody poured in a drain cleaner.",
    None: "Nobody has asked whether a drain cleaner was poured in.",
}
_HOLDS = {
    True: "The line is holding water.",
    False: "The line drains.",
    None: "Nobody has seen whether it drains.",
}
_WAYS = {"with": "down the line", "against": "up the line", "both": "one way, then the other"}


def story(study: Study) -> tuple[str, ...]:
    """The building, the trouble, what is to be seen."""
    year = study.network.year
    built = f"A building of {year}." if year else "A building; nobody knows its year."
    return (built, *trouble(study))


def drain(study: Study, ways: Sequence[RouteOutcome], open_with: bool = True) -> Drain:
    """The lines that these ways in pass, to be drawn. A bath arm that no rod enters is only in the way."""
    passed = {p.piece.line for outcome in ways for p in outcome.route.passages}
    return Drain(study.network, study.units, tuple(n for n in study.network.lines if n in passed), open_with)


def trouble(study: Study) -> tuple[str, ...]:
    """What is to be seen, and what is known of each danger that forbids a push: not known is not no."""
    given = study.circumstances
    told = (_SMELLS[given.gas_smell], _POURED[given.chemicals], _HOLDS[given.holding])
    return (f"The camera is to see: {study.target.words}.", " ".join(told))


def fitting(study: Study, piece: Piece) -> str:
    """What a piece is called: the fitting, as far as it is known, and what joins there."""
    called = piece.name
    if piece.fitting is not None and piece.kind in ("bend", "junction"):
        called = study.reader.call(piece.fitting.likeliest)
        if len(piece.fitting.options) > 1:
            called = f"{piece.kind} (likely a {called})"
    return f"{called} where {piece.name} joins" if piece.kind == "junction" else called


def way_words(study: Study, outcome: RouteOutcome) -> str:
    """A way in as a choice: the opening, which way, and what lies between."""
    route, units = outcome.route, study.units
    length = show(float(outcome.march.end.at.mean()), Dimension.LENGTH, units)
    way = _WAYS[route.direction]
    turns = outcome.march.end.bends
    return f"{route.opening.name}, {way}: {length}, {turns} turn{'' if turns == 1 else 's'}"


def how_it_ends(study: Study, outcome: RouteOutcome) -> tuple[str, ...]:
    """How often a way in gets there, and where that is not nearly always, what ends it most and why."""
    told = f"Of 100 drains like this one the camera sees it in {100 * outcome.chance:.0f}."
    ends = ends_of(outcome, study.reader)
    if not ends or outcome.chance >= study.drawn.likely("likely_share"):
        return (told,)
    worst = ends[0]
    most = f"It ends most often ({100 * worst.share:.0f} of 100) because {worst.why}."
    return (told, most, *(variant_of(worst.spot, study) if worst.spot else ()))


def in_a_hundred(share: float) -> str:
    """`37 times in 100` for .37, as people count."""
    number = round(100 * share)
    if number == 0:
        return "less than once in 100"  # never is not to be known
    if number == 100 and share < 1:
        return "more than 99 times in 100"
    return "once in 100" if number == 1 else f"{number} times in 100"


def spot_words(study: Study, outcome: RouteOutcome, spot: HardSpot) -> tuple[str, ...]:
    """Where the head stands before a hard spot: what it is, how far in, behind how many turns."""
    far = float(spot.spot.station.at.mean())
    at = f"at {show(far, Dimension.LENGTH, study.units)}" if far > 0 else "right behind the opening"
    behind = spot.spot.station.bends
    return (
        f"You went in at {outcome.route.opening.name} with {outcome.loadout.name}.",
        f"Ahead, {at}: {place_name(spot, study.reader)}, {_flow(spot)} the flow. "
        f"{behind} turn{'' if behind == 1 else 's'} behind the head.",
    )


def _flow(spot: HardSpot) -> str:
    return "with" if spot.passage.flow == "with" else "against"


def caution(study: Study, hazard: str, at: float | None = None) -> Caution:
    """The caution of a hazard as the rules tell it here; `at` is how far in, m, where it names a place."""
    rules = [r for r in study.base.all_rules if r.conclusion.caution and r.conclusion.caution.id == hazard]
    fired = {f.rule_id for f in study.site_firings if f.outcome}
    rule = min(rules, key=lambda each: each.id not in fired)
    values = {**study.base.limits, "passage.at": at}
    told = Firing(rule, True, values, study.reader).conclusion.caution
    assert told is not None
    return told
