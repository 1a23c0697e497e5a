"""The head went the wrong way at the fitting of its own opening: another throat, or another mouth by hand."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.outcome.entry import entry_length
from advisor.push.held.unforeseen import firings_there, forbidden_there, usual_tries
from advisor.push.now.now import Now
from advisor.result.spots import passage_note
from advisor.result.study import Study
from advisor.site.mouths import Mouth

_TROUBLE = "wrong way"


@dataclass(frozen=True)
class Throat:
    """The way that is wanted at the opening.

    `counter` is what the counter shows with the head at the throat, m. `tries` are the techniques that may
    lead the head into it, cheapest first, each with its steps; None where the kind of opening has no throat
    that way, so that none can. `mouth`: of an open channel, into which the head is laid by hand.
    """

    opening: str
    kind: str
    upstream: bool  # which way is wanted
    counter: float
    tries: tuple[tuple[str, tuple[str, ...]], ...] | None
    mouth: str | None = None


def wanted_throat(now: Now) -> Throat | None:
    """What to try at the opening; None unless the head was found to have gone the other way there."""
    mouth, opening, course = now.wrong_port, now.push.opening, now.push.course
    if mouth is None or opening.hole is None:
        return None
    port, study, kind = mouth.port, now.push.study, opening.hole.kind
    at = entry_length(opening, port, study.tables) - now.belief.shift
    tries = None
    if study.tables.openings[kind].open_channel:
        return Throat(opening.name, study.reader.call(kind), port == "up", at, None, _called(mouth, study))
    if {"down", "up"} <= set(study.tables.openings[kind].reaches):
        firings = firings_there(course, (opening,), {}, at)
        barred = dict(forbidden_there(course, firings, _TROUBLE))
        for met in course.spots:
            if met.hard.passage.piece.id == opening.id:
                notes = passage_note(met.hard, met.outcome, study.reader).techniques
                barred |= {note.name: note.because for note in notes if note.verdict == "rejected"}
        open_now = set(study.base.matrix.techniques) - set(barred)
        # Only what chooses a way: a wet wall sends the head nowhere.
        open_now = open_now.intersection(study.tables.stuck.other_throat.techniques)
        usual = usual_tries(course, (), open_now, _TROUBLE, firings)
        tries = tuple((each.technique, each.steps) for each in usual)
    return Throat(opening.name, study.reader.call(kind), port == "up", at, tries)


def _called(mouth: Mouth, study: Study) -> str:
    """Which mouth of the channel that is: of a branch that joins in it, or the main's own."""
    joins = study.network.pieces.get(mouth.junction)
    if joins is not None:
        return f"of {joins.branch or joins.name}"
    return f"that leads {'upstream' if mouth.port == 'up' else 'downstream'}"
