"""What an answer could still change: a way in that is left, or which section is looked at.

An opening is ruled out where it is told that it does not open or is not there, and where a rule closes it
whatever is asked about it: a roof that nobody may climb. What only its ways would meet is of no use then, and
so is pipe on no way at all through which nothing drains: the stub above an opening that is not there.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from advisor.interview.ask import Ask
from advisor.interview.subject import Subject
from advisor.result.study import Study
from advisor.site.network import Network
from advisor.site.used import drained, takes_water

# What kind of thing an opening is and how large may open again what a rule has closed.
_MAY_OPEN = ("assumed opening", "unmeasured opening")


def still_of_use(asks: Sequence[Ask], study: Study, network: Network) -> list[Ask]:
    """The questions less those whose only use was an opening that is ruled out by now.

    `network` is the drain as told, where the study may be of a moment before.
    """
    out = _ruled_out(asks, study, network)
    met: dict[bool, set[str]] = {True: set(out), False: set()}
    for route in study.routes:
        passed = ((p.piece.id, p.piece.wall.id) for p in route.passages)
        met[route.opening.id in out].update(chain.from_iterable(passed))
    in_use = drained(network, filter(takes_water, network.pieces.values()))
    useful = met[False]
    if study.wanted.kind == "suspect":  # trouble lies where something drains through
        within = in_use & set(chain.from_iterable(suspect.span for suspect in study.suspects))
        useful |= within | {network.pieces[key].wall.id for key in within}
    idle = met[True] | {key for key, piece in network.pieces.items() if piece.along > 0} - in_use
    return [ask for ask in asks if not idle & (about := _about(ask.subject)) or about & useful]


def _ruled_out(asks: Sequence[Ask], study: Study, network: Network) -> set[str]:
    open_ = {o.route.opening.id for o in study.outcomes if not o.way.closed}
    open_ |= {ask.subject.id for ask in asks if ask.subject.about in _MAY_OPEN}
    may_open = {o.id for o in network.openings() if o.hole is not None and o.hole.opens is not False}
    return {o.route.opening.id for o in study.outcomes} - (open_ & may_open)


def _about(subject: Subject) -> set[str]:
    if subject.wall is not None:
        return {subject.wall.id}
    return {subject.id, *(each.id for each in subject.rest)}
