"""Figures of speed, not a test: `python -m tests.bench.speed`.

(a) the demo plan as a whole process against importing its libraries, (b) a generated site of 150 pieces with
12 openings at 4,000 worlds and one loadout, warm, with peak memory, (c) growth with pieces, openings, worlds,
(d) replanning after a change and a preview.
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import time
from dataclasses import replace

from advisor.kit.loadouts import default_kit
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.rulebase.load import load_rules
from advisor.site.sheet import site_of_text
from advisor.tables.load import load_tables
from advisor.tables.place import rules_dir
from tests.bench.generated_site import generated_site

TABLES = load_tables(rules_dir())
RULES = load_rules(rules_dir(), TABLES.limits, set(TABLES.sources))


def case(pieces: int = 150, openings: int = 12, worlds: int = 4000) -> Case:
    kit = default_kit(TABLES)
    one = replace(kit, loadouts=kit.loadouts[:1])
    sheet = site_of_text(generated_site(pieces, openings), "generated", TABLES)
    return Case(sheet, one, Units.INCH, worlds)


def warm(made: Case, repeats: int = 5) -> float:
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        plan(made, TABLES, RULES)
        times.append(time.perf_counter() - start)
    return min(times)


def process(*arguments: str) -> float:
    times = []
    for _ in range(5):
        start = time.perf_counter()
        subprocess.run([sys.executable, *arguments], check=True, stdout=subprocess.DEVNULL)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main() -> None:
    bare = process("-c", "import numpy, pydantic, yaml, rich")
    demo = process("-m", "advisor", "plan")
    print(f"(a) libraries {bare:.2f} s, demo plan {demo:.2f} s, ratio {demo / bare:.2f} (aim 2.5)")
    made = case()
    count = sum(len(line.pieces) for line in made.sheet.model.lines)
    seconds = warm(made)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"(b) {count} pieces, 12 openings, 4,000 worlds: {seconds:.2f} s warm (aim 0.5)")
    print(f"    peak {peak:.0f} MB (aim 250)")
    print("(c) pieces openings worlds seconds")
    for pieces, openings, worlds in (
        (50, 12, 4000), (150, 12, 4000), (300, 12, 4000), (150, 4, 4000), (150, 24, 4000),
        (150, 12, 1000), (150, 12, 2000), (150, 12, 8000),
    ):  # fmt: skip
        print(f"    {pieces:6d} {openings:8d} {worlds:6d} {warm(case(pieces, openings, worlds), 3):7.2f}")
    print(f"(d) preview of 1,000 worlds {warm(replace(made, worlds=1000)):.3f} s (aim 0.05)")


if __name__ == "__main__":
    main()
