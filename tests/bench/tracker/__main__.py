"""Figures, not a test: `python -m tests.bench.tracker [--networks 20] [--pushes 300] [--lost 60]`."""

from __future__ import annotations

import argparse
import time

import numpy as np
from numpy.typing import NDArray

from advisor.push.log.sighting import Seen, Water
from advisor.push.track.chart import Chart
from advisor.push.track.track import Tracker
from advisor.push.track.ways import ways_from
from advisor.site.build import network_of
from advisor.site.sheet import site_of_text
from advisor.tables.load import Tables, load_tables
from advisor.tables.place import rules_dir
from advisor.tables.where import number
from tests.bench.tracker.run import SIGHTINGS, Tally, network_tally

BIN, LEAST = 0.1, 100


def main() -> None:
    """Four batches: good and poor map, on the map and off it; then the time of an update."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.tracker")
    parser.add_argument("--networks", type=int, default=20)
    parser.add_argument("--pushes", type=int, default=300)
    parser.add_argument("--lost", type=int, default=60, help="pushes a network that leave the map")
    given = parser.parse_args()
    tables = load_tables(rules_dir())
    began = time.process_time()
    for poor in (False, True):
        tallies = {False: Tally(), True: Tally()}
        for lost, pushes in ((False, given.pushes), (True, given.lost)):
            for seed in range(1, given.networks + 1):
                tallies[lost].add(network_tally(seed, pushes, poor, lost, tables))
            _report(tallies[lost], poor, lost, given.networks * pushes)
        _mixed(tallies[False], tallies[True], tables)
    print(f"\n{time.process_time() - began:.0f} s of one core")
    _speed(tables)


def _report(tally: Tally, poor: bool, lost: bool, pushes: int) -> None:
    told = f"{'poor' if poor else 'good'} map, {pushes} pushes{' that leave the map' if lost else ''}"
    print(f"\n{told}")
    if lost:
        print(f"  told as off the map: {np.mean(tally.flagged):.3f}")
        return
    print("  sightings      n   right edge  right line and way  counter alone  median off, m")
    for n in SIGHTINGS:
        shares = [np.mean(each[n]) for each in (tally.right, tally.exact, tally.counter)]
        print(
            f"  {n:9d} {len(tally.right[n]):6d} {shares[0]:12.3f} {shares[1]:19.3f} {shares[2]:14.3f}"
            f" {np.median(tally.off_by[n]):14.2f}"
        )
    print(f"  80 % intervals that hold the truth, from the third sighting: {np.mean(tally.covered):.3f}")
    print(f"  falsely told as off the map: {np.mean(tally.alarms):.3f} of pushes")
    _calibration("stated, in pushes that stay on the map", tally.stated, np.ones(len(tally.stated)))


def _mixed(stays: Tally, leaves: Tally, tables: Tables) -> None:
    """Pushes that leave the map counted in as often as the program says that they do: its chances are meant
    for whoever does not know."""
    off = tables.where.off_map
    leaving = 1 - (1 - number(off.at_start)) * np.exp(-number(off.each_metre) * np.array(stays.lengths))
    share = float(leaving.mean())
    each = share / (1 - share) * len(stays.lengths) / len(leaves.lengths)
    told = leaves.stated + leaves.stated_lost
    weights = np.concatenate([np.ones(len(stays.stated)), np.full(len(told), each)])
    _calibration(f"stated, with {share:.1%} of pushes that leave the map", [*stays.stated, *told], weights)


def _calibration(what: str, told: list[tuple[float, bool]], weights: NDArray[np.float64]) -> None:
    print(f"  {what}")
    stated = np.array(told, float)
    for low in np.arange(0, 1, BIN):
        inside = (stated[:, 0] >= low) & (stated[:, 0] < low + BIN)
        count = float(weights[inside].sum())
        if count >= LEAST:
            said, seen = np.average(stated[inside], axis=0, weights=weights[inside])
            print(f"    stated {said:.3f}  observed {seen:.3f}  apart {said - seen:+.3f}  n {count:.0f}")


def many_lines(count: int = 60) -> str:
    """A drain of so many lines: a main in at its middle, branches that branch again."""
    text = "site: many\nregion: north america\nmap: sketch\nlines:\n  - line: main\n    kind: drain\n"
    text += "    size: 4 in\n    pieces:\n      - capped: yes\n"
    branches = (count - 1) // 2
    for index in range(branches):
        text += f"      - pipe: 1.2 m\n      - joined by: branch {index}\n        fitting: wye\n"
        if index == branches // 2:
            text += "      - pipe: 1 m\n      - opening: way in\n        kind: two-way cleanout\n"
    text += "      - pipe: 5 m\n      - end: public sewer\n"
    for index in range(branches):
        text += f"  - line: branch {index}\n    size: 3 in\n    pieces:\n      - fixture: basin\n"
        text += f"        label: basin {index}\n      - pipe: 2 m\n      - joined by: arm {index}\n"
        text += "        fitting: wye\n      - pipe: 3 m\n"
    for index in range(count - 1 - branches):
        text += f"  - line: arm {index}\n    size: 2 in\n    pieces:\n      - fixture: bath\n"
        text += f"        label: bath {index}\n      - pipe: 2 m\n"
    return text + "task: {look at: main, complaint: {holding: no}}\n"


def _speed(tables: Tables) -> None:
    count = 61
    network = network_of(site_of_text(many_lines(count), "many", tables), tables)
    opening = next(piece for piece in network.openings() if piece.name == "way in")
    ways, _ = ways_from(network, opening, 60.0, tables)
    tracker = Tracker(Chart(network, ways, tables.where), network.map_quality)
    belief, taken = tracker.start(), []
    for step in range(1, 21):
        counter = 1.3 * step
        sighting = Water(counter, "bath 3", None) if step % 5 == 0 else Seen(counter, "tie-in", 9.0)
        began = time.perf_counter()
        belief = tracker.after(belief, sighting)
        taken.append(1000 * (time.perf_counter() - began))
    print(
        f"\n{len(network.lines)} lines, {len(ways)} ways, {tracker.chart.cells} cells: an update "
        f"takes {np.median(taken):.1f} ms in the middle, {max(taken):.1f} ms at most"
    )


if __name__ == "__main__":
    main()
