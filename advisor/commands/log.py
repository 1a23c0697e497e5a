"""`advisor log`: show or export the log of a job's pushes."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, file_of, rules_of
from advisor.quantity import Units

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("log", help="show or export the log of a job's pushes")
    parser.add_argument("job", type=Path, metavar="JOB", help="the folder of a job")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--csv", action="store_true", help="as a table for spreadsheets")
    form.add_argument("--json", action="store_true", help="as JSON")
    form.add_argument("--geojson", action="store_true", help="finds and marks as points of a map")
    form.add_argument(
        "--rescue", type=Path, metavar="NEW.db", help="what a damaged log still holds, as a new log"
    )
    parser.add_argument(
        "-o", "--out", type=Path, metavar="FILE", help="write to a file instead of the screen"
    )
    parser.add_argument("--force", action="store_true", help="write over a file that is there")
    parser.add_argument(
        "--units", choices=[u.value for u in Units], help="default: those of the job or region"
    )
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Show, export or rescue; raises BadInput."""
    from advisor.job.folder import job_at
    from advisor.terminal.log_screen import export_log, export_points, rescue_log, show_log
    from advisor.terminal.page import Page

    job = job_at(given.job)
    if given.rescue:
        rescue_log(job, given.rescue, Page())
    elif given.geojson:
        export_points(job, rules_of(given), file_of(given), given.force, Page())
    elif given.csv or given.json or given.out:
        export_log(job, rules_of(given), bool(given.json), file_of(given), given.force, Page())
    else:
        show_log(job, Units(given.units) if given.units else None, rules_of(given), Page())
    return 0
