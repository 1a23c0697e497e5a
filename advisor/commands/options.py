"""Options that several commands share, and what they stand for."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.errors import BadInput, Fault
from advisor.quantity import Units

if TYPE_CHECKING:
    from advisor.terminal.ready import Ready

    # What argparse calls the object that commands are added to: of one kind to type checkers only.
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]
LEAST_WORLDS, MOST_WORLDS = 100, 50_000
SCREEN = "-"  # as the name of a file to write


def add_rules(parser: argparse.ArgumentParser) -> None:
    """The option of every command that judges."""
    parser.add_argument("--rules", type=Path, help="another copy of the rules folder")


def add_case(parser: argparse.ArgumentParser) -> None:
    """The options of every command that plans."""
    parser.add_argument("--kit", type=Path, help="kit sheet; without it your own, else reels of usual make")
    parser.add_argument(
        "--units", choices=[u.value for u in Units], help="default: those of the job or region"
    )
    parser.add_argument("--worlds", type=worlds, help="how many possible truths to work through")
    parser.add_argument("--seed", type=int, help="another number draws other possible truths")
    add_rules(parser)


def rules_of(given: argparse.Namespace) -> Path:
    """The rules folder; raises BadInput where the given one is none."""
    from advisor.tables.place import rules_dir

    if given.rules is None:
        return rules_dir()
    if not (given.rules / "sources.yaml").is_file():
        raise BadInput(
            [Fault(str(given.rules), 0, "this is not a rules folder; expected sources.yaml in it")]
        )
    return Path(given.rules)


def file_of(given: argparse.Namespace) -> Path | None:
    """The file that `-o` names; None for the screen, which is what `-` names too."""
    return None if given.out is None or str(given.out) == SCREEN else Path(given.out)


def ready_of(given: argparse.Namespace) -> Ready:
    """The case of a command's site and kit, read and checked; raises BadInput."""
    from advisor.terminal.ready import make_ready

    return make_ready(given.site, given.kit, given.units, given.worlds, given.seed, rules_of(given))


def worlds(text: str) -> int:
    """How many worlds an option asks for."""
    if not text.isdigit() or not LEAST_WORLDS <= int(text) <= MOST_WORLDS:
        raise argparse.ArgumentTypeError(
            f"got {text!r}; expected a number from {LEAST_WORLDS} to {MOST_WORLDS}"
        )
    return int(text)
