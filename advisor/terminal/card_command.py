"""`advisor card`: plans, makes the card, and writes it to a file or as text to the terminal."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from advisor.card.build import card_of
from advisor.card.relief import relief_card
from advisor.card.render import FORMATS, Printer
from advisor.card.text import card_text
from advisor.errors import BadInput, Fault, printable
from advisor.job.output import write_out
from advisor.paper.sizes import usual_paper
from advisor.result.model import Plan, RouteNote
from advisor.terminal.plain_line import complain, say
from advisor.terminal.ready import Ready, planned


@dataclass(frozen=True)
class Wanted:
    """What is asked for: which file, paper, format and route."""

    out: Path | None
    paper: str | None
    format: str | None
    route: int
    back: bool
    log: bool
    force: bool


def card(ready: Ready, wanted: Wanted) -> int:
    """Write the card; raises BadInput where there is no such route or the file may not be written."""
    form = _format(wanted)
    made = planned(ready)
    paper = wanted.paper or usual_paper(ready.case.sheet.model.region)
    today = date.today().isoformat()
    if made.until is not None and not made.no_plan:  # a line that is to be relieved before any push
        whole, about = relief_card(made, ready.tables.card, today), "how to relieve the line"
    else:
        route = _route(made, wanted.route)
        whole = card_of(made, route, ready.tables.card, ready.case.units, today, wanted.log)
        about = f"the way in from {route.opening}"
    left_out = 0
    if form == "txt":
        data = card_text(whole).encode()
    else:
        printer = Printer()
        fitted = printer.fitted(whole, paper)
        data = printer.printed(fitted, whole if wanted.back else None, paper, form)
        left_out = fitted.left_out
    if wanted.out is None:
        print(data.decode(), end="")
    else:
        write_out(wanted.out, data, wanted.force)
        say(printable(f"{wanted.out}: {about}, {paper} paper."))
    if left_out:
        behind = form == "pdf" and wanted.back
        one = left_out == 1
        there, has = ("it stands", "it") if one else ("they stand", "them")
        where = f"{there} on the pages behind it" if behind else f"a PDF with --back has {has} behind it"
        complain(f"{left_out} {'line' if one else 'lines'} found no room on the page: {where}.")
    return 0


def _format(wanted: Wanted) -> str:
    if wanted.out is None and wanted.format in ("pdf", "png"):
        raise BadInput([Fault("card", 0, f"a {wanted.format} is no text to show here; expected -o FILE")])
    if wanted.format:
        return wanted.format
    if wanted.out is None:
        return "txt"
    ending = wanted.out.suffix.lower().removeprefix(".")
    if ending not in FORMATS:
        message = f"it ends in {ending or 'nothing'!r}; expected .pdf, .png, .svg or .txt, or --format"
        raise BadInput([Fault(str(wanted.out), 0, message)])
    return ending


def _route(made: Plan, number: int) -> RouteNote:
    if not made.camera_now or not made.routes:
        why = " ".join(filter(None, (*made.left_in, made.first_step, made.out)))
        raise BadInput([Fault("card", 0, f"there is no push to print a card for. {why}")])
    if not 1 <= number <= len(made.routes):
        message = f"there is no route {number}; expected 1 to {len(made.routes)}"
        raise BadInput([Fault("card", 0, message)])
    return made.routes[number - 1]
