"""What earlier pushes of the job told, for a card: what is cleaned before anything is opened, what was seen
on ways that are not its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from textwrap import shorten

from advisor.card import worth
from advisor.card.content import KEPT, Block, Line, Sight
from advisor.card.held import READ
from advisor.card.spans import span_words
from advisor.quantity import Units, show_counter, show_reading
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

    first = by_done(met(n for n in plan.found if n.first))
    drain = "; ".join(dict.fromkeys(each for _, each in met(n for n in plan.found if n.drain_first)))
    cleaned = words.drain_first.format(met=drain) if drain else ""
    cleaned = words.cleaned_first.format(met=first) if first else cleaned
    return " ".join(filter(None, (plan.seen.card, cleaned)))


def _few(note: FoundNote) -> str:
    return shorten(note.what, _FEW, placeholder=" ...")


def _stops_left(plan: Plan, route: RouteNote) -> tuple[str, ...]:
    """What stopped pushes and no row of the card tells whole. What was told as one began is asked anew."""
    rows = {said for note in found_on(plan, route) for said in note.said}
    return tuple(each for each in plan.stopped if each not in rows)


def found_row(note: FoundNote, plan: Plan, words: CardFile, units: Units) -> Sight:
    """The row of what a push met on the way."""
    at = show_counter(note.at_m, units)
    ordered = note.instead and (note.first or note.instead in plan.first_step)
    do = f"{note.do} {note.instead}" if ordered else note.do
    heed, value = words.few_of(do), found_worth(note)
    return Sight(
        reading=at,
        span=span_words(*note.span_m, partial(show_reading, units=units)) if note.span_m else "",
        see=note.see,
        do=do,
        missed=note.missed,
        hard=False,
        worth=value,
        rest_worth=KEPT if heed == do else min(worth.FOUND_WORDS, value),
        short=f"{at}: {note.see}",
        heed=heed,
    )


def found_worth(note: FoundNote) -> int:
    """Of a row of what a push met. What bars goes from no paper, be it that no head is pushed into it; what
    held one outlasts all that is only foreseen; what asks for care alone goes long before both."""
    if note.not_past or note.first or note.not_into:
        return KEPT
    return worth.FOUND_MILD if note.mild else worth.FOUND_ROW


def seen_elsewhere(plan: Plan, route: RouteNote | None, words: CardFile) -> tuple[Block, ...]:
    """What pushes saw on no way of this card, as a block of it. A bend on no sheet is drawn at a desk: the
    plan tells it, and its row where it lies on this way."""
    met = (note for note in found_elsewhere(plan, route) if not note.undrawn)
    lines = []
    for note in met:
        value = found_worth(note)
        name = words.untold["elsewhere"].format(what=note.what, opening=note.opening)
        held = route is not None and value == worth.FOUND_ROW
        # Of a line to be relieved first, what can hurt comes before it.
        value = value if route is not None else min(worth.WARNING, value)
        lines.append(Line(note.left, value, called=name if held else ""))
    if route is not None:
        name = words.untold["stops"]
        lines += [Line(told, worth.FOUND_ROW, called=name) for told in _stops_left(plan, route)]
    return (Block("Seen in earlier pushes", READ, tuple(lines)),) if lines else ()
