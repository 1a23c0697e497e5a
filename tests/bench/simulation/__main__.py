"""Figures, not a test: `python -m tests.bench.simulation [--sites 500] [--worlds 50] [--json OUT]`."""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Sequence
from multiprocessing import Pool
from pathlib import Path

from tests.bench.simulation.figures import Bin, Row, as_json, calibration, rows
from tests.bench.simulation.run import Bench, SiteResult
from tests.bench.simulation.truth import AS_BELIEVED, Twist

BELIEVED = "as believed"
TWISTS = {
    BELIEVED: AS_BELIEVED,
    "friction 30 % up": Twist(friction=1.3),
    "one 1/8 bend on no sheet": Twist(bend=True),
    "every try 0.7 logit worse": Twist(logit=-0.7),
    "every try 0.7 logit better": Twist(logit=0.7),
    "0.7 logit either way": Twist(logit=0.7, either_way=True),
    "a fifth of the told conditions wrong": Twist(wrong_condition=0.2),
}
MAY_BE_OFF = 0.05
_bench: list[Bench] = []


def _start() -> None:
    _bench.append(Bench())


def _site(job: tuple[int, int, int]) -> SiteResult:
    number, seed, worlds = job
    return _bench[0].site(number, seed, worlds, TWISTS)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run all sites and print the tables."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.simulation", description=__doc__)
    parser.add_argument("--sites", type=int, default=500)
    parser.add_argument("--worlds", type=int, default=50, help="hidden worlds of each site")
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--json", type=Path, help="where to write all figures")
    given = parser.parse_args(arguments)
    started, results = time.perf_counter(), []
    with Pool(given.processes, _start) as pool:
        jobs = [(number, given.seed, given.worlds) for number in range(given.sites)]
        for result in pool.imap_unordered(_site, jobs):
            results.append(result)
            if len(results) % 25 == 0:
                seconds = time.perf_counter() - started
                print(f"{len(results)} of {given.sites}, {seconds:.0f} s", file=sys.stderr)
    results.sort(key=lambda r: r.number)
    tables = {twist: rows(results, twist) for twist in TWISTS}
    bins = {f"first attempt, {t}": calibration([r.first[t] for r in results if t in r.first]) for t in TWISTS}
    every = [told for r in results for told in r.every.get(BELIEVED, [])]
    bins |= {f"every way in, {BELIEVED}": calibration(every)}
    none = sum(not r.minutes for r in results)
    print(f"{len(results)} sites, {given.worlds} hidden worlds each; {none} without any way in are left out")
    for twist, found in tables.items():
        _print_rows(twist, found)
    for name, told in bins.items():
        _print_bins(name, told)
    if given.json:
        given.json.write_text(json.dumps(as_json(tables, bins), indent=1))


def _print_rows(twist: str, found: list[Row]) -> None:
    print(f"\nTruth {twist}: minutes, share seen, planner less this; 95 % intervals over sites")
    for row in found:
        minutes, seen, less = row.minutes, row.seen, row.planner_less
        print(
            f"  {row.policy:46s} {minutes.mean:6.1f} [{minutes.low:5.1f}, {minutes.high:5.1f}]"
            f"  {seen.mean:.3f} [{seen.low:.3f}, {seen.high:.3f}]"
            f"  {less.mean:7.1f} [{less.low:6.1f}, {less.high:6.1f}]"
        )


def _print_bins(name: str, found: list[Bin]) -> None:
    print(f"\nStated chance against outcome, {name}:")
    print("  ways in, outcomes, stated, seen, true chance, stated less seen (* more than 0.05)")
    for each in found:
        mark = " *" if abs(each.off) > MAY_BE_OFF else ""
        print(
            f"  {each.sites:5d} {each.outcomes:7d}  {each.stated:.3f}  {each.seen.mean:.3f}"
            f" [{each.seen.low:.3f}, {each.seen.high:.3f}]  {each.chance:.3f}  {each.off:+.3f}{mark}"
        )


if __name__ == "__main__":
    main()
