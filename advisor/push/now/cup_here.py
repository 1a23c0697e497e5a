"""Whether a cup in at the opening in use tells of all that may hold: it tests the pipe from there on only.

Poured in below a house trap, or below what backs up, it runs away from a line that is shut above it.
"""

from __future__ import annotations

from advisor.push.log.kinds import DOWN
from advisor.push.now.held_back import HeldBack
from advisor.push.now.now import Now

_HALF = 0.5  # more likely than not
_HOLDS = "stopper"  # a trap, valve or tank


def tells_here(now: Now) -> bool:
    """Whether its water passes all of what may hold: all that backs up joins further down, no trap and not
    all that people use lies above, and what pushes met lies ahead, downstream."""
    push, network = now.push, now.push.study.network
    given, here = push.study.circumstances, push.opening
    if here.name in (*given.backs_up, *given.slow) or now.fix.downstream < _HALF:
        return False

    def above(piece: str) -> bool:
        return here.id in network.downstream(piece)

    pieces = network.pieces.values()
    if any(above(each.id) for each in pieces if each.kind == _HOLDS or each.name in given.backs_up):
        return False
    fixtures = [at for name, at in push.tracker.chart.fixtures.items() if name != here.name]
    if fixtures and all(map(above, fixtures)):
        return False
    return all(_ahead(each, now) for each in now.held_back)


def _ahead(held: HeldBack, now: Now) -> bool:
    """Whether what an earlier push told lies on the way of water from this opening."""
    began, network, here = held.began, now.push.study.network, now.push.opening
    if began is None or began.data.get("direction") != DOWN:
        return False
    below = {here.id, *network.downstream(here.id)}
    return any(network.pieces[each].name == began.data["opening"] for each in below)
