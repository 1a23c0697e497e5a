"""What must be so before any push: asked where nobody has said it; nothing is begun until somebody has."""

from __future__ import annotations

from dataclasses import dataclass

from advisor.push.told_before import GAS, HOLDING, POURED
from advisor.result.model import AskNote, Plan
from advisor.result.study import Study
from advisor.terminal.choose import Choice, choose, yes_no
from advisor.terminal.page import Page

NOTHING_POURED = "everybody was asked, and nobody poured in a drain cleaner"
_NO_GAS = "nobody smells gas, at the door and at each opening"
_DRAINS = (("y", "yes, seen to drain just now"), ("c", "it backed up and is cleared now: seen to drain"))


@dataclass(frozen=True)
class Gates:
    """What was told, and whether the line was seen to drain just now; None where that was known before."""

    told: str | None
    drains: bool | None


def pass_gates(study: Study, plan: Plan, page: Page) -> Gates | None:
    """Ask, one after the other, what nobody has said; None where nothing may be begun."""
    notes = {note.caution.id: note for note in plan.ask}
    gas, poured = study.circumstances.gas_smell is None, study.circumstances.chemicals is None
    if gas and not _no_gas(notes.get(GAS), page):
        return None
    if plan.until is not None and not _so_now(plan.until, page):
        page.line("Nothing is begun.")
        return None
    if poured:
        _tell(notes.get(POURED), page)
        if not _so_now(NOTHING_POURED, page):
            page.line("Nothing is begun. Ask everybody first. If something was poured in, tell advisor ask.")
            return None
    _tell(notes.get(HOLDING), page)
    drains = _seen_to_drain(plan, page)
    if plan.holding is None and drains is None:
        page.line("Nothing is begun. No camera before the line is seen to drain.")
        return None
    told = (_NO_GAS if gas else None, plan.until, NOTHING_POURED if poured else None, drains)
    return Gates("; ".join(filter(None, told)) or None, None if drains is None else True)


def not_known(ask: AskNote, signal: bool) -> str:
    """What counts until it is known; outside a box (`signal`) the signal word stands in the line."""
    word = f", {ask.caution.word.upper()}" if signal else ""
    about = " and whether ".join(ask.about)
    return f"Not known whether {about}. Until it is known{word}: {ask.caution.text}"


def _tell(ask: AskNote | None, page: Page) -> None:
    if ask is not None:
        page.line(not_known(ask, signal=True))


def _no_gas(ask: AskNote | None, page: Page) -> bool:
    """Whether it was smelled that there is none; what is not known counts as the caution says."""
    if ask is not None:
        page.boxed(ask.caution.word, [not_known(ask, signal=False)])
    asked = "Smell at the door and at each opening. Does anybody smell gas?"
    stands = (Choice("y", "yes"), Choice("d", "not known: not smelled yet", also="?"))
    key = choose(page, asked, (Choice("n", "no, nobody smells any"), *stands))
    if key == "y":
        if ask is not None:
            page.boxed(ask.caution.word, [ask.caution.text])
        page.line("Nothing is begun. Once outside, tell advisor ask.")
    elif key != "n":
        page.line("Nothing is begun. Smell first: no switch and no tool before that.")
    return key == "n"


def _so_now(until: str, page: Page) -> bool:
    """Whether what stands before any push has come about."""
    return choose(page, f"Is it so now: {until}?", yes_no("yes, I have it from them or saw it")) == "y"


def _seen_to_drain(plan: Plan, page: Page) -> str | None:
    """What was seen of the line now, where nobody knows whether it drains or two things said of it cannot be.

    None where it was not looked at or stands: then nothing is begun.
    """
    if plan.holding is not None:
        return None
    choices = [Choice(key, words) for key, words in _DRAINS if key != "c" or plan.doubt is not None]
    stands = (
        Choice("n", "no, it stands higher than its own trap, or comes up"),
        Choice("d", "nobody has looked now"),
    )
    key = choose(
        page,
        "Look into the lowest fixture, loosen no plug. "
        "Does the line drain now, down to what its trap always holds?",
        (*choices, *stands),
    )
    return dict(_DRAINS).get(key)
