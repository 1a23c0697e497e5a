"""A practice site in words: what somebody who stands there knows, line by line, and what the trouble is."""

from __future__ import annotations

from collections.abc import Sequence

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.walk import HardSpot
from advisor.quantity import Dimension, show
from advisor.result.spots import place_name
from advisor.result.study import Study
from advisor.rulebase.trace import Firing
from advisor.site.network import Piece


def story(study: Study, ways: Sequence[RouteOutcome]) -> tuple[str, ...]:
    """The house, the lines that these ways in pass from top to bottom, the trouble, what is to be seen."""
    network = study.network
    built = f"built {network.year}" if network.year else "year not known"
    lines = tuple(f"{name}, {_chain(study, name)}" for name in _lines_of(study, ways))
    return (f"A house, {built}. In each line water runs this way: >", *lines, *trouble(study))


def trouble(study: Study) -> tuple[str, ...]:
    """What is to be seen, and whether the line holds."""
    holding = {True: "The line is holding water.", False: "The line drains.", None: ""}
    told = holding[study.circumstances.holding]
    smells = "It smells of gas. " if study.circumstances.gas_smell else ""
    poured = "Drain cleaner was poured in. " if study.circumstances.chemicals else ""
    return tuple(
        text for text in (f"To be seen: {study.target.words}.", f"{smells}{poured}{told}".strip()) if text
    )


def _lines_of(study: Study, ways: Sequence[RouteOutcome]) -> list[str]:
    """A bath arm that no rod enters is only in the way."""
    passed = {p.piece.line for outcome in ways for p in outcome.route.passages}
    return [name for name in study.network.lines if name in passed]


def _chain(study: Study, line: str) -> str:
    parts = [word for key in study.network.lines[line] for word in [_piece(study, key)] if word]
    first = study.network.pieces[study.network.lines[line][0]]
    size = show(first.wall.nominal.value, Dimension.LENGTH, study.units)
    return f"{size} {study.reader.call(first.wall.material.likeliest)}: {' > '.join(parts)}"


def _piece(study: Study, key: str) -> str:
    piece = study.network.pieces[key]
    if piece.kind in ("pipe", "drop", "rise", "belly"):
        long = show(piece.along, Dimension.LENGTH, study.units)
        return {"pipe": long, "drop": f"{long} down", "rise": f"{long} up", "belly": f"sag of {long}"}[
            piece.kind
        ]
    if piece.kind == "opening" and piece.hole is not None:
        return piece.name if piece.hole.there >= 1 else f"{piece.name} (if it is there)"
    return fitting(study, piece)


def fitting(study: Study, piece: Piece) -> str:
    """What a piece is called: the fitting, as far as it is known, and what joins there."""
    called = piece.name
    if piece.fitting is not None and piece.kind in ("bend", "junction"):
        known = len(piece.fitting.options) == 1
        called = study.reader.call(piece.fitting.likeliest) if known else f"{piece.kind}, kind not known"
    return f"{called} where {piece.name} joins" if piece.kind == "junction" else called


def way_words(study: Study, outcome: RouteOutcome) -> str:
    """A way in as a choice: the opening, which way, and what lies between."""
    route, units = outcome.route, study.units
    length = show(float(outcome.march.end.at.mean()), Dimension.LENGTH, units)
    way = {"with": "down the line", "against": "up the line", "both": "up and down"}[route.direction]
    turns = outcome.march.end.bends
    return f"{route.opening.name}, {way}: {length}, {turns} turn{'' if turns == 1 else 's'}"


def spot_words(study: Study, outcome: RouteOutcome, spot: HardSpot) -> tuple[str, ...]:
    """Where the head stands before a hard spot: what it is, how far in, behind how many turns."""
    at = show(float(spot.spot.station.at.mean()), Dimension.LENGTH, study.units)
    behind = spot.spot.station.bends
    return (
        f"You went in at {outcome.route.opening.name} with {outcome.loadout.name}.",
        f"Ahead, at {at}: {place_name(spot, study.reader)}, {_flow(spot)} the flow. "
        f"{behind} turn{'' if behind == 1 else 's'} behind the head.",
    )


def _flow(spot: HardSpot) -> str:
    return "with" if spot.passage.flow == "with" else "against"


def caution(study: Study, hazard: str, at: float | None = None) -> str:
    """The caution of a hazard as the rules tell it here; `at` is how far in, m, where it names a place."""
    rules = [r for r in study.base.all_rules if r.conclusion.caution and r.conclusion.caution.id == hazard]
    fired = {f.rule_id for f in study.site_firings if f.outcome}
    rule = min(rules, key=lambda each: each.id not in fired)
    values = {**study.base.limits, "passage.at": at}
    told = Firing(rule, True, values, study.reader).conclusion.caution
    assert told is not None
    return told.text


def cause(firing: Firing) -> tuple[str, str, str]:
    """A rule told as a teacher would: the cause, then the rule, then what would show it wrong."""
    return (
        f"Cause: {firing.rule.mechanism}",
        f"So: {firing.because}",
        f"If this is wrong: {firing.rule.if_wrong}",
    )
