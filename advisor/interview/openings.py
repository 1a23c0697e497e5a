"""Which openings there are, found by walking round the house before a plan says that no camera goes in.

One answer alone may save nothing there: whether a cleanout is there decides nothing while its kind is taken
for a hard one, and its kind nothing while it may not be there. Worth reckons one answer at a time, so these
are asked whatever it says.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from advisor.interview.ask import Ask
from advisor.result.study import Study
from advisor.site.network import Network, Piece
from advisor.tables.openings import OpeningKind

AT_OPENINGS = ("doubted opening", "plugged opening", "assumed opening", "unmeasured opening")


def at_hand(asks: Sequence[Ask]) -> Ask | None:
    """What whoever found an opening sees there at once: which kind it is."""
    return next((ask for ask in asks if ask.subject.about == "assumed opening"), None)


def found_first(ask: Ask, asks: Sequence[Ask]) -> Ask:
    """What is asked before it, else the question itself: nobody paces from what nobody has looked for yet.

    That is the question without whose answer this one is not put, about what lies beside its place.
    """
    beside = (each for each in asks if each.subject.id in ask.subject.beside)
    return next((each for each in beside if each.question.id in ask.question.not_after), ask)


def best_or_sooner(found: Sequence[tuple[float, Ask]]) -> Ask:
    """The first of these questions, which are worth so many minutes. Where that is about an opening, one goes
    before it that is worth less by fewer minutes than its opening opens sooner: a cover is looked for before
    anybody asks whether a toilet comes off."""
    minutes, best = found[0]
    if best.to_open is None:
        return best
    others = [(worth - ask.to_open, ask) for worth, ask in found if worth > 0 and ask.to_open is not None]
    return max([(minutes - best.to_open, best), *others], key=lambda each: each[0])[1]


def next_at_openings(asks: Sequence[Ask], study: Study) -> Ask | None:
    """The next question on an opening: all of one opening first, what opens soonest before what takes long,
    and of those that take as long first what the plan ranks first."""
    kinds, pieces = study.tables.openings, study.network.pieces
    routes = [ranked.outcome.route.opening.id for ranked in study.ranked]
    order = {key: number for number, key in reversed(list(enumerate(routes)))}
    told = [
        (_minutes(pieces[key], kinds), order.get(key, len(order)), key, number, ask)
        for number, ask in enumerate(asks)
        if (key := _opening_of(ask, study.network)) is not None
    ]
    return min(told, key=lambda each: each[:4], default=(0.0, 0, "", 0, None))[4]


def _minutes(opening: Piece, kinds: Mapping[str, OpeningKind]) -> float:
    return 0.0 if opening.hole is None else kinds[opening.hole.kind].open_minutes.likely


def _opening_of(ask: Ask, network: Network) -> str | None:
    """The opening that a question is about: also how far a found one is from a mark that is seen."""
    if ask.subject.about in AT_OPENINGS:
        return ask.subject.id
    if ask.subject.about != "run" or len(ask.subject.beside) != 2:
        return None
    beside = [network.pieces[key] for key in ask.subject.beside if key in network.pieces]
    found = next(_found(beside), None)
    marked = any(piece.landmark is not None and piece is not found for piece in beside)
    return found.id if found is not None and marked else None


def _found(pieces: Sequence[Piece]) -> Iterator[Piece]:
    holes = ((p, p.hole) for p in pieces if p.hole is not None and p.hole.fixture is None)
    return (p for p, hole in holes if hole.there == 1 and hole.opens is not False)
