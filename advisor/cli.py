"""The program: reads which command is wanted, and only here it exits."""

from __future__ import annotations

import argparse
import os
import sys
from contextlib import suppress
from importlib import import_module
from io import UnsupportedOperation
from typing import NoReturn

from advisor.errors import BadInput, InputEnded, printable
from advisor.terminal.called import program
from advisor.terminal.plain_line import complain, folded

COMMANDS = (
    "ask",
    "plan",
    "card",
    "check",
    "kit",
    "explain",
    "rules",
    "matrix",
    "batch",
    "push",
    "log",
    "learn",
    "report",
    "practice",
)  # in the order in which help tells them


def main(argv: list[str] | None = None) -> NoReturn:
    """Run one command and exit: 0 done, 2 bad input, 130 broken off, by a key or because its input ended."""
    try:
        given = _parser().parse_args(argv)
        code = import_module(f"advisor.commands.{given.command}").run(given)
        # Written now, not while the program ends, so that a full disk can still be told.
        sys.stdout.flush()
        sys.exit(code)
    except BadInput as fault:
        complain(str(fault))
        sys.exit(2)
    except BrokenPipeError:
        _to_nowhere()  # `| head` has seen enough
        sys.exit(0)
    except OSError as fault:
        _to_nowhere()
        what = printable(str(fault.filename)) if fault.filename else "output"
        complain(f"{what}: it cannot be read or written: {fault.strerror}")
        sys.exit(2)
    except InputEnded as end:
        complain(f"The input has ended. {printable(str(end))}")
        sys.exit(130)
    except KeyboardInterrupt:
        sys.exit(130)


def _to_nowhere() -> None:
    """Closing the output again at exit must not complain."""
    with suppress(UnsupportedOperation):  # an output that is no file does not
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        """As ever, but what was typed is never obeyed by the terminal."""
        self.print_usage(sys.stderr)
        print(folded(f"{self.prog}: error: {printable(message)}", sys.stderr), file=sys.stderr)
        sys.exit(2)


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(prog=program(), description="Plan a push through a drain.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="command")
    for name in COMMANDS:
        import_module(f"advisor.commands.{name}").add(commands)
    return parser
