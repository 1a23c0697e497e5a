"""`advisor plan`: rank the openings of a site and say how to pass each hard spot."""

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
        "plan", help="rank the openings of a site and say how to pass each hard spot"
    )
    parser.add_argument(
        "site", nargs="?", type=Path, help="site sheet or job folder; without it the built-in demo house"
    )
    add_case(parser)
    parser.add_argument("--pages", action="store_true", help="a screenful at a time")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(given: argparse.Namespace) -> int:
    """Plan and show; raises BadInput."""
    from advisor.errors import printable_json
    from advisor.terminal.ready import planned

    ready = ready_of(given)
    made = planned(ready)
    if given.json:
        print(printable_json(made.model_dump_json(indent=2)))
        return 0
    from advisor.terminal.page import Page
    from advisor.terminal.plan_screen import show_plan

    page = Page()
    if given.pages:
        from advisor.terminal.leaf import leaf_through

        leaf_through(page, lambda: show_plan(made, ready.case.units, page))
        return 0
    show_plan(made, ready.case.units, page)
    if page.console.is_terminal:
        page.line()
        page.line("A screenful at a time: --pages. One page for the pocket: advisor card.")
    return 0
