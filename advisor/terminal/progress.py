"""How far a longer piece of work is: a line that is written over at a terminal, now and then a line else."""

from __future__ import annotations

import sys


def tell(done: int, of: int, every: int | None = None) -> None:
    """Say on standard error how many are done; without a terminal only `every` so many, and at the end."""
    if sys.stderr.isatty():
        print(f"\r{done:,} of {of:,}", end="\n" if done == of else "", file=sys.stderr, flush=True)
    elif every and (done % every == 0 or done == of):
        print(f"{done:,} of {of:,}", file=sys.stderr, flush=True)
