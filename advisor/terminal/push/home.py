"""The end of a push: the rod is still in there. A job is done once it is out and clean, the opening shut."""

from __future__ import annotations

from advisor.job.folder import Job
from advisor.push.kinds import TRY
from advisor.push.now import Now
from advisor.push.way_out import way_out
from advisor.quantity import Dimension, show
from advisor.terminal.page import Page
from advisor.terminal.push.words import Words


def show_coming_home(now: Now, job: Job, page: Page) -> None:
    """What it takes to draw the rod back from here, and what comes after that."""
    words, study = Words(now), now.push.study
    # A line that was just stopped in, or that backs up, is first to be seen to drain.
    water = now.water_allowed and (None if now.doubtful else True)
    way = way_out(now.push.course, None, now.along, folded=False, water=water)
    units, told = study.units, study.tables.card
    pull, most = (show(force, Dimension.FORCE, units) for force in (way.pull, way.limit))
    steps = [f"Draw the rod back by hand, evenly. It should take about {pull}; never pull more than {most}."]
    steps += [
        f"At {words.length(at)} a rim of the {name} faces the head: slowly, and turn the rod."
        for name, at in way.rims
    ]
    if any(entry.kind == TRY and entry.data.get("technique") == "string" for entry in now.entries):
        steps.append(told.after_string)
    steps += told.after_push(water)
    page.heading("Coming home")
    page.steps(steps)
    page.line(f"Write it up: advisor report {job.folder}")
