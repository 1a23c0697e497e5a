"""Which way a push found its opening to lead: the next from there is taken to go that way, whatever is told.

Where that is not the way of the plan it is told in the next plan, whose ways go by it, and before the next
push is asked for the direction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

import numpy as np

from advisor.errors import BadInput
from advisor.push.before.way_taken import told_way
from advisor.push.log.kinds import DOWN, PORTS, SIGHTING, UP, WATER
from advisor.push.log.log import Entry
from advisor.push.now.now import Now
from advisor.push.now.one_push import Push
from advisor.push.now.seen import pushes_told
from advisor.push.now.way_gone import share_elsewhere
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.site.mouths import port_of
from advisor.tables.where import number


def opening_leads(study: Study, standing: Sequence[Entry]) -> Iterator[FoundNote]:
    """Of each opening with one throat what the last push found that shows it."""
    for opening, (way, push) in found_to_lead(study, standing).items():
        wanted = push.course.wanted
        if wanted is not None and port_of(wanted.route.passages, study.tables) not in PORTS[way]:
            yield _note(opening, way, study)


def found_to_lead(study: Study, standing: Sequence[Entry]) -> dict[str, tuple[str, Push]]:
    """The way of each such opening, with the push that showed it last."""
    found: dict[str, tuple[str, Push]] = {}
    for run in pushes_told(standing):
        opening = str(run[0].data["opening"])
        if any(each.kind in (SIGHTING, WATER) for each in run) and _one_throat(study, opening):
            with suppress(BadInput):
                push = Push(study, run[0])
                way = way_shown(Now(push, tuple(run[1:])))
                if way is not None:
                    found[opening] = way, push
    return found


def way_shown(now: Now) -> str | None:
    """Which way what it passed shows where it was farthest in; None where that is not sure."""
    rods = now.rods
    far = Now(now.push, now.entries[: int(np.argmax(rods)) + 1]) if rods else now
    if not told_way(far):
        return None
    for way in (DOWN, UP):
        other = max(share_elsewhere(now.push.tracker, far.belief, way), 1 - far.fix.most)
        if other < number(now.push.study.tables.where.sure.other_way):
            return way
    return None


def _one_throat(study: Study, opening: str) -> bool:
    """Whether a pipe is drawn either way of it, and its kind has no throat for both."""
    piece = next((each for each in study.network.openings() if each.name == opening), None)
    if piece is None or piece.hole is None:
        return False
    both = all((piece.id, port) in study.network.links for port in ("down", "up"))
    return both and not {"down", "up"} <= set(study.tables.openings[piece.hole.kind].reaches)


def _note(opening: str, way: str, study: Study) -> FoundNote:
    words, (other,) = study.tables.in_pipe.leads_otherwise, (each for each in (DOWN, UP) if each != way)
    told = {"opening": opening, "way": way, "other": other, "do": words.do}
    return FoundNote(
        opening=opening,
        ports=PORTS[other],
        at_m=0.0,
        at_low_m=0.0,
        what=words.what.format(**told),
        see=words.what.format(**told),
        do=words.do,
        missed=words.do,
        not_past=True,
        left=words.left.format(**told),
        instead=words.do,
        at_opening=True,
    )
