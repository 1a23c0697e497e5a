"""A Study to its Plan: what to do first, the routes, what was assumed, what rests on weak ground."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from advisor.outcome.assess import RouteOutcome
from advisor.outcome.facts import facts_of_place
from advisor.quantity import Dimension, show, show_counter, show_reading
from advisor.result.asks import ask_notes
from advisor.result.assumed import assumed_notes
from advisor.result.attempts import attempt_notes, compared_notes
from advisor.result.before import to_get_out, to_relieve
from advisor.result.beyond import bar_on, ended_by, limit_of, stop_at
from advisor.result.chances import chance_words
from advisor.result.ends import ITSELF
from advisor.result.model import Plan, RouteNote, Stopped, SuspectNote
from advisor.result.other_side import from_elsewhere, other_side_first
from advisor.result.out import left_words, out_words, shut_by_rods
from advisor.result.routes import route_note, stopped
from advisor.result.seen_turns import as_seen
from advisor.result.spots import cautions_of
from advisor.result.stops import stop_words
from advisor.result.study import Study
from advisor.result.target import target_note
from advisor.result.way_model import FoundNote
from advisor.result.weak import weak_ground
from advisor.rulebase.infer import infer
from advisor.rulebase.trace import Firing

# Gravest first.
_VERDICTS = {
    "leave": "Leave the building and call the gas emergency number: no work here.",
    "decline": "Decline this job for now.",
    "clear first": "No camera yet: relieve and clear the line first.",
}
_LEAST_TOLD = 0.005  # layout: of a section that may hold the trouble; less would be told as 0 %
# What must be so before anybody pushes all the same.
_UNTIL = {
    "leave": "the gas utility has been here and says that it is safe",
    "decline": "it is known what was poured in, and its maker's sheet allows a push",
    "clear first": "the line has been cleared, and runs",
}
# What must be known before anything is opened, in the order of the verdicts.
_KNOWN_FIRST = (
    "smell at the door and at each opening that there is no gas",
    "ask everybody whether a drain cleaner was poured in: until it is known that none was, hands off",
    "see that the line is not holding: look into {look_into}, loosen no plug",
)
_BOWL = "try the bowl of the toilet that alone is bad: plunger, then closet auger"
_NO_PLAN = ("leave", "decline")  # verdicts that leave nothing to plan


def plan_of(study: Study, found: tuple[FoundNote, ...] = ()) -> Plan:
    """The serialisable plan, with what pushes `found`; the same study always gives the same plan."""
    as_ranked, study = study, other_side_first(study, found)
    found = (*found, *from_elsewhere(study, found))
    ways = (route_note(ranked, rank, study) for rank, ranked in enumerate(study.ranked, start=1))
    # What nothing goes into is left out for that, whatever lies further on.
    routes = tuple(
        way if each.outcome.shut else ended_by(as_seen(way, found), found)
        for each, way in zip(study.ranked, ways, strict=True)
    )
    ended = {each.outcome.route.id for each, way in zip(study.ranked, routes, strict=True) if way.ended}
    verdict, least = _verdict(study), study.drawn.likely("least_chance")
    leader = routes[0] if routes and study.ranked[0].outcome.chance >= least else None
    bar = bar_on(leader, found) if leader else None
    # What bars is taken away first only for the way that ends at it: another may come to it or go round it.
    found = tuple(
        each if each == bar or not each.not_past else each.model_copy(update={"first": ""}) for each in found
    )
    first, how, camera = _first_step(study, leader, verdict, found)
    if camera and bar is not None and bar.instead:
        after = study.tables.in_pipe.found_before.same_day if bar.first else bar.instead
        first = f"{first} {after}"
    elif camera and study is not as_ranked and any(each.not_past and not each.at_opening for each in found):
        first = f"{first} {study.tables.in_pipe.found_before.other_side}"
    site_cautions = cautions_of(study.site_firings)
    attempts = attempt_notes(study, ended)
    known = all(each.chance is not None for each in attempts)
    return Plan(
        site=study.network.site,
        region=study.network.region,
        first_step=first,
        how=how,
        to_open=to_relieve(study) if verdict == "clear first" else to_get_out(study),
        camera_now=camera,
        until=_UNTIL[verdict] if verdict else None,
        doubt=study.circumstances.contradiction or None,
        out=out_words(study),
        left_in=left_words(study),
        found=tuple(note for note in found if not note.turn),
        no_plan=verdict in _NO_PLAN,
        holding=study.circumstances.holding,
        broken=study.site_facts["site.broken"] is True,
        target=target_note(study, {note.opening for note in found if note.not_past}, ended),
        suspects=tuple(
            SuspectNote(section=s.words, chance=s.share, because=s.because)
            for s in study.suspects[:4]
            if s.share >= _LEAST_TOLD
        ),
        routes=routes,
        attempts=attempts,
        attempts_minutes=study.settled.order.minutes,
        attempts_chance=study.settled.order.chance if known else None,
        compared=compared_notes(study),
        cautions=site_cautions,
        ask=ask_notes(
            study.site_firings,
            {note.id for note in site_cautions},
            study.base,
            {"site.septic": _ends_in(study)},
            ("site.holding",) if study.circumstances.contradiction else (),
        ),
        bring=tuple(dict.fromkeys(item for route in routes[:1] for item in route.bring)),
        failing_minutes=study.tables.costs["failing"].likely,
        assumed=assumed_notes(study),
        weak=weak_ground(study),
        worlds=study.worlds,
        preview_of=study.preview_of,
        chance_words=chance_words(study),
        learned=study.drawn.learned.notes,
        seed=study.seed,
        routes_cut=study.routes_cut,
        no_way_in=no_way_in(study),
        cannot=() if leader else tuple(stopped(ranked.outcome, study) for ranked in study.ranked),
    )


def _first_step(
    study: Study, leader: RouteNote | None, verdict: str | None, found: Iterable[FoundNote]
) -> tuple[str, tuple[str, ...], bool]:
    """One sentence, how to go about it, and whether a camera goes in now."""
    if verdict is not None:
        return _VERDICTS[verdict], _site_steps(study, found) if verdict == "clear first" else (), False
    if leader is None:
        if study.outcomes and not study.usable:
            if study.barred.left:
                return study.tables.in_pipe.left_in.no_push, (), False
            return "No push: no sound rod is left.", (), False
        if not study.ranked:
            return "No opening leads there: see what is drawn of the drain.", (), False
        first = study.ranked[0].outcome
        best = stopped(first, study)
        instead = (
            "Another kit, a cleaner line or a new opening may: advisor explain changes, with this sheet."
        )
        why = f"Best is {best.opening}, but: {stop_words(best)}."
        if first.shut:  # they stand last
            why = "No opening can be used as things stand."
        return f"No camera here with this kit. {why}", (*_beyond(first, study), instead), False
    push = f"Open {leader.opening} and push {leader.loadout.name}: {_how_far(leader, study)}"
    step = (
        f"{push}." if leader.ended else f"{push}; getting there is {chance_words(study).say(leader.chance)}."
    )
    before = (
        *known_first(study),
        *_cleaned_first(study, found),
        *((_BOWL,) if study.circumstances.lone_toilet else ()),
    )
    if before:
        step = f"First {'; '.join(before)}. Then {_lower(step)}"
    if study.part is not None and not leader.ended:
        step = f"{step} That shows {study.part.covers:.0%} of what is to be seen."
    if not study.settled.attempts:
        leave = "Leave it: no opening is worth its minutes now. If it must be seen all the same:"
        step = f"{leave} {_lower(step)}"
    return step, leader.before, True


def _cleaned_first(study: Study, found: Iterable[FoundNote]) -> tuple[str, ...]:
    """What pushes saw that is cleaned before a camera goes in again: the report advises the same."""
    words, told = study.tables.in_pipe.found_before, tuple(found)

    def met(notes: Iterable[FoundNote]) -> Iterator[tuple[str, str]]:
        for note in notes:
            yield note.first, f"{note.what}, {show_counter(note.at_m, study.units)} in from {note.opening}"

    if first := words.first_words(met(note for note in told if note.first)):
        return (first,)
    drain = "; ".join(dict.fromkeys(each for _, each in met(note for note in told if note.drain_first)))
    return (words.first_drain.format(met=drain),) if drain else ()


def _beyond(outcome: RouteOutcome, study: Study) -> tuple[str, ...]:
    """How what lies beyond a trap, valve or tank on the way is come at, as where the rest was seen."""
    stop = stop_at(outcome, study)
    if stop is None or stop.behind or stop.piece.stopper is None:
        return ()
    kind = study.tables.stoppers[stop.piece.stopper]
    return (kind.told_instead(stop.piece.shut_beside) or study.tables.in_pipe.seen_whole.shut,)


def _how_far(route: RouteNote, study: Study) -> str:
    limit = limit_of(route)
    if limit is not None:
        unless = f" {limit.unless}" if limit.unless else ""
        return f"no further than {show_reading(limit.at_low_m, study.units)} ({limit.name}){unless}"
    return f"{show(route.length_m, Dimension.LENGTH, study.units)} to the far end"


def known_first(study: Study) -> tuple[str, ...]:
    """What must be known before anything is opened, and is not."""
    given = study.circumstances
    asked = zip((given.gas_smell, given.chemicals, given.holding), _KNOWN_FIRST, strict=True)
    return tuple(words.format(look_into=study.look_into) for known, words in asked if known is None)


def _ends_in(study: Study) -> str:
    """Where the sheet has the drain end: it may be a guess, and whoever is asked about a tank is told."""
    ends = {study.reader.call(piece.name) for piece in study.network.pieces.values() if piece.kind == "end"}
    return f" (the sheet says {', '.join(sorted(ends))})" if ends else ""


def _lower(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:]


def verdict_words(study: Study) -> str | None:
    """What comes before any push, in one sentence; nothing where nothing does."""
    return verdict_of(study.site_firings)


def verdict_of(firings: Iterable[Firing]) -> str | None:
    """The same, of the site's rules alone."""
    found = {f.rule.conclusion.verdict for f in firings if f.outcome}
    return next((words for verdict, words in _VERDICTS.items() if verdict in found), None)


def _verdict(study: Study) -> str | None:
    """The gravest verdict of the site's rules, if any."""
    found = {f.rule.conclusion.verdict for f in study.site_firings if f.outcome}
    return next((verdict for verdict in _VERDICTS if verdict in found), None)


def no_way_in(study: Study) -> tuple[Stopped, ...]:
    """Openings that are no way to the target, and why: no rod gets in there, or none goes toward it."""
    found = []
    ways = {route.opening.id for route in study.routes}
    by_rods = shut_by_rods(study)
    for piece in study.network.openings():
        if piece.hole is None or piece.hole.there == 0:
            continue
        kind = study.tables.openings[piece.hole.kind]
        if not kind.usable:
            facts = {**study.site_facts, **facts_of_place(piece, study.tables)}
            fired = [f for f in infer(study.base, "entry", "opening", facts, study.reader) if f.outcome]
            why = next((f.because for f in fired if f.rule.conclusion.closed), "a rod cannot get in there")
        elif piece.id not in ways and not study.routes_cut:
            only = f" goes only {kind.reaches[0]} the line and" if len(kind.reaches) == 1 else ""
            why = f"from there the rod{only} cannot go toward what is to be seen"
        elif piece.name in by_rods:
            why = study.tables.in_pipe.left_in.why
        else:
            continue
        found.append(Stopped(opening=piece.name, passage=ITSELF, at_m=0.0, why=why))
    return tuple(found)


def _site_steps(study: Study, found: Iterable[FoundNote]) -> tuple[str, ...]:
    """What the site's rules say to do, with nothing of the push itself; before the last of them, which clears
    the line, what pushes `found` in its way."""
    *before, clearing = (f.conclusion.do for f in study.site_firings if f.outcome and f.conclusion.do)
    told: dict[str, list[str]] = {}
    for note in (each for each in found if each.left):
        told.setdefault(note.opening, []).append(f"{note.see}, {show_counter(note.at_m, study.units)} in")
    met = "; ".join(f"from {opening}: {'; '.join(places)}" for opening, places in told.items())
    heed = (study.tables.in_pipe.found_before.clearing.format(met=met),) if met else ()
    return tuple(dict.fromkeys((*(step for steps in before for step in steps), *heed, *clearing)))
