"""A hard spot as plain data: why it is hard, what to try, in what order, and what not."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import BLOW, NO_TRY, STEADY, TECHNIQUES, TURN
from advisor.outcome.rulings import no_blow
from advisor.outcome.spot_facts import OF_HELD
from advisor.outcome.walk import HardSpot
from advisor.result.model import CautionNote, PassageNote, TechniqueNote, Variant
from advisor.result.why_hard import asked_for, by_share, difficulty
from advisor.rulebase.reader import Reader
from advisor.rulebase.rule import GRAVEST_FIRST, Caution
from advisor.rulebase.trace import Firing
from advisor.tables.conditions import ROOTS
from advisor.worlds.spread import below, middle

_USELESS = "It changes nothing that stops the head here."
_ELSEWHERE = "It may help, but more tries here cost more minutes than going elsewhere."


def passage_note(hard: HardSpot, outcome: RouteOutcome, reader: Reader) -> PassageNote:
    """One hard spot of a route."""
    passage, spot = hard.passage, hard.spot
    at = spot.station.at
    low, high = spot.run if spot.by_roots else (below(at, each) for each in (0.1, 0.9))
    main = max(hard.rulings, key=lambda ruling: ruling.share)
    return PassageNote(
        name=place_name(hard, reader),
        kind=main.variant,
        variants=tuple(Variant(name=r.variant, share=r.share) for r in hard.rulings),
        line=passage.piece.line,
        at_m=middle(at),
        at_low_m=low,
        at_high_m=high,
        somewhere=spot.by_roots,
        runs_on_m=high + sum(piece.along for piece in passage.more)
        if spot.by_roots and passage.more
        else None,
        direction=passage.flow,
        difficulty=_unique(difficulty(hard)),
        chance_plain=float(spot.plain.passes.mean()),
        chance=float(hard.with_techniques.mean()),
        kinks=float(spot.plain.kink.mean()),
        margins=_margins(hard),
        techniques=_techniques(hard, outcome),
        cautions=cautions_of(f for r in by_share(hard) for f in r.firings),
        here=cautions_of(f for r in by_share(hard) for f in r.firings if f.rule.about == "passage"),
    )


def place_name(hard: HardSpot, reader: Reader) -> str:
    """What a reader calls the spot: the fitting and what joins there."""
    passage = hard.passage
    variants = [reader.call(ruling.variant) for ruling in by_share(hard)]
    kind = variants[0] if len(variants) == 1 else f"{variants[0]} (or {variants[1]})"
    piece = passage.piece
    if hard.spot.by_roots:
        return f"{ROOTS} in {piece.line}"
    if passage.step is not None:
        return f"{passage.step.kind} at {piece.name}"
    if piece.kind == "junction":
        if passage.enters == "branch":
            return f"{kind} into {piece.line}"
        return f"{kind} where {piece.name} joins"
    if piece.kind in ("stopper", "joint", "reducer"):
        return f"{reader.call(piece.name)} in {piece.line}"
    return kind


def cautions_of(firings: Iterable[Firing]) -> tuple[CautionNote, ...]:
    """The cautions of fired rules, each hazard once with all its places, the gravest word first."""
    found: dict[str, tuple[Caution, list[Firing]]] = {}
    for firing in firings:
        caution = firing.rule.conclusion.caution
        if firing.outcome and caution:
            kept, alike = found.get(caution.id, (caution, []))
            if not alike or GRAVEST_FIRST.index(caution.word) < GRAVEST_FIRST.index(kept.word):
                found[caution.id] = caution, [firing]
            elif firing.rule_id == alike[0].rule_id:
                alike.append(firing)
    notes = (
        CautionNote(
            id=caution.id,
            word=caution.word,
            text=_filled(caution.text, first, also),
            short=_filled(caution.short, first, also),
            in_the_pipe=caution.in_the_pipe,
        )
        for caution, (first, *also) in found.values()
    )
    return tuple(sorted(notes, key=lambda note: (GRAVEST_FIRST.index(note.word), note.id)))


def _filled(text: str, first: Firing, also: list[Firing]) -> str:
    return first.rule.fill(text, first.values, first.reader, [each.values for each in also])


def _margins(hard: HardSpot) -> dict[str, float]:
    shape = hard.spot.shape
    margins = {
        "bore over head": shape.fits,
        "longest head that turns over head": shape.rigid,
        "bend radius over smallest radius": shape.rod_radius,
        "slide over the rim": shape.ledge,
        "gap between roots over head": shape.gap,
    }
    return {name: middle(value) for name, value in margins.items() if np.isfinite(value).any()}


def _techniques(hard: HardSpot, outcome: RouteOutcome) -> tuple[TechniqueNote, ...]:
    order = dict(hard.order)
    ranks = {name: index for index, (name, _) in enumerate(hard.order)}
    notes = [_technique(name, hard, order, outcome) for name in TECHNIQUES]
    # The gentle push is told with each spot; as a technique only where there is more to say of it.
    notes = [note for note in notes if note.name != STEADY or note.steps]
    return tuple(sorted(notes, key=lambda note: (ranks.get(note.name, 99), TECHNIQUES.index(note.name))))


def _technique(name: str, hard: HardSpot, order: dict[str, int], outcome: RouteOutcome) -> TechniqueNote:
    rejecting = [(r.share, r.rejected[name]) for r in hard.rulings if name in r.rejected]
    requiring = [r.required[name] for r in by_share(hard) if name in r.required]
    barred = no_blow(hard.rulings) if name == BLOW else None
    rejected = sum(share for share, _ in rejecting)
    wedged = name in hard.wedged
    everywhere = wedged or barred is not None or rejected > hard.spot.drawn.likely("rejected_from")
    stuck = hard.spot.plain.stuck
    # The first push is made in every case, what comes after it where the head is stuck.
    where = np.ones_like(stuck) if name == STEADY else stuck
    chance = None if name in NO_TRY else hard.tries[name].worth(hard.chance(name), where)[0]
    if everywhere:
        verdict, reasons = "rejected", [*filter(None, [barred]), *(firing for _, firing in rejecting)]
    elif requiring and name not in order:
        verdict, reasons = "required", requiring
    elif name in order:
        verdict, reasons = "try", requiring
    elif name in NO_TRY or (name == "guide" and outcome.loadout.guide is not None):
        verdict, reasons = "allowed", requiring
    elif chance is not None and chance >= hard.spot.drawn.likely("worth_trying"):
        verdict, reasons = "not worth it", []
    else:
        verdict, reasons = "useless", []
    if not reasons and verdict == "try":
        reasons = [
            f for r in by_share(hard) for f in r.firings if f.outcome and name in f.rule.conclusion.steps
        ]
    without = {"useless": _USELESS, "not worth it": _ELSEWHERE}
    before = hard.came_of(name) if name in order else ""
    because = (
        hard.spot.drawn.tables.in_pipe.wedged_before.here
        if wedged
        else _reason(reasons[0], name, verdict, hard)
        if reasons
        else without.get(verdict, "")
    )
    rules = tuple(dict.fromkeys(firing.rule_id for firing in (*reasons, *(f for _, f in rejecting))))
    return TechniqueNote(
        name=name,
        verdict=verdict,
        chance=None if before else chance,
        tries=order.get(name, 0),
        because=because,
        steps=steps_of(name, hard) if verdict in ("try", "required", "allowed") else (),
        rules=rules,
        wedged=wedged,
        before=before,
        unless=_unless(name, hard) if verdict == "rejected" and not wedged else "",
    )


def _unless(technique: str, hard: HardSpot) -> str:
    """Before a clean rim in a run marked for roots that are not likely the curl lifts the nose over."""
    free = technique == TURN and hard.roots_unlikely
    return hard.spot.drawn.tables.in_pipe.rim_seen.planned if free else ""


def _reason(firing: Firing, technique: str, verdict: str, hard: HardSpot) -> str:
    """Of what failed here before no foreseen chance is its reason any more: it was foreseen otherwise. What
    is asked for by some things that the fitting may be says of which; what is barred is for any of them."""
    if any(f"{{{fact}}}" in firing.rule.because for fact in OF_HELD) and hard.rank(technique) > 1:
        return ""
    return firing.because if verdict == "rejected" else asked_for(firing, hard)


def steps_of(technique: str, *readings: HardSpot) -> tuple[str, ...]:
    """What the rules say is done for a technique at a spot, each step once; by all readings of that spot."""
    return _unique(
        step
        for hard in readings
        for ruling in by_share(hard)
        for firing in ruling.firings
        if firing.outcome and technique in firing.rule.conclusion.steps
        for step in firing.conclusion.steps[technique]
        if step
    )


def _unique(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))
