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
    from advisor.terminal.page import Page


def add(commands: Commands) -> None:
    """Say the options. Those of the sheet may stand before or after the word that says what to do."""
    parser = commands.add_parser(
        "kit", parents=[_sheet(None)], help="the truck's kit: show it, ask for it, change it, measure a rod"
    )
    kinds = parser.add_subparsers(dest="what", metavar="show, new, edit or droop")
    parser.set_defaults(what="show")
    sheet = [_sheet(argparse.SUPPRESS)]
    kinds.add_parser("show", parents=sheet, help="show it; so without a word")
    new = kinds.add_parser("new", parents=sheet, help="ask for it once, a question at a time")
    new.add_argument("--force", action="store_true", help="in place of the kit that is there")
    edit = kinds.add_parser(
        "edit", parents=sheet, help="change one value, one part more or less, or list the parts"
    )
    edit.add_argument("about", nargs="*", metavar="PART/ENTRY=VALUE", help="such as 'large reel/length=60 m'")
    kinds_of_part = ("head", "spring", "rod", "guide")
    edit.add_argument("--add", choices=kinds_of_part, help="one more: asks for it and what it goes with")
    edit.add_argument("--remove", metavar="PART", help="one less: shows what goes, and asks")
    droop = kinds.add_parser("droop", parents=sheet, help="how stiff a rod is; without readings it asks")
    droop.add_argument("--rod", metavar="NAME", help="which rod")
    droop.add_argument("--length", metavar="L", help="what hangs over the edge, such as '1.2 m'")
    droop.add_argument("--droop", metavar="D", help="fall of the end with the curl down")
    droop.add_argument(
        "--droop-rolled", metavar="D", help="fall after half a roll; '5 cm up' where it stands above"
    )
    droop.add_argument("--weight", metavar="W", help="'45 g/m' or '300 g per 5 m'")
    droop.add_argument("--save", action="store_true", help="write the stiffness into the kit sheet")


def _sheet(default: str | None) -> argparse.ArgumentParser:
    """The options that say which sheet; `default` is what each is where it is not given."""
    parser = argparse.ArgumentParser(add_help=False, argument_default=default)
    parser.add_argument("--kit", type=Path, help="another kit sheet than the truck's")
    parser.add_argument("--units", choices=[u.value for u in Units], help="default: those of the sheet")
    add_rules(parser)
    return parser


def run(given: argparse.Namespace) -> int:
    """Do one of the four; raises BadInput."""
    from advisor.terminal import kit_command as kit
    from advisor.terminal.page import Page

    page, rules = Page(), rules_of(given)
    if given.what == "show":
        kit.show(given.kit, given.units, rules, page)
    elif given.what == "new":
        kit.new(given.force, given.units, rules, page)
    elif given.what == "edit":
        _edit(given, rules, page)
    else:
        readings = (given.length, given.droop, given.droop_rolled)
        kit.droop(given.kit, given.rod, readings, given.weight, given.save, given.units, rules, page)
    return 0


def _edit(given: argparse.Namespace, rules: Path, page: Page) -> None:
    from advisor.terminal import kit_command as kit
    from advisor.terminal import kit_parts as parts

    if sum(map(bool, (given.about, given.add, given.remove))) > 1:
        raise BadInput([Fault("edit", 0, "one change at a time: PART/ENTRY=VALUE, --add or --remove")])
    if given.add:
        parts.add(given.kit, given.add, given.units, rules, page)
    elif given.remove:
        parts.remove(given.kit, given.remove, rules, page)
    else:
        kit.edit(given.kit, given.about, rules, page)
