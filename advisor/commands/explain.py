"""`advisor explain`: how, why not, what if, what matters, what would change it."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case, ready_of

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("explain", help="how, why not, what if, what matters, what would change it")
    parser.add_argument(
        "question",
        choices=["how", "why-not", "what-if", "matters", "changes"],
        help="what is to be explained",
    )
    parser.add_argument(
        "about",
        nargs="*",
        help="an opening, with a technique or with what may go in there; for what-if LINE/ENTRY=VALUE",
    )
    parser.add_argument(
        "--site", type=Path, help="site sheet or job folder; without it the built-in demo house"
    )
    parser.add_argument("--full", action="store_true", help="the whole tree of reasons")
    add_case(parser)
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(given: argparse.Namespace) -> int:
    """Answer one question; raises BadInput."""
    from advisor.terminal.explain_command import explain
    from advisor.terminal.page import Page

    ready = ready_of(given)
    code = explain(ready, given.question, given.about, given.full, given.json)
    if given.site is None and not given.json:
        # Whoever has just planned his own house would take this for an answer about it.
        house = ready.case.sheet.model.site
        Page().line(f"That is of the built-in demo house, {house}. For your own: --site JOB.")
    return code
