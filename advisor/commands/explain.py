"""`advisor explain`: how, why not, what if, what matters, what would change it."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_case, ready_of
from advisor.errors import BadInput

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
    # Whoever has just planned his own house would take an answer, or a refusal, for one about it.
    house = f"the built-in demo house, {ready.case.sheet.model.site}. For your own: --site JOB."
    try:
        code = explain(ready, given.question, given.about, given.full, given.json)
    except BadInput as fault:
        raise fault if given.site else _asked_of(house, fault) from None
    if given.site is None and not given.json:
        Page().line(f"That is of {house}")
    return code


def _asked_of(house: str, fault: BadInput) -> BadInput:
    """The same faults, with the house in which it was looked for said after the last."""
    *others, last = fault.faults
    end = "" if last.message.endswith((".", "?")) else "."
    return BadInput([*others, replace(last, message=f"{last.message}{end} That is {house}")])
