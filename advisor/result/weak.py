"""What the advice for the leading way rests on that nobody outside has been seen to say."""

from __future__ import annotations

from advisor.outcome.assess import RouteOutcome
from advisor.result.study import Study
from advisor.tables.load import Tables
from advisor.worlds.spread import middle


def weak_ground(study: Study) -> tuple[str, ...]:
    """What the advice for the leading route rests on that nobody outside has been seen to say."""
    if not study.ranked:
        return ()
    outcome = study.ranked[0].outcome
    rules = {
        f.rule_id
        for spot in outcome.spots
        for ruling in spot.rulings
        for f in ruling.firings
        if f.outcome and all(grade.weak for grade, _ in f.rule.sources)
    }
    radii = {
        f"radius of {shape.passage.piece.name}: {evidence.grade.words}"
        for shape in outcome.geometries
        if shape.turn.way == "bend" and shape.passage.piece.fitting is not None
        for kind in [study.tables.bends[shape.passage.piece.fitting.likeliest]]
        for evidence in [
            kind.radius(
                study.tables.materials[shape.passage.piece.wall.material.likeliest],
                shape.passage.piece.wall.nominal.value,
            ).evidence
        ]
        if evidence.grade.weak
    }
    friction = {f"friction of rod on {m}: our judgement, no source" for m in _materials(outcome)}
    others = (
        *sorted(friction),
        *sorted(radii),
        *_entries(outcome),
        *_roots(outcome, study.tables),
        *_stiff(outcome),
    )
    return (*others, *(f"rule {rule}" for rule in sorted(rules)))


def _entries(outcome: RouteOutcome) -> list[str]:
    """The turns behind the opening: no text gives the curve of such a fitting."""
    steps = ((p.step, p.piece.name) for p in outcome.route.passages if p.step is not None)
    return [
        f"curve of the {step.kind} at {name}: {step.radius_bores.evidence.grade.words}"
        for step, name in steps
        if step.shape != "open" and step.radius_bores.evidence.grade.weak
    ]


def _roots(outcome: RouteOutcome, tables: Tables) -> list[str]:
    """How much of the bore roots leave, where a hard place rests on it."""
    grade = tables.files.conditions.roots.bore_left.evidence.grade
    runs = dict.fromkeys(spot.passage.piece.line for spot in outcome.spots if spot.spot.by_roots)
    return [f"gap that roots leave in {line}: {grade.words}" for line in runs if grade.weak]


def _stiff(outcome: RouteOutcome) -> list[str]:
    """How the rod end turns, for a rod stiffer than any that was tried."""
    for spot in outcome.spots:
        drawn, kit = spot.spot.drawn, spot.spot.kit
        if spot.spot.shape.turn.bends and middle(kit.stiffness) > drawn.likely("tried_stiffness"):
            return [
                f"how the rod end of {outcome.loadout.rod.name} turns: stiffer than any rod that was tried"
            ]
    return []


def _materials(outcome: RouteOutcome) -> set[str]:
    return {p.wall_out.material.likeliest for p in outcome.route.passages}
