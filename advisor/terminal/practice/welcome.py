"""What practice is, told once, and where whoever practises works: houses and words are drawn from there."""

from __future__ import annotations

from advisor.errors import BadInput, Fault
from advisor.job.own import own_folder
from advisor.tables.regions import REGIONS
from advisor.terminal.choose import Choice, choose
from advisor.terminal.page import Page

FILE = "practice-region"


def welcome(page: Page, first_time: bool) -> None:
    """What is going to happen; in full the first time."""
    page.heading("Practice")
    if first_time:
        page.line(
            "Drains that are made up, as they are met. You choose; it tells what the choice costs in minutes "
            "and why. What is new comes with an example first. What you know comes back later."
        )
    page.line("One key answers, no Enter.")


def own_region(page: Page) -> str:
    """The region to draw houses from, asked for once and kept. Raises as `choose`, and BadInput."""
    path = own_folder() / FILE
    try:
        kept = path.read_text(encoding="utf-8").strip() if path.is_file() else ""
        if kept in REGIONS:
            return kept
        keys = [Choice(str(number), region.title()) for number, region in enumerate(REGIONS, 1)]
        region = REGIONS[
            int(choose(page, "Where do you work? Houses and words are taken from there.", keys)) - 1
        ]
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(region, encoding="utf-8")
    except (OSError, UnicodeDecodeError) as fault:
        raise BadInput([Fault(str(path), 0, f"cannot be read or written: {fault}")]) from None
    page.line(f"Kept in {path}; delete that file to be asked again.")
    return region
