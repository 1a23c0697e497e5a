"""`advisor kit`: the truck's kit: show it, ask for it once, change one value, measure a rod."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, rules_of
from advisor.errors import BadInput, Fault
from advisor.quantity import Units

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser("kit", help="the truck's kit: show it, ask for it, change it, measure a rod")
    parser.add_argument(
        "what", nargs="?", choices=["show", "new", "edit", "droop"], default="show",
        help="show it (so without a word); new: ask for it; edit: change one value; droop: a rod's stiffness",
    )  # fmt: skip
    parser.add_argument("about", nargs="*", metavar="PART/ENTRY=VALUE", help="for edit")
    parser.add_argument("--kit", type=Path, help="another kit sheet than the truck's")
    parser.add_argument("--units", choices=[u.value for u in Units], help="default: those of the sheet")
    parser.add_argument("--force", action="store_true", help="new: in place of the kit that is there")
    parser.add_argument("--rod", metavar="NAME", help="droop: which rod")
    parser.add_argument("--length", metavar="L", help="droop: what hangs over the edge, such as '1.2 m'")
    parser.add_argument("--droop", metavar="D", help="droop: fall of the end with the curl down")
    parser.add_argument(
        "--droop-rolled", metavar="D", help="droop: fall after half a roll; '5 cm up' where it stands above"
    )
    parser.add_argument("--weight", metavar="W", help="droop: '45 g/m' or '300 g per 5 m'")
    parser.add_argument("--save", action="store_true", help="droop: write the stiffness into the kit sheet")
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Do one of the four; raises BadInput."""
    from advisor.terminal import kit_command as kit
    from advisor.terminal.page import Page

    page, rules = Page(), rules_of(given)
    if given.about and given.what != "edit":
        message = f"got {' '.join(given.about)!r} after {given.what}; expected nothing there"
        raise BadInput([Fault("kit", 0, message)])
    if given.what == "show":
        kit.show(given.kit, given.units, rules, page)
    elif given.what == "new":
        kit.new(given.force, rules, page)
    elif given.what == "edit":
        kit.edit(given.kit, given.about, rules, page)
    else:
        readings = (given.length, given.droop, given.droop_rolled)
        kit.droop(given.kit, given.rod, readings, given.weight, given.save, given.units, rules, page)
    return 0
