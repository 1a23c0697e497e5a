"""`advisor report`: what was seen in a job, for the customer and the file."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case

if TYPE_CHECKING:
    from advisor.commands.options import Commands

FORMS = ("pdf", "html", "txt")


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("report", help="write up what was seen in a job")
    parser.add_argument("job", type=Path, metavar="JOB", help="the folder of a job")
    parser.add_argument(
        "-o", "--out", type=Path, metavar="FILE", help="default: report.pdf in the job's folder"
    )
    parser.add_argument("--format", choices=FORMS, help="default: by the file's ending, else pdf")
    parser.add_argument("--paper", choices=["letter", "a4"], help="of a pdf; default: by the region")
    parser.add_argument("--force", action="store_true", help="write over a file that is there")
    add_case(parser)


def run(given: argparse.Namespace) -> int:
    """Write the report; raises BadInput."""
    from advisor.commands.options import file_of, rules_of
    from advisor.errors import BadInput, Fault
    from advisor.job.folder import job_at
    from advisor.terminal.page import Page
    from advisor.terminal.ready import make_ready
    from advisor.terminal.report_screen import Wanted, write_report

    job = job_at(given.job)
    rules = rules_of(given)
    ready = make_ready(job.folder, given.kit, given.units, given.worlds, given.seed, rules)
    ending = given.out.suffix.lstrip(".").lower() if given.out else ""
    if ending and ending not in FORMS and not given.format:
        message = f"it ends in '.{ending}'; expected .pdf, .html or .txt, or --format"
        raise BadInput([Fault(str(given.out), 0, message)])
    form = given.format or ending or "pdf"
    out = file_of(given) if given.out else job.folder / f"report.{form}"
    write_report(job, ready, rules, Wanted(out, form, given.paper, given.force), Page())
    return 0
