"""`advisor check`: sheets and rule files, with every fault at once."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("check", help="check sheets and rule files, and run the rules' examples")
    parser.add_argument(
        "files", nargs="+", type=Path, metavar="FILE", help="site sheet, kit sheet or rules folder"
    )
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Check and tell; gives 2 where there is any fault."""
    from advisor.terminal.check_screen import check

    return check(given.files, rules_of(given))
