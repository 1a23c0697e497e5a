"""`advisor learn`: learn from the logs of pushes, and show what was learned."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("learn", help="learn from the logs of pushes, and show what was learned")
    parser.add_argument(
        "jobs",
        nargs="*",
        type=Path,
        metavar="JOB",
        help="folders of jobs to learn from; `show` or none: only show",
    )
    parser.add_argument("--forget", action="store_true", help="learn from these jobs no longer")
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Add or forget jobs and show; raises BadInput."""
    from advisor.push.report.taught_jobs import remember
    from advisor.terminal.learn_screen import show_lessons
    from advisor.terminal.page import Page

    jobs = [path for path in given.jobs if given.jobs != [Path("show")]]
    if jobs:
        remember(jobs, given.forget)
    return show_lessons(rules_of(given), Page())
