"""A ranked route as plain data."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from advisor.mechanics.hand import safe_stroke
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.facts import free_hand, most_free, safe, safe_pull, weakest_in_pull
from advisor.outcome.spot import longest_hand_stroke
from advisor.outcome.walk import HardSpot
from advisor.ranking.score import Ranked
from advisor.result.asks import ask_notes
from advisor.result.before import steps_of
from advisor.result.behind_end import behind_end
from advisor.result.beyond import may_be_it, not_past
from advisor.result.ends import ITSELF, LEAST, LENGTH, End, ends_of, opening_end
from advisor.result.model import EndNote, LoadoutNote, PassageNote, RouteNote, Stopped
from advisor.result.sights import down_to_line, run_notes, sight_notes
from advisor.result.spots import cautions_of, passage_note, place_name
from advisor.result.stands import stands_at
from advisor.result.stopped_before import stop_notes
from advisor.result.study import Study
from advisor.result.taps import tap_notes
from advisor.result.way_model import NotPastNote
from advisor.result.why_ends import why_there
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing
from advisor.site.mouths import line_by, port_of
from advisor.tables.openings import OpeningKind
from advisor.worlds.spread import middle

OTHER_ENDS = 2  # told beside the place that stops most; layout


def route_note(ranked: Ranked, rank: int, study: Study) -> RouteNote:
    """One route with everything that the screen and the card say of it."""
    outcome, drawn = ranked.outcome, study.drawn
    route, march = outcome.route, outcome.march
    loadout, kit = outcome.loadout, drawn.kit(outcome.loadout)
    bores = np.stack([shape.bore for shape in outcome.geometries]).min(axis=0)
    turning = [shape for shape in outcome.geometries if shape.turn.bends]
    hole = route.opening.hole
    assert hole is not None
    kind = study.tables.openings[hole.kind]
    firings = (*study.site_firings, *outcome.opening_firings, *outcome.route_firings)
    limit = not_past(outcome, study)
    spots = tuple(_spot(spot, outcome, limit, study) for spot in outcome.spots)
    seen, unseen = _seen(outcome, study)
    block = _blocked(outcome, study)
    return RouteNote(
        rank=rank,
        opening=route.opening.name,
        opening_kind=kind.words[study.network.region],
        place=stands_at(route.opening, study),
        shut=outcome.shut,
        loadout=LoadoutNote(
            name=loadout.name,
            head=loadout.head.name,
            spring=loadout.spring.name,
            rod=loadout.rod.name,
            guide=loadout.guide.name if loadout.guide else None,
            names_spring=loadout.names_spring,
        ),
        chance=outcome.chance,
        covers=route.covers,
        part_chance=outcome.part_chance,
        leads=ranked.leads,
        minutes=float(outcome.walk.minutes.mean()),
        score_minutes=ranked.score,
        opening_minutes=kind.open_minutes.likely,
        reach_m=middle(march.reach),
        reel_m=middle(kit.reel),
        length_m=middle(march.end.at),
        down_m=down_to_line(route, study.tables),
        seen_m=seen,
        unseen=unseen,
        smallest_bore_m=middle(bores),
        head_diameter_m=middle(kit.head_diameter),
        spring_diameter_m=middle(kit.spring_diameter),
        bends=march.end.bends,
        fittings=_fittings(outcome, study.reader),
        total_turn_rad=middle(march.end.turned),
        tightest_radius_m=min((middle(shape.turn.radius) for shape in turning), default=None),
        rod_minimum_radius_m=middle(kit.minimum_radius),
        spring_minimum_radius_m=middle(kit.spring_minimum_radius),
        pull_n=middle(march.pull),
        pull_limit_n=safe_pull(drawn, loadout),
        pull_rests_on=_pull_rests_on(outcome, study),
        harm=float(outcome.walk.lost.mean()),
        ends=_ends(outcome, study),
        blocked_by=block.passage if block else None,
        blocked_at_m=block.at_m if block else None,
        hand_distance_m=most_free(drawn, loadout),
        stroke_m=_stroke(outcome, study),
        fold_m=_fold(outcome, study),
        direction=route.direction,
        leaves=port_of(route.passages, study.tables),
        mouth=line_by(route.passages, study.tables),
        difficulty=tuple(
            dict.fromkeys(f.because for f in firings if f.outcome and f.rule.conclusion.troubles)
        ),
        before=steps_of(firings, kind.first).all,
        opening_steps=steps_of(outcome.opening_firings, kind.first).all,
        passages=spots,
        cautions=cautions_of((*study.site_firings, *_all_firings(outcome), *_by_the_book(outcome, study))),
        ask=ask_notes((*outcome.opening_firings, *outcome.route_firings), (), study.base),
        bring=_bring(kind, firings, study.reader),
        sights=sight_notes(outcome, study),
        not_past=limit,
        behind_end=behind_end(outcome, study),
        runs=run_notes(outcome),
        taps=tap_notes(outcome, study),
        stops=stop_notes(outcome, study),
    )


def _bring(kind: OpeningKind, firings: Iterable[Firing], reader: Reader) -> tuple[str, ...]:
    """What the opening and the rules want there, each once, in the words of the region."""
    wanted = (*kind.bring, *(item for f in firings if f.outcome for item in f.conclusion.bring))
    return tuple(dict.fromkeys(map(reader.call, wanted)))


def _spot(spot: HardSpot, outcome: RouteOutcome, limit: NotPastNote | None, study: Study) -> PassageNote:
    note = passage_note(spot, outcome, study.reader)
    if limit is None or spot.passage.piece.stopper or not may_be_it(limit, note):
        return note
    return note.model_copy(update={"only_if": study.tables.where.not_past.push.format(name=limit.name)})


def _all_firings(outcome: RouteOutcome) -> tuple[Firing, ...]:
    inside = (f for spot in outcome.spots for ruling in spot.rulings for f in ruling.firings)
    return (*outcome.opening_firings, *outcome.route_firings, *inside)


def _by_the_book(outcome: RouteOutcome, study: Study) -> tuple[Firing, ...]:
    """What fires there by the book: learning may add to the cautions and never takes one away."""
    if study.book is None:
        return ()
    place = next(i for i, each in enumerate(study.outcomes) if each.way is outcome.way)
    return _all_firings(study.book.outcomes[place])


def _ends(outcome: RouteOutcome, study: Study) -> tuple[EndNote, ...]:
    """What ends it, the worst first; places that are told by the same words are one."""
    return _alike(ends_of(outcome, study.reader))


def _alike(ends: Iterable[End]) -> tuple[EndNote, ...]:
    shares: dict[tuple[str, str], float] = {}
    for end in ends:
        shares[end.where, end.why] = shares.get((end.where, end.why), 0.0) + end.share
    worst = sorted(shares.items(), key=lambda each: -each[1])
    return tuple(EndNote(where=where, why=why, share=share) for (where, why), share in worst)


def _blocked(outcome: RouteOutcome, study: Study) -> Stopped | None:
    """What stops this route in most worlds, or nothing where it is likely enough."""
    return None if outcome.chance >= study.drawn.likely("unlikely_share") else stopped(outcome, study)


def stopped(outcome: RouteOutcome, study: Study) -> Stopped:
    """What ends this way, and where it goes."""
    return _stopped(outcome, study).model_copy(update={"direction": outcome.route.direction})


def _stopped(outcome: RouteOutcome, study: Study) -> Stopped:
    """The passage that takes the most worlds, or what else ends the way."""
    name, reader = outcome.route.opening.name, study.reader
    length = middle(outcome.march.end.at)
    if outcome.route.covers < 1 and outcome.part_chance >= study.drawn.likely("least_chance"):
        return Stopped(
            opening=name,
            passage="it opens inside the stretch",
            at_m=0.0,
            why=f"one push shows {outcome.route.covers:.0%} of it",
        )
    if (shut := outcome.closed_by) is not None:
        return Stopped(opening=name, passage=ITSELF, at_m=0.0, why=shut.because)
    shut_out = opening_end(outcome)
    opens = 1 - shut_out.share
    # No less than what else ends of those that get in: else an opening is looked for in vain.
    if opens < 1 and outcome.chance >= opens**2:
        return Stopped(opening=name, passage=ITSELF, at_m=0.0, why=shut_out.why)
    # Of what a fair share of those that get in comes to, what lets the fewest of them on.
    fair = opens * study.drawn.likely("unlikely_share")
    every = ends_of(outcome, reader)
    ends = [end for end in every if end.where != shut_out.where and end.came >= fair]
    end = max(ends, key=lambda end: end.share / end.came) if ends else None
    if end is not None and (worst := end.spot) is not None:
        why, told = why_there(worst, end.share / end.came, study.drawn.likely("notable_share"))
        hardly = outcome.chance < study.drawn.likely("least_chance")
        if hardly and told and 1 - told - outcome.chance >= LEAST:  # else what is told says it all
            why += f" {_of_a_hundred(end, every)}"
        at = middle(worst.spot.station.at)
        return Stopped(opening=name, passage=place_name(worst, reader), at_m=at, why=why)
    if end is not None and end.at is not None:
        return Stopped(opening=name, passage=end.where, at_m=end.at, why="it held a push before")
    reach = middle(outcome.march.reach)
    why = "the push dies on the way" if reach < length else "the way is long"
    if end is not None and end.where != LENGTH:
        why = end.why
    return Stopped(opening=name, passage=LENGTH, at_m=min(reach, length), why=why)


def _of_a_hundred(there: End, ends: tuple[End, ...]) -> str:
    """How many pushes end where what was just told stops some, and what ends most of the others."""
    words = [f"Of 100 pushes {there.share * 100:.0f} end there, by that or by what is less likely"]
    besides = _alike(end for end in ends if end is not there)
    others = [f"{end.share * 100:.0f} because {end.why}" for end in besides]
    return "; ".join([*words, *others[:OTHER_ENDS]]) + "."


def _pull_rests_on(outcome: RouteOutcome, study: Study) -> str:
    part, belief = weakest_in_pull(study.drawn, outcome.loadout)
    grade = belief.evidence.grade
    return f"{part}, {grade.words.partition(',')[0]}" if grade.weak else part


def _stroke(outcome: RouteOutcome, study: Study) -> float:
    """The longest stroke that two hands can guide at the opening without a fold."""
    stroke = longest_hand_stroke(study.drawn.kit(outcome.loadout), study.drawn)
    return safe(stroke, study.drawn)


def _fold(outcome: RouteOutcome, study: Study) -> float | None:
    """How much further the hand may go once the head has stopped, with the rod of a stroke left unguided.

    The head may stop anywhere in the stroke, and a shorter free rod is harmed sooner: so of the shortest
    that folds. None where so short a stroke folds no rod, guided or not.
    """
    drawn, kit = study.drawn, study.drawn.kit(outcome.loadout)
    folds = free_hand(drawn, outcome.loadout)
    if _stroke(outcome, study) <= safe(folds, drawn):
        return None
    shortest = np.minimum(longest_hand_stroke(kit, drawn), folds)
    return safe(np.asarray(safe_stroke(shortest, kit.minimum_radius)), drawn)


def _seen(outcome: RouteOutcome, study: Study) -> tuple[float, tuple[str, ...]]:
    """Metres of the target that the lens would pass in the open, and what it would not see."""
    seen, unseen = 0.0, []
    for passage in outcome.route.passages[outcome.route.target_from :]:
        length = float(study.drawn.length(passage.piece).mean())
        if passage.piece.kind == "belly":
            unseen.append(f"{passage.piece.line}: the sag; a lens under water does not see")
        else:
            seen += length
    if outcome.route.covers < 1:
        unseen.append(f"{1 - outcome.route.covers:.0%} of the stretch lies the other way from this opening")
    return seen, tuple(unseen)


def _fittings(outcome: RouteOutcome, reader: Reader) -> dict[str, int]:
    """How many fittings of each kind the head turns through."""
    counts: dict[str, int] = {}
    for shape in outcome.geometries:
        if shape.turn.bends or shape.turn.way in ("stop", "fork"):
            passage = shape.passage
            fitting = passage.piece.fitting
            name = passage.step.kind if passage.step else fitting.likeliest if fitting else passage.piece.kind
            called = reader.call(name)
            counts[called] = counts.get(called, 0) + 1
    return counts
