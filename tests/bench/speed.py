"""Figures of speed, not a test: `python -m tests.bench.speed`; with `--profile` also where the time goes.

(a) the demo plan as a whole process against importing its libraries, (b) a generated site of 150 pieces with
12 openings at 4,000 worlds and one loadout, warm, with peak memory, (c) growth with pieces, openings, worlds
and the share of the pipes and bends that lies on the main, which every way passes, and with rules,
(d) replanning.
"""

from __future__ import annotations

import cProfile
import os
import pstats
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import replace

from advisor.kit.loadouts import default_kit
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan, preview
from advisor.quantity import Units
from advisor.rulebase.load import load_rules
from advisor.site.sheet import site_of_text
from advisor.tables.load import load_tables
from advisor.tables.place import rules_dir
from tests.bench.generated_site import generated_site

TABLES = load_tables(rules_dir())
RULES = load_rules(rules_dir(), TABLES.limits, set(TABLES.sources))
LIBRARIES = ("-c", "import numpy, pydantic, yaml, rich")
# pydantic and rich import most of themselves only when they are used, as every user of them must.
LIBRARIES_IN_USE = ("-c", "import numpy, yaml, rich.console; from pydantic import BaseModel")
OWN_MODULES = ("-c", "import advisor.terminal.plan_screen, advisor.terminal.ready, advisor.result.build")
DEMO = ("-m", "advisor", "plan")
TOP = 15


def case(pieces: int = 150, openings: int = 12, worlds: int = 4000, main_share: float = 0.0) -> Case:
    kit = default_kit(TABLES)
    one = replace(kit, loadouts=kit.loadouts[:1])
    sheet = site_of_text(generated_site(pieces, openings, main_share=main_share), "generated", TABLES)
    return Case(sheet, one, Units.INCH, worlds)


def warm(made: Case, repeats: int = 5) -> tuple[float, float]:
    """The median of some runs, after one that is not counted: by the clock and of the processor, in s.

    The two part where others use the machine: the clock then tells of them, the processor of us.
    """
    plan(made, TABLES, RULES)
    clock, processor = [], []
    for _ in range(repeats):
        start, busy = time.perf_counter(), time.process_time()
        plan(made, TABLES, RULES)
        clock.append(time.perf_counter() - start)
        processor.append(time.process_time() - busy)
    return statistics.median(clock), statistics.median(processor)


def processes(environment: dict[str, str], *commands: tuple[str, ...]) -> list[float]:
    """The median of five whole processes each in s, taken in turn so that a busy minute hits all alike."""
    times: dict[tuple[str, ...], list[float]] = {command: [] for command in commands}
    for counted in (False, True, True, True, True, True):
        for command in commands:
            start = time.perf_counter()
            subprocess.run([sys.executable, *command], env=environment, check=True, stdout=subprocess.DEVNULL)
            if counted:
                times[command].append(time.perf_counter() - start)
    return [statistics.median(times[command]) for command in commands]


def whole_process(profile: bool) -> None:
    # As installed: compiled modules are kept. The first, uncounted run writes them.
    with tempfile.TemporaryDirectory() as compiled:
        environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        environment["PYTHONPYCACHEPREFIX"] = compiled
        bare, in_use, own, demo = processes(environment, LIBRARIES, LIBRARIES_IN_USE, OWN_MODULES, DEMO)
        print(f"(a) libraries {bare:.2f} s, demo plan {demo:.2f} s, ratio {demo / bare:.2f} (aim 2.5)")
        print(f"    libraries in use {in_use:.2f} s, with all our modules {own:.2f} s")
        busy = []
        for _ in range(5):
            start = time.process_time()
            load_rules(rules_dir(), (read := load_tables(rules_dir())).limits, set(read.sources))
            busy.append(time.process_time() - start)
        print(f"    rules and tables read in {min(busy):.3f} s of processor time, best of five")
        if profile:
            command = [sys.executable, "-X", "importtime", *DEMO]
            done = subprocess.run(command, env=environment, capture_output=True, text=True, check=True)
            rows = [line.split("|") for line in done.stderr.splitlines() if line.startswith("import time:")]
            timed = [(int(own[12:]), int(total), name.strip()) for own, total, name in rows[1:]]
            print("    module, ms alone, ms with what it imports")
            for alone, total, name in sorted(timed, reverse=True)[:TOP]:
                print(f"    {name:45s} {alone / 1000:6.1f} {total / 1000:6.1f}")


def large_site(profile: bool) -> None:
    made = case()
    count = sum(len(line.pieces) for line in made.sheet.model.lines)
    seconds, busy = warm(made)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"(b) {count} pieces, 12 openings, 4,000 worlds: {seconds:.2f} s warm (aim 0.5)")
    print(f"    processor {busy:.2f} s")
    print(f"    peak {peak:.0f} MB (aim 250)")
    if profile:
        with cProfile.Profile() as profiled:
            plan(made, TABLES, RULES)
        pstats.Stats(profiled).strip_dirs().sort_stats("tottime").print_stats(TOP)
    print("(c) pieces openings worlds on-the-main seconds processor")
    for pieces, openings, worlds, share in (
        (75, 12, 4000, 0), (150, 12, 4000, 0), (300, 12, 4000, 0), (150, 4, 4000, 0), (150, 24, 4000, 0),
        (150, 12, 1000, 0), (150, 12, 2000, 0), (150, 12, 8000, 0), (150, 12, 4000, 0.5), (150, 12, 4000, 1),
    ):  # fmt: skip
        seconds, busy = warm(case(pieces, openings, worlds, share), 3)
        print(f"    {pieces:6d} {openings:8d} {worlds:6d} {share:11.0%} {seconds:7.2f} {busy:9.2f}")
    more_rules(made)
    replanning(made)


def more_rules(made: Case) -> None:
    """The same plan with every rule there twice, four and eight times over."""
    print("    rules seconds")
    for times in (1, 2, 4, 8):
        rules = {
            key: tuple(replace(rule, id=f"{rule.id}-{copy}") for copy in range(times) for rule in some)
            for key, some in RULES.by_stratum.items()
        }
        base = replace(RULES, by_stratum=rules)
        plan(made, TABLES, base)
        start = time.perf_counter()
        plan(made, TABLES, base)
        print(f"    {len(base.all_rules):5d} {time.perf_counter() - start:7.2f}")


def replanning(made: Case) -> None:
    """A sheet changed in one place and planned again by whoever remembers the plan before."""
    text = generated_site(150, 12)
    changes = {
        "one branch": text.replace("  - line: branch 0\n", "  - line: branch 0\n    condition: sound\n"),
        "the main, so all routes": text.replace("  - line: main\n", "  - line: main\n    condition: sound\n"),
    }
    print("(d) replanned after a change: worlds, seconds, aim")
    for what, worlds, aim in (
        ("one branch", 4000, 0.1), ("the main, so all routes", 4000, 0.25), ("one branch", 1000, 0.05),
    ):  # fmt: skip
        assert changes[what] != text
        first = preview(made, worlds)
        second = replace(first, sheet=site_of_text(changes[what], "generated", TABLES))
        times = []
        for _ in range(5):
            memory = Memory()
            plan(first, TABLES, RULES, memory)
            start = time.perf_counter()
            plan(second, TABLES, RULES, memory)
            times.append(time.perf_counter() - start)
        print(f"    {what:25s} {worlds:6d} {statistics.median(times):7.3f} {aim:6.2f}")


def main() -> None:
    profile = "--profile" in sys.argv[1:]
    whole_process(profile)
    large_site(profile)


if __name__ == "__main__":
    main()
