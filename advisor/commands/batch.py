"""`advisor batch`: many sheets into one table."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from advisor.commands.options import add_rules, file_of, rules_of, worlds
from advisor.errors import BadInput, Fault

if TYPE_CHECKING:
    from advisor.commands.options import Commands


def add(commands: Commands) -> None:
    """Say the options."""
    parser = commands.add_parser(
        "batch", help="plan every sheet of a folder into one table; goes on if cut off"
    )
    parser.add_argument("folder", type=Path, metavar="DIR", help="folder of site sheets")
    parser.add_argument("-o", "--out", type=Path, required=True, metavar="OUT.csv", help="the table to write")
    parser.add_argument("--kit", type=Path, help="kit sheet; without it your own, else reels of usual make")
    parser.add_argument("--worlds", type=worlds, help="how many possible truths to work through")
    parser.add_argument("--seed", type=int, help="another number draws other possible truths")
    parser.add_argument("--cores", type=int, choices=range(1, 257), metavar="N", help="default: all")
    add_rules(parser)


def run(given: argparse.Namespace) -> int:
    """Plan them all; raises BadInput."""
    from advisor.batch.run import With
    from advisor.job.own import own_kit
    from advisor.plan import DEFAULT_SEED, DEFAULT_WORLDS
    from advisor.terminal.batch_screen import batch

    if file_of(given) is None:
        message = "a table that grows needs a file; expected the name of one, such as OUT.csv"
        raise BadInput([Fault("-", 0, message)])
    seed = DEFAULT_SEED if given.seed is None else given.seed
    with_what = With(rules_of(given), given.kit or own_kit(), given.worlds or DEFAULT_WORLDS, seed)
    return batch(given.folder, given.out, with_what, given.cores)
