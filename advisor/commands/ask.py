"""`advisor ask`: find out at the door what is known, and plan from it."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("ask", help="ask what is known of a drain, write its sheet and plan")
    parser.add_argument(
        "site", nargs="?", type=Path, help="go on from a site sheet or a job folder; without it a new job"
    )
    parser.add_argument("--all", action="store_true", help="ask everything, in a fixed order")
    parser.add_argument(
        "--answers", type=Path, metavar="FILE", help="take the answers from a file, over a job's earlier ones"
    )
    add_case(parser)


def run(given: argparse.Namespace) -> int:
    """Run the session; raises BadInput."""
    from advisor.terminal.ask_command import Wanted, ask

    return ask(
        Wanted(
            given.site,
            given.answers,
            given.all,
            given.kit,
            given.units,
            given.worlds,
            given.seed,
            rules_of(given),
        )
    )
