"""`advisor card`: the route card, one page for the pocket."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case, file_of, ready_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("card", help="print the route card: one page for a wet pocket")
    parser.add_argument(
        "site", nargs="?", type=Path, help="site sheet or job folder; without it the built-in demo house"
    )
    parser.add_argument("-o", "--out", type=Path, help="file to write; without it the card as text here")
    parser.add_argument("--paper", choices=["letter", "a4", "half"], help="default: by the region")
    parser.add_argument("--format", choices=["pdf", "png", "svg", "txt"], help="default: by the file's name")
    parser.add_argument("--route", type=int, default=1, metavar="N", help="the N-th best way in")
    parser.add_argument(
        "--back", action="store_true", help="pages behind it: what found no room, rows to write in"
    )
    parser.add_argument("--no-log", action="store_true", help="no rows to write in")
    parser.add_argument("--force", action="store_true", help="write over a file that is there")
    add_case(parser)


def run(given: argparse.Namespace) -> int:
    """Plan, make the card and write it; raises BadInput."""
    from advisor.terminal.card_command import Wanted, card

    wanted = Wanted(
        file_of(given), given.paper, given.format, given.route, given.back, not given.no_log, given.force
    )
    return card(ready_of(given), wanted)
