"""The commands. Input is read here, output is handed to `terminal`, and only here the program exits."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import NoReturn

from advisor.errors import BadInput, Fault
from advisor.quantity import Units

LEAST_WORLDS, MOST_WORLDS = 100, 50_000


def main(argv: list[str] | None = None) -> NoReturn:
    """Run one command and exit: 0 done, 2 bad input."""
    try:
        sys.exit(_run(_parser().parse_args(argv)))
    except BadInput as fault:
        print(fault, file=sys.stderr)
        sys.exit(2)
    except BrokenPipeError:
        # `| head` has seen enough; closing again at exit must not complain.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(0)
    except KeyboardInterrupt:
        sys.exit(130)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="advisor", description="Plan a push through a drain.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="command")
    plan = commands.add_parser("plan", help="rank the openings of a site and say how to pass each hard spot")
    plan.add_argument("site", nargs="?", type=Path, help="site sheet; without it the built-in demo house")
    plan.add_argument("--kit", type=Path, help="kit sheet; without it a small and a large reel of usual make")
    plan.add_argument("--units", choices=[u.value for u in Units], help="default: by the site's region")
    plan.add_argument("--worlds", type=_worlds, help="how many possible truths to work through")
    plan.add_argument("--seed", type=int, help="another number draws other possible truths")
    plan.add_argument("--json", action="store_true", help="print the plan as JSON")
    plan.add_argument("--rules", type=Path, help="another copy of the rules folder")
    check = commands.add_parser("check", help="check sheets and rule files, and run the rules' examples")
    check.add_argument("files", nargs="+", type=Path, metavar="FILE")
    check.add_argument("--rules", type=Path, help="another copy of the rules folder")
    matrix = commands.add_parser(
        "matrix", help="every technique against every kind of trouble, with the reason"
    )
    matrix.add_argument("--rules", type=Path, help="another copy of the rules folder")
    return parser


def _worlds(text: str) -> int:
    if not text.isdigit() or not LEAST_WORLDS <= int(text) <= MOST_WORLDS:
        raise argparse.ArgumentTypeError(
            f"got {text!r}; expected a number from {LEAST_WORLDS} to {MOST_WORLDS}"
        )
    return int(text)


def _run(given: argparse.Namespace) -> int:
    # The heavy imports wait until a command is known: a wrong option should answer at once.
    if given.command == "plan":
        return _plan(given)
    from advisor.terminal import check_screen

    if given.command == "check":
        return check_screen.check(given.files, _rules(given))
    return check_screen.matrix(_rules(given))


def _rules(given: argparse.Namespace) -> Path:
    from advisor.tables.place import rules_dir

    if given.rules is None:
        return rules_dir()
    if not (given.rules / "sources.yaml").is_file():
        raise BadInput(
            [Fault(str(given.rules), 0, "this is not a rules folder; expected sources.yaml in it")]
        )
    return Path(given.rules)


def _plan(given: argparse.Namespace) -> int:
    from advisor import demo
    from advisor.kit.loadouts import default_kit, kit_of
    from advisor.kit.sheet import read_kit
    from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS, Case, plan
    from advisor.result.build import plan_of
    from advisor.rulebase.load import load_rules
    from advisor.site.sheet import read_site
    from advisor.tables.load import load_tables

    rules = _rules(given)
    tables = load_tables(rules)
    base = load_rules(rules, tables.limits, set(tables.sources))
    sheet = read_site(given.site or demo.MAIN, tables)
    if given.kit is not None:
        kit = kit_of(read_kit(given.kit), tables)
    else:
        kit = kit_of(read_kit(demo.KIT), tables) if given.site is None else default_kit(tables)
    usual = Units.METRIC if sheet.model.region == "britain" else Units.INCH
    units = Units(given.units) if given.units else usual
    case = Case(
        sheet,
        kit,
        units,
        given.worlds or DEFAULT_WORLDS,
        DEFAULT_SEED if given.seed is None else given.seed,
    )
    made = plan_of(plan(case, tables, base))
    if given.json:
        print(made.model_dump_json(indent=2))
        return 0
    from advisor.terminal.page import Page
    from advisor.terminal.plan_screen import show_plan

    show_plan(made, units, Page())
    return 0
