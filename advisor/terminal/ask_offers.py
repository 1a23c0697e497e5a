"""What a question session offers besides: the truck's kit before it, the card for the pocket after it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from advisor.errors import BadInput
from advisor.job.folder import Job
from advisor.job.output import write_out
from advisor.job.own import kit_later, own_kit
from advisor.terminal import kit_command
from advisor.terminal.card_command import Wanted, card
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page
from advisor.terminal.ready import Ready

MOST_CARDS = 1000


def offer_kit(given: Path | None, units: str | None, rules: Path, page: Page) -> None:
    """Ask for what is on the truck where no kit is known yet; the answer is kept, so it is asked once."""
    if given is not None or own_kit() is not None or kit_later().exists():
        return
    choices = (
        Choice("1", "say it now, once for all jobs"),
        Choice("2", "later; reels of usual make are taken"),
    )
    if choose(page, "Nobody has said yet what is on the truck.", choices) == "1":
        kit_command.new(False, units, rules, page)
        return
    page.line("Not asked again. Whenever it suits: advisor kit new.")
    with suppress(OSError, BadInput):  # where it cannot be kept, it is asked again, which harms nobody
        kit_later().parent.mkdir(parents=True, exist_ok=True)
        write_out(kit_later(), b"", force=True)


def offer_card(ready: Ready, job: Job, page: Page) -> None:
    """The route card of the plan that was just shown, to a file of the job or here."""
    choices = (
        Choice("1", "as a page to print, in the job's folder"),
        Choice("2", "as text, here"),
        Choice("0", "no", also="n"),
    )
    key = choose(page, "The card for the pocket?", choices)
    if key == "0":
        return
    names = (f"card{n}.pdf" for n in ("", *(f"-{i}" for i in range(2, MOST_CARDS))))
    free = next(path for name in names if not (path := job.folder / name).exists())
    out, form = (free, "pdf") if key == "1" else (None, "txt")
    try:
        card(ready, Wanted(out, None, form, 1, back=True, log=True, force=False))
    except BadInput as none:  # a line that holds has no card: that is told, and the session has ended well
        page.line(none.faults[0].message)
