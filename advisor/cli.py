"""The commands. Input is read here, output is handed to `terminal`, and only here the program exits."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from advisor.errors import BadInput, Fault
from advisor.quantity import Units

if TYPE_CHECKING:
    from advisor.terminal.ready import Ready

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
    check = commands.add_parser("check", help="check sheets and rule files, and run the rules' examples")
    check.add_argument("files", nargs="+", type=Path, metavar="FILE")
    check.add_argument("--rules", type=Path, help="another copy of the rules folder")
    explain = commands.add_parser("explain", help="how, why not, what if, what matters, what would change it")
    explain.add_argument("question", choices=["how", "why-not", "what-if", "matters", "changes"])
    explain.add_argument(
        "about",
        nargs="*",
        help="an opening, or an opening and a technique; for what-if LINE/ENTRY=VALUE",
    )
    explain.add_argument("--site", type=Path, help="site sheet; without it the built-in demo house")
    explain.add_argument("--full", action="store_true", help="the whole tree of reasons")
    for command in (plan, explain):
        command.add_argument("--kit", type=Path, help="kit sheet; without it reels of usual make")
        command.add_argument("--units", choices=[u.value for u in Units], help="default: by the region")
        command.add_argument("--worlds", type=_worlds, help="how many possible truths to work through")
        command.add_argument("--seed", type=int, help="another number draws other possible truths")
        command.add_argument("--json", action="store_true", help="print JSON")
        command.add_argument("--rules", type=Path, help="another copy of the rules folder")
    rules = commands.add_parser(
        "rules", help="list rules, show one, see what fires and what rests on weak ground"
    )
    rules.add_argument("question", choices=["list", "show", "fired", "dead", "weak"])
    rules.add_argument("about", nargs="*", help="rule ids to show, or site sheets and folders of them")
    rules.add_argument("--rules", type=Path, help="another copy of the rules folder")
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
    if given.command == "explain":
        return _explain(given)
    from advisor.terminal import check_screen, rules_screen

    if given.command == "check":
        return check_screen.check(given.files, _rules(given))
    if given.command == "rules":
        return rules_screen.rules(given.question, given.about, _rules(given))
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
    from advisor.plan import plan
    from advisor.result.build import plan_of

    ready = _ready(given)
    made = plan_of(plan(ready.case, ready.tables, ready.base))
    if given.json:
        print(made.model_dump_json(indent=2))
        return 0
    from advisor.terminal.page import Page
    from advisor.terminal.plan_screen import show_plan

    show_plan(made, ready.case.units, Page())
    return 0


def _ready(given: argparse.Namespace) -> Ready:
    from advisor.terminal.ready import make_ready

    return make_ready(given.site, given.kit, given.units, given.worlds, given.seed, _rules(given))


def _explain(given: argparse.Namespace) -> int:
    from advisor.terminal.explain_command import explain

    return explain(_ready(given), given.question, given.about, given.full, given.json)
