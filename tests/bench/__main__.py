"""Every figure that this project gives of itself: `python -m tests.bench [--quick] [--only NAME ...]`.

Each benchmark stands on its own as `python -m tests.bench.NAME`; here they run one after the other, with the
time that each took. `--quick` runs the smaller form of those that take minutes. Figures, not a test.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Bench:
    """One benchmark: what it tells, and the arguments of its smaller form (none: it is quick anyway)."""

    tells: str
    quick: tuple[str, ...] | None = ()


BENCHES = {
    "speed": Bench("the demo plan, a large site, growth with pieces, openings, worlds, rules; replanning"),
    "interview_speed": Bench("from an answer to the next question"),
    "interview_order": Bench("questions by their worth against all of them", ("40",)),
    "tracker": Bench("is the head where it is said to be", ("--networks", "4", "--pushes", "60")),
    "practice": Bench(
        "policies of the simulated push, stated chances, a learner", ("--seeds", "20", "--only-seeds")
    ),
    "simulation": Bench(
        "the plan's order against simple rules, and its chances", ("--sites", "40", "--worlds", "20")
    ),
    "log_kills": Bench("writers of a log killed: entries lost, entries invented", ("100",)),
    "refit_junction": Bench("the junction constants and their cross-validation", None),
    "mutate_formulas": Bench("every formula changed by 2 %: which no test notices", None),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run them; 1 where one of them failed."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--quick", action="store_true", help="minutes instead of hours")
    parser.add_argument("--only", nargs="+", choices=BENCHES, default=list(BENCHES), metavar="NAME")
    given = parser.parse_args(arguments)
    failed = []
    for name in given.only:
        bench = BENCHES[name]
        if given.quick and bench.quick is None:
            print(f"\n== {name}: {bench.tells} - left out, it has no small form", flush=True)
            continue
        print(f"\n== {name}: {bench.tells}", flush=True)
        start = time.perf_counter()
        more = bench.quick if given.quick and bench.quick else ()
        done = subprocess.run([sys.executable, "-m", f"tests.bench.{name}", *more], check=False)
        print(f"== {name}: {time.perf_counter() - start:.0f} s", flush=True)
        if done.returncode:
            failed.append(name)
    if failed:
        print(f"\nfailed: {', '.join(failed)}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
