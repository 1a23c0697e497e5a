"""The next section behind the chamber at which a push ends, where the trouble may lie there as well.

The rod is in the pipe by then: whoever looks no further comes back another day for what lay metres on.
"""

from __future__ import annotations

from collections.abc import Collection

from advisor.result.study import Study
from advisor.result.target_model import OnNote
from advisor.site.suspects import Suspect
from advisor.site.target import SUSPECT, target_in
from advisor.worlds.spread import below

_NOT_STRAIGHT = ("stopper", "bend")  # the reach that is known of is that of straight pipe


def straight_on(study: Study, ended: Collection[str]) -> OnNote | None:
    """That section, where the rod of the first push mostly lasts to its far end and no trap or bend is in it.

    It is told and not planned with: what is hard in it is worked out once it is asked for. A way that is
    `ended` by what a push met leads to none.
    """
    target, network, tables = study.target, study.network, study.tables
    first = next(iter(study.settled.attempts), None)
    here = next((each for each in study.suspects if each.span == target.span), None)
    if first is None or here is None or target.kind != SUSPECT or first.route.id in ended:
        return None
    end = first.route.passages[-1].piece
    if end.hole is None or not tables.openings[end.hole.kind].open_channel:
        return None
    far = below(first.march.reach, 1 - tables.limits["reach_share"].likely)
    left = far - float(first.march.end.at.mean())
    least = study.suspects[0].share * tables.limits["next_suspect"].likely
    for each in study.suspects:
        down = end.id == here.span[-1] == each.span[0]
        if not (down or end.id == here.span[0] == each.span[-1]) or each.share < least:
            continue
        pieces = [network.pieces[key] for key in each.span]
        look_at = _both(here, each) if down else _both(each, here)
        if any(piece.kind in _NOT_STRAIGHT for piece in pieces):
            continue
        if sum(piece.along for piece in pieces) > left or not _known(look_at, study):
            continue
        opening = first.route.opening.name
        return OnNote(
            opening=opening, section=each.words, chance=each.share, behind=end.name, look_at=look_at
        )
    return None


def _both(upper: Suspect, lower: Suspect) -> str:
    return f"{upper.line}, from {upper.upper} to {lower.lower}"


def _known(words: str, study: Study) -> bool:
    """Whether a sheet may say so: a name that two things go by leads nowhere."""
    try:
        return bool(target_in(words, study.network))
    except ValueError:
        return False
