"""Groups, counts and printed tables over the engine's pushes, shared by tests and refitting."""

from __future__ import annotations

import csv
import itertools
from collections import Counter
from collections.abc import Iterable
from typing import Any

import engine_rows as er
import numpy as np

from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.technique import quick_push_fold_chance
from advisor.mechanics.tip import fold_back_chance

GROUPS = ("orient", "var", "pair", "mu", "EI", "B", "F", "psi", "nb", "kind")
PLAN_REPEATS = 4  # pushes that stand for one corner of the plan, drawn from the lists below
PLAN_LISTS = {
    "B": (0.005, 0.01, 0.03, 0.06),
    "F": (60.0, 75.0, 90.0),
    "psi": (0.0, 1.0472, 1.5708, 2.0944, 3.1416),
}
BORES = {"2": 0.052, "3": 0.077, "4": 0.102}  # m
ROD_DIAMETERS = {0.2: 0.0030093, 0.4: 0.0035787, 0.8: 0.0042558}  # m, as in the rows
HEADS = {"2": (0.035, 0.025, 0.1), "3": (0.045, 0.03, 0.12)}  # m: length, diameter, spring length


def fitted_steady() -> list[er.Row]:
    """Steady pushes through junctions, and through bends that the head itself clears."""
    rows = [r for r in er.cases() if not r["mode"] and (er.kind_of(r) or r["kind"] == "bend")]
    rows = [r for r in rows if not r["ratio"] >= 1.0]
    return rows + [r for r in er.sweeps() if r["remedy"] == "steady"]


def remedies() -> list[er.Row]:
    """Everything tried after a steady push has stalled."""
    return [r for r in er.sweeps() if r["remedy"] != "steady"]


def counts() -> dict[tuple[str, str], tuple[int, int]]:
    """Passed and tried over the whole second set, by one column at a time."""
    with (er.ENGINE / "engine_totals.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {(r["group"], r["value"]): (int(r["passed"]), int(r["of"])) for r in rows}


def _falls_in(row: er.Row, group: tuple[str, str]) -> bool:
    name, value = group
    mine = row[name]
    if name == "var":
        mine = "one" if mine.startswith("one") else mine
    return str(mine) == value


def unseen_counts() -> dict[tuple[str, str], tuple[int, int]]:
    """The same counts over the pushes whose rows are not here."""
    seen = [r for r in er.sweeps() if r["remedy"] == "steady"]
    left = {}
    for group, (yes, of) in counts().items():
        mine = [er.passed(r) for r in seen if _falls_in(r, group)]
        left[group] = (yes - sum(mine), of - len(mine))
    return left


def unseen_plan() -> tuple[list[er.Row], np.ndarray]:
    """The pushes whose rows are not here, as far as the plan tells them, each with a weight."""
    seen = Counter((r["var"], r["orient"], r["pair"]) for r in er.sweeps() if r["remedy"] == "steady")
    left = unseen_counts()
    everything = sum(left["orient", lie][1] for lie in ("stack", "flat", "drop"))
    full = {
        (var, lie, pair): 6
        for var in ("long", "short", "one1.0", "one1.5")
        for lie in ("stack", "flat", "drop")
        for pair in ("2>2", "2>4", "3>3", "3>4")
    } | {("generous", "flat", pair): 12 for pair in ("2>2", "2>4", "3>3", "3>4")}
    rows, weights = [], []
    lists = {name: itertools.cycle(values) for name, values in PLAN_LISTS.items()}
    for (var, lie, pair), planned in full.items():
        length, diameter, spring = HEADS[pair[0]]
        for mu, stiffness in itertools.product((0.2, 0.35, 0.5), ROD_DIAMETERS):
            share = left["mu", str(mu)][1] * left["EI", str(stiffness)][1] / everything**2
            for _ in range(PLAN_REPEATS):
                drawn = {name: next(values) for name, values in lists.items()}
                rows.append(drawn | {
                    "set": "S", "kind": "combo", "var": var, "orient": lie, "pair": pair,
                    "mu": mu, "EI": stiffness,
                    "Db": BORES[pair[0]], "Dm": BORES[pair[2]],
                    "rod_d": ROD_DIAMETERS[stiffness], "spr_L": spring, "head_L": length,
                    "head_d": diameter, "nose": "hemi",
                })  # fmt: skip
                weights.append((planned - seen[var, lie, pair]) * share / PLAN_REPEATS)
    return rows, np.array(weights)


def plan_shares(rows: list[er.Row], weight: np.ndarray) -> dict[tuple[str, str], np.ndarray]:
    """For each group of the counts, the part each planned push has in it; a part adds up to 1."""
    shares = {}
    for group in counts():
        part = weight * np.array([_falls_in(r, group) for r in rows])
        shares[group] = part / part.sum()
    return shares


def fold_chances(rows: list[er.Row], c: JunctionConstants) -> np.ndarray:
    """Chance that each failed head folded."""
    length, diameter = er.column(rows, "head_L"), er.column(rows, "head_d")
    return np.asarray(fold_back_chance(er.column(rows, "B"), er.column(rows, "Dm"), length, diameter, c))


def quick_fold_chances(rows: list[er.Row], c: JunctionConstants) -> np.ndarray:
    """Chance that each stroke folded the head."""
    length, diameter = er.column(rows, "head_L"), er.column(rows, "head_d")
    return np.asarray(quick_push_fold_chance(er.column(rows, "Dm"), length, diameter, c))


def _case(row: er.Row) -> tuple[Any, ...]:
    """What two rows share that start from one and the same stalled push."""
    names = ("kind", "pair", "var", "R", "orient", "psi", "mu", "EI", "B", "F", "spr_L", "nose")
    return tuple(str(row.get(name)) for name in names)


def case_folds(rows: list[er.Row], folds: int) -> np.ndarray:
    """A fold for each row, the same for all rows of one case."""
    names = sorted({_case(r) for r in rows})
    order = np.random.default_rng(8).permutation(len(names))
    fold = {name: int(place) % folds for name, place in zip(names, order, strict=True)}
    return np.array([fold[_case(r)] for r in rows])


def resampled(rows: list[er.Row], luck: np.random.Generator) -> np.ndarray:
    """How often each row is drawn when whole cases are drawn anew."""
    names = sorted({_case(r) for r in rows})
    drawn = Counter(luck.integers(0, len(names), len(names)).tolist())
    times = {name: drawn[place] for place, name in enumerate(names)}
    return np.array([float(times[_case(r)]) for r in rows])


def rates(rows: list[er.Row], chance: np.ndarray, least: int = 40) -> list[tuple[str, int, float, float]]:
    """Seen and said rate of passing over each group by remedy, alone and with one more column."""
    groups: dict[str, list[int]] = {}
    for place, row in enumerate(rows):
        remedy = row.get("remedy", "steady")
        groups.setdefault(remedy, []).append(place)
        for name in GROUPS:
            if name in row:
                groups.setdefault(f"{remedy} {name} {row[name]}", []).append(place)
    good = np.array([er.passed(r) for r in rows])
    return [
        (name, len(w), float(good[w].mean()), float(chance[w].mean()))
        for name, w in sorted(groups.items())
        if len(w) >= least
    ]


def rate_table(found: Iterable[tuple[str, int, float, float]]) -> str:
    """The rates as text, the worst first."""
    worst = sorted(found, key=lambda line: -abs(line[2] - line[3]))
    lines = [f"{'group':28} rows  seen  said  miss"]
    lines += [f"{n:28} {k:4d}  {o:.2f}  {p:.2f}  {p - o:+.2f}" for n, k, o, p in worst]
    return "\n".join(lines)


def right_table(rows: list[er.Row], chance: np.ndarray) -> str:
    """Rows predicted right by kind and lie, beside what the majority of each would give."""
    groups: dict[str, list[int]] = {}
    for place, row in enumerate(rows):
        name = "rigid head" if row["set"] in ("G", "G2") else row.get("var") or row["kind"]
        groups.setdefault(f"{name} {row['orient']}", []).append(place)
    good = np.array([er.passed(r) for r in rows])
    right = (chance > 0.5) == good
    lines = [f"{'kind and lie':24} rows passed right  share  majority"]
    most_right = 0
    for name, w in sorted(groups.items()):
        most = max(int(good[w].sum()), len(w) - int(good[w].sum()))
        most_right += most
        lines.append(
            f"{name:24} {len(w):4d} {int(good[w].sum()):6d} {int(right[w].sum()):5d}"
            f"  {right[w].mean():.2f}   {most / len(w):.2f}"
        )
    n = len(rows)
    lines.append(f"{'all':24} {n:4d} {int(good.sum()):6d} {int(right.sum()):5d}"
                 f"  {right.mean():.2f}   {most_right / n:.2f}")  # fmt: skip
    return "\n".join(lines)
