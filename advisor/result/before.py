"""Before a push: what can hurt, what to do and in which order, and which openings the plan rules out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from advisor.outcome.facts import opening_facts
from advisor.outcome.rulings import infer_all
from advisor.result.asks import ask_notes
from advisor.result.ends import SHUT
from advisor.result.model import AskNote, CautionNote, OpenNote
from advisor.result.out import shut_by_rods
from advisor.result.spots import cautions_of, passage_note
from advisor.result.study import Study
from advisor.rulebase.trace import Firing
from advisor.site.network import Piece
from advisor.site.relief import lowest_outside


@dataclass(frozen=True)
class Steps:
    """What to do before the head goes in: before anything is opened, at the opening, and once it is open."""

    before: tuple[str, ...]
    opening: tuple[str, ...]
    once_open: tuple[str, ...]

    @property
    def all(self) -> tuple[str, ...]:
        """All of it in the order in which it is done."""
        return tuple(dict.fromkeys((*self.before, *self.opening, *self.once_open)))


def steps_of(firings: Iterable[Firing], first: tuple[str, ...]) -> Steps:
    """What the rules that fired say to do, and what belongs to the kind of opening (`first`)."""
    fired = [firing for firing in firings if firing.outcome]
    here = [firing for firing in fired if firing.rule.about == "opening"]
    any_opening = [firing for firing in fired if firing.rule.about != "opening"]
    before = (step for firing in any_opening for step in firing.conclusion.do)
    opening = (step for firing in here for step in firing.conclusion.do)
    # The rim is made ready before anything is measured from it.
    once_open = (step for firing in (*here, *any_opening) for step in firing.conclusion.once_open)
    return Steps(*(tuple(dict.fromkeys(each)) for each in (before, (*first, *opening), once_open)))


@dataclass(frozen=True)
class BeforePush:
    """What can hurt where the rod goes in and on its way, what of that nobody has said, and what to do.

    `always` is to be done before every push, then `here` at this opening.
    """

    cautions: tuple[CautionNote, ...]
    unsaid: tuple[AskNote, ...]
    here: tuple[str, ...]
    always: tuple[str, ...]


def before_push(study: Study, opening: str, loadout: str) -> BeforePush:
    """What to know before a push.

    For any opening that is drawn, whether or not the plan has a way in there.
    """
    piece = next(each for each in study.network.openings() if each.name == opening)
    assert piece.hole is not None
    here = _firings(study, opening, loadout)
    ways = [
        each for each in study.outcomes if each.route.opening.id == piece.id and each.loadout.name == loadout
    ]
    route = tuple(firing for way in ways for firing in way.route_firings)
    steps = steps_of((*study.site_firings, *here, *route), study.tables.openings[piece.hole.kind].first)
    spots = tuple(
        note for way in ways for spot in way.spots for note in passage_note(spot, way, study.reader).cautions
    )
    cautions = cautions_of((*study.site_firings, *here, *route))
    unsaid = ask_notes((*here, *route), {note.id for note in cautions}, study.base)
    return BeforePush((*cautions, *spots), unsaid, (*steps.opening, *steps.once_open), steps.before)


def to_relieve(study: Study) -> tuple[OpenNote, ...]:
    """What relieving a line may open, what is opened first first: the openings outside; where none is drawn,
    all but those on a roof."""
    kinds = study.tables.openings
    drawn = [(piece, kinds[piece.hole.kind]) for piece in study.network.openings() if piece.hole is not None]
    outside = [(piece, kind) for piece, kind in drawn if kind.place in ("yard", "pit")]
    may_be = outside or [each for each in drawn if each[1].place != "roof"]
    first = lowest_outside(study.network)
    may_be.sort(key=lambda each: each[0] is not first)
    return _open_notes(study, [piece for piece, _ in may_be if ruled_out(study, piece.name) is None])


def to_get_out(study: Study) -> tuple[OpenNote, ...]:
    """The openings in which a rod hangs that is still in there: whoever draws it out works at them."""
    names = {left.opening for left in study.barred.left}
    return _open_notes(study, [piece for piece in study.network.openings() if piece.name in names])


def _open_notes(study: Study, pieces: Sequence[Piece]) -> tuple[OpenNote, ...]:
    found = []
    for piece in pieces if study.kit.loadouts else ():
        assert piece.hole is not None
        kind = study.tables.openings[piece.hole.kind]
        firings = _firings(study, piece.name, study.kit.loadouts[0].name)
        cautions = cautions_of(firings)
        found.append(
            OpenNote(
                opening=piece.name,
                kind=kind.words[study.network.region],
                place=kind.place_words,
                steps=steps_of(firings, kind.first).opening,
                cautions=cautions,
                ask=ask_notes(firings, {note.id for note in cautions}, study.base),
            )
        )
    return tuple(found)


def ruled_out(study: Study, opening: str) -> str | None:
    """In a few words why the plan leaves an opening out, whatever goes in there; None where it does not."""
    piece = next(each for each in study.network.openings() if each.name == opening)
    if piece.hole is not None and piece.hole.opens is False:
        return SHUT
    if opening in shut_by_rods(study):
        return study.tables.in_pipe.left_in.why
    found = [
        next(
            (f.rule.title for f in _firings(study, opening, each.name) if f.outcome and f.conclusion.closed),
            None,
        )
        for each in study.kit.loadouts
    ]
    return found[0] if all(found) else None


def _firings(study: Study, opening: str, loadout: str) -> tuple[Firing, ...]:
    """What the rules say of an opening with what is to go in there."""
    piece = next(each for each in study.network.openings() if each.name == opening)
    load = next(each for each in study.kit.loadouts if each.name == loadout)
    facts = {**study.site_facts, **opening_facts(piece, load, study.drawn)}
    return infer_all(study.base, "opening", facts, study.reader)
