"""The card of a line that is to be relieved first: the steps, how each opening is opened, what can hurt."""

from __future__ import annotations

from dataclasses import replace

from advisor.card import worth
from advisor.card.content import KEPT, Block, Card, Line
from advisor.card.hazards import Hazards
from advisor.card.pushes import seen_elsewhere
from advisor.result.model import Plan
from advisor.result.told import asks_told, cautions_told, opening_steps
from advisor.tables.card import CardFile


def relief_card(plan: Plan, words: CardFile, date: str) -> Card:
    """No route, no drawing and no rows for a log: nothing is pushed."""
    hazards = Hazards(plan, cautions_told(plan, ()), asks_told(plan, ()), words, pushes=False)
    bring = (Block("Bring", "", _lines((", ".join(plan.bring),), worth.WARNING)),) if plan.bring else ()
    # What may be passed is told in the step that clears the line.
    bars = plan.model_copy(update={"found": tuple(note for note in plan.found if note.not_past)})
    # What to bring and how each is opened, however grave, goes before what can hurt or held a head.
    graver = (
        replace(block, lines=tuple(replace(line, worth=line.worth + 1) for line in block.lines))
        for block in (*seen_elsewhere(bars, None, words), *hazards.blocks())
    )
    return Card(
        job=plan.site,
        date=date,
        opening="",
        where="",
        target=plan.first_step,
        kit=plan.left_in,
        keys=(),
        pull_rests_on="",
        minds=(*plan.told, *plan.stopped),  # whoever clears it comes to that too
        minds_worth=KEPT,
        boxes=hazards.boxes(),
        sights=(),
        stuck=(),
        blocks=(
            Block("Do this, in this order", "", _lines(plan.how, KEPT)),
            *bring,
            *(
                Block(f"Opening {names}", "", _lines(steps, worth.WARNING))
                for names, steps in opening_steps(plan.to_open)
            ),
            *graver,
        ),
        log_rows=0,
        strip="",
        strip_words="",
        strip_signs="",
        strip_worth=worth.STRIP,
        log_worth=worth.LOG,
    )


def _lines(steps: tuple[str, ...], value: int) -> tuple[Line, ...]:
    return tuple(Line(step, value) for step in steps)
