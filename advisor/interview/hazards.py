"""Verdict and cautions without any planning: of the job after an answer, of a place before a question."""

from __future__ import annotations

from collections.abc import Iterable

from advisor.interview.ask import Ask
from advisor.interview.sheets import Drain, Known
from advisor.outcome.facts import facts_of_place, site_facts
from advisor.outcome.rulings import infer_all
from advisor.plan import circumstances_of
from advisor.quantity import Units
from advisor.result.build import verdict_of
from advisor.rulebase import Caution
from advisor.rulebase.reader import Reader
from advisor.rulebase.rule import GRAVEST_FIRST
from advisor.rulebase.trace import Firing
from advisor.site.network import Piece
from advisor.site.suspects import backing_up


def hazards(drain: Drain, known: Known, units: Units) -> tuple[str, ...]:
    """The verdict, if there is one, then each caution that holds as `WARNING: its text`."""
    reader = Reader(units, known.tables.words(drain.region))
    facts = site_facts(drain.network, circumstances_of(drain.sheet.model, drain.network), known.tables)
    firings = infer_all(known.base, "site", facts, reader)
    verdict = verdict_of(firings)
    return (*([] if verdict is None else [verdict]), *_told(_that_hold(firings)))


def no_more_fine(before: Drain | None, now: Drain | None) -> str:
    """What was told to run away well and by a later answer does not; nothing where there is none."""
    if before is None or now is None:
        return ""
    was, is_now = (each.sheet.model.task.complaint for each in (before, now))
    worse = {*backing_up(now.network, is_now), *is_now.slow}
    names = [name for name in was.fine if name in worse and name not in is_now.fine]
    was_said = f"{' and '.join(names)} {'was' if len(names) == 1 else 'were'} said to run away well"
    then = "The graver word holds: it counts as fine no more. A slip? Change it."
    return f"One does not go with the other: {was_said}. {then}" if names else ""


def beside_question(ask: Ask, drain: Drain | None, known: Known, units: Units) -> tuple[str, ...]:
    """What can hurt whoever goes to find out: on the way to each opening that a question leads to, and all
    that can hurt at one that it wants hands on."""
    if drain is None:
        return ()
    reader = Reader(units, known.tables.words(drain.region))
    site = site_facts(drain.network, circumstances_of(drain.sheet.model, drain.network), known.tables)
    found: list[Caution] = []
    places = [facts_of_place(opening, known.tables) for opening in _gone_to(ask, drain, known)]
    if ask.crawls:
        places.append({"opening.crawl": True})
    for place in places:
        hold = _that_hold(infer_all(known.base, "opening", {**site, **place}, reader))
        found += (each for each in hold if ask.question.hands_on or each.on_the_way)
    if any(place.get("opening.neighbours_ground") for place in places):  # leave is asked once for the job
        of_job = _that_hold(infer_all(known.base, "site", site, reader))
        found += (each for each in of_job if each.on_the_way)
    return _told(sorted(found, key=lambda each: GRAVEST_FIRST.index(each.word)))


def _gone_to(ask: Ask, drain: Drain, known: Known) -> list[Piece]:
    """The opening that it is about; else those beside its place, and those indoors on the same pipe: where it
    hangs in a crawl space, all of it does. For these nobody climbs on a roof: it is told from below."""
    pieces, subject = drain.network.pieces, ask.subject
    if subject.piece is not None and subject.piece.hole is not None:
        return [subject.piece]
    wall = subject.wall or (subject.piece.wall if subject.piece is not None else None)
    found = []
    for piece in pieces.values():
        if piece.hole is not None and piece.hole.there > 0 and wall is not None:
            place = known.tables.openings[piece.hole.kind].place
            beside = piece.id in subject.beside and place != "roof"
            if beside or (piece.wall.id == wall.id and place in ("floor", "wall")):
                found.append(piece)
    return found


def _that_hold(firings: Iterable[Firing]) -> list[Caution]:
    told = (firing.conclusion.caution for firing in firings if firing.outcome)
    return [each for each in told if each is not None]


def _told(cautions: Iterable[Caution]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{each.word.upper()}: {each.text}" for each in cautions))
