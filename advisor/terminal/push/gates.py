"""What must be so before any push: asked where nobody has said it; no push is made until somebody has."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.now.backs_up import CLEARED_NOW
from advisor.push.now.door import BETWEEN, NO_GAS, NOTHING_POURED
from advisor.push.told_before import GAS, HOLDING, POURED
from advisor.result.model import AskNote, Plan
from advisor.result.study import Study
from advisor.terminal.choose import Choice, choose, yes_no
from advisor.terminal.page import Page

BEGUN, GONE_ON = "Nothing is begun.", "Nothing is pushed on."  # what comes of it where one is not so
_DRAINS = (("y", "yes, seen to drain just now"), ("c", CLEARED_NOW))


@dataclass(frozen=True)
class Gates:
    """What was told, and whether the line was seen to drain just now; None where that was known before."""

    told: str | None
    drains: bool | None


def pass_gates(study: Study, plan: Plan, page: Page, else_: str = BEGUN) -> Gates | None:
    """Ask, one after the other, what nobody has said; None where no push may be made: `else_` says so."""
    notes = {note.caution.id: note for note in plan.ask}
    gas, poured = study.circumstances.gas_smell is None, study.circumstances.chemicals is None
    if gas and not _no_gas(notes.get(GAS), page, else_):
        return None
    heard = plan.until if plan.no_plan else None  # that a line was cleared is looked at below, not heard
    if heard is not None and not _so_now(heard, page):
        page.line(else_)
        return None
    if poured and not _nothing_poured(notes.get(POURED), page, else_):
        return None
    _tell(notes.get(HOLDING), page)
    drains = _seen_to_drain(study, plan, page)
    if plan.holding is not False and drains is None:
        page.line(f"{else_} No camera before the line is seen to drain.")
        if else_ == GONE_ON:
            page.line("What is in there: draw it out by hand, gently, or tape the rod and leave it.")
        return None
    told = (NO_GAS if gas else None, heard, NOTHING_POURED if poured else None, drains)
    return Gates(BETWEEN.join(filter(None, told)) or None, None if drains is None else True)


def not_known(ask: AskNote, signal: bool) -> str:
    """What counts until it is known; outside a box (`signal`) the signal word stands in the line."""
    word = f", {ask.caution.word.upper()}" if signal else ""
    about = " and whether ".join(ask.about)
    return f"Not known whether {about}. Until it is known{word}: {ask.caution.text}"


def _tell(ask: AskNote | None, page: Page) -> None:
    if ask is not None:
        page.line(not_known(ask, signal=True))


def _no_gas(ask: AskNote | None, page: Page, else_: str) -> bool:
    """Whether it was smelled that there is none; what is not known counts as the caution says."""
    if ask is not None:
        page.boxed(ask.caution.word, [not_known(ask, signal=False)])
    asked = "Smell at the door and at each opening. Does anybody smell gas?"
    stands = (Choice("y", "yes"), Choice("d", "not known: not smelled yet", also="?"))
    key = choose(page, asked, (Choice("n", "no, nobody smells any"), *stands))
    if key == "y":
        if ask is not None:
            page.boxed(ask.caution.word, [ask.caution.text])
        page.line(f"{else_} Once outside, tell advisor ask.")
    elif key != "n":
        page.line(f"{else_} Smell first: no switch and no tool before that.")
    return key == "n"


def _nothing_poured(ask: AskNote | None, page: Page, else_: str) -> bool:
    """Whether everybody was asked, and nobody did: as of the gas, no is the answer to go on with."""
    _tell(ask, page)
    asked = "Ask everybody. Has anybody poured in a drain cleaner or another chemical?"
    stands = (Choice("y", "yes"), Choice("d", "not known: not everybody was asked", also="?"))
    key = choose(page, asked, (Choice("n", "no, everybody was asked, and nobody did"), *stands))
    if key == "y":
        page.line(f"{else_} Hands off. Tell advisor ask what was poured in.")
    elif key != "n":
        page.line(f"{else_} Ask everybody first.")
    return key == "n"


def _so_now(until: str, page: Page) -> bool:
    """Whether what stands before any push has come about."""
    return choose(page, f"Is it so now: {until}?", yes_no("yes, I have it from them or saw it")) == "y"


def _seen_to_drain(study: Study, plan: Plan, page: Page) -> str | None:
    """What was seen of the line now, where it is not known to drain, or two things said of it cannot be.

    None where it was not looked at or stands: then nothing is begun. Of one that stood full nobody's word is
    enough that it was cleared.
    """
    if plan.holding is False:
        return None
    choices = [Choice(key, words) for key, words in _DRAINS if key != "c" or plan.doubt is not None]
    stands = (
        Choice("n", "no, it stands higher than its own trap, or comes up"),
        Choice("d", "nobody has looked now"),
    )
    key = choose(
        page,
        f"Look into {study.look_into}, loosen no plug. "
        "Does the line drain now, down to what its trap always holds?",
        (*choices, *stands),
    )
    return dict(_DRAINS).get(key)
