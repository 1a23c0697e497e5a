"""Progress on a page: for whoever practised, and for whoever answers for them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from advisor.practice.drills import TITLES
from advisor.practice.marks import Marks
from advisor.practice.progress import LEGEND, chart, standing
from advisor.practice.review import PUSH, Review, of_skill
from advisor.practice.skill import SKILLS, replay
from advisor.terminal.page import Page

NAMES = {**TITLES, PUSH: "simulated push"}


def show_report(reviews: Sequence[Review], now: datetime, marks: Marks, page: Page) -> None:
    """Every skill: step, tries, regret over time, when it comes back, and what may be concluded."""
    page.heading("Practice")
    if not reviews:
        page.line("Nothing has been practised yet. `advisor practice` begins.")
        return
    first, last = min(r.at for r in reviews), max(r.at for r in reviews)
    count = f"{len(reviews)} {'drill' if len(reviews) == 1 else 'drills'}"
    page.line(f"{count} from {first:%d %b %Y} to {last:%d %b %Y}.")
    page.line("Regret: minutes that the answers cost over the best, by the planner's own reckoning.")
    page.line(f"One mark a drill, oldest first:  {LEGEND}")
    for name, skill in replay(reviews, marks).items():
        own, figures = of_skill(reviews, name), standing(reviews, name, marks)
        if not own:
            continue
        page.line()
        page.strong(f"{NAMES[name]}: {skill.step}")
        page.line(chart(own), indent=4)
        cases = "one case" if figures.cases == 1 else f"{figures.cases} different cases"
        page.line(f"mean {figures.mean:.0f} min over {cases}; {figures.words}", indent=4)
        if figures.unsafe:
            times = "once" if figures.unsafe == 1 else f"{figures.unsafe} times"
            page.line(f"something that can hurt somebody or cost the head was chosen {times}", indent=4)
        page.line(_comes_back(skill.due, now), indent=4)
    page.line()
    page.line(
        "What this does not show: how somebody works in a real drain. The planner's own numbers are weak in "
        "places, a few tries say little, and nobody has yet compared practice with work."
    )
    missing = [NAMES[name] for name in SKILLS if not of_skill(reviews, name)]
    if missing:
        page.line(f"Not begun: {', '.join(missing)}.")


def _comes_back(due: datetime | None, now: datetime) -> str:
    if due is None or due <= now:
        return "due now"
    return f"comes back on {due:%d %b %Y}"
