"""The program: reads which command is wanted, and only here it exits."""

from __future__ import annotations

import argparse
import os
import sys
from importlib import import_module
from typing import NoReturn

from advisor.errors import BadInput

COMMANDS = (
    "plan",
    "check",
    "explain",
    "rules",
    "matrix",
    "batch",
    "log",
)  # in the order in which help tells them


def main(argv: list[str] | None = None) -> NoReturn:
    """Run one command and exit: 0 done, 2 bad input."""
    try:
        given = _parser().parse_args(argv)
        sys.exit(import_module(f"advisor.commands.{given.command}").run(given))
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
    for name in COMMANDS:
        import_module(f"advisor.commands.{name}").add(commands)
    return parser
