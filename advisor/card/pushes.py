"""What earlier pushes of the job told, for a card: what is cleaned before anything is opened, what was seen
on ways that are not its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import shorten

from advisor.card import worth
from advisor.card.content import Block, Line
from advisor.card.held import READ
from advisor.quantity import Units, show_counter
from advisor.result.model import Plan, RouteNote
from advisor.result.told import found_elsewhere, found_on
from advisor.result.way_model import FoundNote
from advisor.tables.card import CardFile
from advisor.tables.found_before import by_done

_FEW = 36  # layout: letters of a find where the steps begin; its row or block tells it whole


def before_all(plan: Plan, words: CardFile, units: Units) -> str:
    """What comes before all steps of the card, as in the plan: that all of it was seen, and what is cleaned;
    nothing where nothing does."""

    def met(notes: Iterable[FoundNote]) -> Iterator[tuple[str, str]]:
        for note in notes:
            at = show_counter(note.at_m, units)
            yield note.first, words.cleaned_at.format(what=_few(note), reading=at, opening=note.opening)

    first = by_done(met(n for n in plan.found if n.first), words.cleaned_by)
    drain = "; ".join(dict.fromkeys(each for _, each in met(n for n in plan.found if n.drain_first)))
    cleaned = words.drain_first.format(met=drain) if drain else ""
    cleaned = words.cleaned_first.format(met=first) if first else cleaned
    return " ".join(filter(None, (plan.seen.card, cleaned)))


def _few(note: FoundNote) -> str:
    return shorten(note.what, _FEW, placeholder=" ...")


def stops_left(plan: Plan, route: RouteNote) -> tuple[str, ...]:
    """What stopped pushes and no row of the card tells whole. What was told as one began is asked anew."""
    rows = {said for note in found_on(plan, route) for said in note.said}
    return tuple(each for each in plan.stopped if each not in rows)


def seen_elsewhere(plan: Plan, route: RouteNote | None) -> tuple[Block, ...]:
    """What pushes saw on no way of this card, as a block of it."""
    lines = tuple(Line(note.left, worth.WARNING) for note in found_elsewhere(plan, route))
    return (Block("Seen in earlier pushes", READ, lines),) if lines else ()
