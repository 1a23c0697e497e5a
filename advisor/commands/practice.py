"""`advisor practice`: drills and a simulated push for trainees, coming back at the right time."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands

# Told here too, so that help needs nothing heavy; a test compares it with the drills themselves.
KINDS = ("opening", "fitting", "technique", "hands", "signs", "stop", "bring", "push")


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("practice", help="drills and a simulated push, for learning the judgement")
    parser.add_argument("kind", nargs="?", choices=KINDS, help="stay with one skill; without it what is due")
    parser.add_argument(
        "--seed", type=_seed, metavar="N", help="the drill of that number; by default the next"
    )
    parser.add_argument("--report", action="store_true", help="how practice has gone, on one page")
    parser.add_argument(
        "--from", type=Path, dest="job", metavar="JOB", help="a drill from a logged job, its names taken out"
    )
    parser.add_argument("--kit", type=Path, help="kit sheet; without it your own, else reels of usual make")
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Practise or report; raises BadInput, InputEnded."""
    from datetime import UTC, datetime
    from itertools import count

    from advisor.practice.left import count_left
    from advisor.practice.review import own_reviews, read
    from advisor.terminal.page import Page

    log, page = own_reviews(), Page()
    done = read(log)
    if given.report:
        from advisor.practice.marks import marks_of
        from advisor.tables.load import load_tables
        from advisor.terminal.practice.report_screen import show_report

        show_report(done, datetime.now(UTC), marks_of(load_tables(rules_of(given))), page)
        return 0
    from advisor.job.folder import job_at
    from advisor.terminal.choose import need_terminal, told_at_its_end
    from advisor.terminal.practice.session import job_drill, sitting
    from advisor.terminal.practice.welcome import own_region, welcome
    from advisor.terminal.ready import make_school

    job = job_at(given.job) if given.job else None
    need_terminal("`advisor practice --report` prints how it has gone")
    first = len(done) + count_left(log) + 1 if given.seed is None else given.seed
    again = f" --from {given.job}" if given.job else ""
    kept = f"What was finished is kept, what was not does not count. Go on with: advisor practice{again}"
    with told_at_its_end(lambda: kept):
        if job is not None:
            job_drill(make_school(given.kit, rules_of(given)), job, first, page)
        else:
            welcome(page, not done)
            school = make_school(given.kit, rules_of(given), own_region(page))
            sitting(school, log, lambda: datetime.now(UTC), given.kind, count(first), page)
    return 0


def _seed(text: str) -> int:
    if not (text.isascii() and text.isdigit()) or int(text) > 10**9:
        raise argparse.ArgumentTypeError(f"got {text!r}; expected a number from 0 to 1000000000")
    return int(text)
