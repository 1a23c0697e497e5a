"""`advisor matrix`: every technique against every kind of trouble."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser(
        "matrix", help="every technique against every kind of trouble, with the reason"
    )
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Show the table."""
    from advisor.terminal.check_screen import matrix

    return matrix(rules_of(given))
