"""`advisor rules`: list rules, show one, see what fires and what rests on weak ground."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser(
        "rules", help="list rules, show one, see what fires and what rests on weak ground"
    )
    parser.add_argument("question", choices=["list", "show", "fired", "dead", "weak"], help="which rules")
    parser.add_argument("about", nargs="*", help="rule ids to show, or site sheets and folders of them")
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Answer; raises BadInput."""
    from advisor.terminal.rules_screen import rules

    return rules(given.question, given.about, rules_of(given))
