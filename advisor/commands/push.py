"""`advisor push`: follow a push at the opening, entry by entry."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case, ready_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser(
        "push", help="follow a push: where the head is, what comes next, what if stuck"
    )
    parser.add_argument("site", type=Path, metavar="JOB", help="the folder of a job, with a site.yaml in it")
    add_case(parser)


def run(given: argparse.Namespace) -> int:
    """Follow one push; raises BadInput."""
    from advisor.job.folder import job_at
    from advisor.job.units import keep_units
    from advisor.terminal.choose import need_terminal
    from advisor.terminal.push.follow import follow

    job = job_at(given.site)
    need_terminal("what was pushed is shown by advisor log JOB")
    ready = ready_of(given)
    keep_units(job, given.units)
    return follow(job, ready)
