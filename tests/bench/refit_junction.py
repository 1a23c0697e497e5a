"""Fit the constants of rules/tables/junction.yaml again on the engine's pushes, and say how well.

    python tests/bench/refit_junction.py [--folds 8] [--resamples 0]

Prints each constant (with the 10 to 90 % span over resampled rows when asked), then what rows
held back from the fit say: the share right by kind and lie, and the worst rate by group. It
changes no file: copy what is wanted into the table. Constants not listed in WEAK are kept: they
are rules read off the engine as a whole (rod-end numbers, quick-push formula, string window).
"""

from __future__ import annotations

import argparse
import math
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
from scipy.optimize import minimize

sys.path.insert(0, str(Path(__file__).parents[2]))
sys.path.insert(0, str(Path(__file__).parents[1] / "outside"))
import engine_rows as er
import engine_tables as et

from advisor.mechanics.junction import head_logit, rod_end_logit, steady_push
from advisor.mechanics.junction_case import Lie
from advisor.mechanics.junction_constants import JunctionConstants

# name: centre and spread of a weak preference, and whether it is fitted as a logarithm. The
# centres are plain guesses (a wye 40 degrees, a sweep 60, a lean 10, no ease at all).
WEAK = {
    "head_steepness": (12.0, 24.0, False),
    "approach_sweep": (1.1, 0.6, False),
    "approach_long_leg": (0.75, 0.6, False),
    "approach_short_leg": (1.1, 0.6, False),
    "approach_wye": (0.7, 0.6, False),
    "lean_stack": (0.2, 0.4, False),
    "lean_drop": (-0.2, 0.4, False),
    "lean_curl": (0.1, 0.2, False),
    "lean_step": (0.15, 0.4, False),
    "column_slope": (0.3, 1.0, False),
    "square_stack": (2.0, 3.0, False),
    "square_flat": (-1.0, 3.0, False),
    "square_drop": (-1.1, 1.5, False),
    "square_drop_curl": (2.6, 1.5, False),
    "spring_sharpness": (2.0, 4.0, False),
    "rod_steepness": (3.0, 6.0, False),
    "rod_curl": (0.3, 0.6, False),
    "rod_off_stack": (1.0, 0.7, True),
    "sweep_ease": (3.0, 2.0, True),
    "sweep_wrap": (math.pi / 2, 3.0, False),
    "long_leg_ease": (3.0, 1.5, True),
    "short_leg_ease": (1.6, 1.5, True),
    "wye_ease": (6.0, 2.0, True),
}
FAILED = {
    "fold_level": (0.0, 3.0, False),
    "fold_room": (0.0, 3.0, False),
    "fold_spring": (0.0, 1.0, False),
}
REMEDY = {
    "quick_shrink": (1.0, 0.25, False),
    "quick_offset": (0.0, 0.3, False),
    "quick_bend": (2.0, 2.0, False),
    "slow_penalty": (2.0, 1.0, False),
    "gentle_penalty": (3.0, 1.5, False),
    "repeat_exponent": (0.5, 0.5, False),
}
QUICK_FOLD = {"quick_fold_level": (0.0, 5.0, False), "quick_fold_room": (0.0, 5.0, False)}
# The counts over pushes not seen row by row are five views of the same 170 pushes.
COUNT_WORTH = 0.5
Spread = dict[str, tuple[float, float, bool]]


def fit(
    start: JunctionConstants, spread: Spread, loss: Callable[[JunctionConstants], float]
) -> JunctionConstants:
    """Least loss plus the weak preference, from the centres."""
    centre = np.array([math.log(c) if log else c for c, _, log in spread.values()])
    width = np.array([s for _, s, _ in spread.values()])

    def at(z: np.ndarray) -> JunctionConstants:
        x = centre + width * z
        values = {
            n: math.exp(v) if log else float(v) for (n, (_, _, log)), v in zip(spread.items(), x, strict=True)
        }
        return replace(start, **values)

    best = minimize(lambda z: loss(at(z)) + 0.5 * float(z @ z), np.zeros(len(width)), method="BFGS")
    return at(best.x)


def surprise(logit: np.ndarray, happened: np.ndarray) -> np.ndarray:
    """Minus the log chance of what happened."""
    return np.logaddexp(0.0, np.where(happened, -logit, logit))


def steady_loss(rows: list[er.Row], weight: np.ndarray) -> Callable[[JunctionConstants], float]:
    """Surprise of the two stages over steady pushes, plus that of the counts held elsewhere."""
    groups = er.grouped(rows, lambda row: (er.kind_of(row), Lie(row["orient"])))
    ends = np.array([er.end_of(row) for row in rows])
    ready = [
        (kind, lie, np.array(w), [rows[i] for i in w], er.push_of([rows[i] for i in w]))
        for (kind, lie), w in groups.items()
    ]
    plan, plan_weight = et.unseen_plan()
    by_fitting = er.grouped(plan, lambda row: (er.kind_of(row), Lie(row["orient"])))
    planned = [(g, np.array(w), er.push_of([plan[i] for i in w])) for g, w in by_fitting.items()]
    counts = et.unseen_counts()
    share = et.plan_shares(plan, plan_weight)

    def loss(c: JunctionConstants) -> float:
        total = 0.0
        for kind, lie, where, some, push in ready:
            rod_ok, rod_bad = ends[where] == "passes", ends[where] == "rod_end_stuck"
            if kind is None:
                rod = c.rod_steepness * np.log(er.bend_margins(some, c))
                total += float(np.sum(weight[where] * surprise(rod, rod_ok)))
                continue
            head = np.asarray(head_logit(kind, lie, push, c))
            rod = np.asarray(rod_end_logit(kind, lie, push, c))
            turned = rod_ok | rod_bad
            both = surprise(head, turned) + np.where(turned, surprise(rod, rod_ok), 0.0)
            total += float(np.sum(weight[where] * both))
        chance = np.zeros(len(plan))
        for (fitting, lie), where, push in planned:
            chance[where] = steady_push(fitting, lie, push, c).passes
        for group, (yes, of) in counts.items():
            p = float(share[group] @ chance)
            total -= COUNT_WORTH * (yes * math.log(p) + (of - yes) * math.log(1.0 - p))
        return total

    return loss


def fit_steady(start: JunctionConstants, rows: list[er.Row], weight: np.ndarray) -> JunctionConstants:
    """Both stages of the steady push, then what becomes of the heads that fail."""
    found = fit(start, WEAK, steady_loss(rows, weight))
    lost = [
        (r, w)
        for r, w in zip(rows, weight, strict=True)
        if w and er.kind_of(r) and er.end_of(r) in ("folded", "wrong_way", "head_stuck")
    ]
    bad = [r for r, _ in lost]
    worth = np.array([w for _, w in lost])
    folded = np.array([er.end_of(r) == "folded" for r in bad])

    def loss(c: JunctionConstants) -> float:
        chance = np.clip(et.fold_chances(bad, c), 1e-6, 1 - 1e-6)
        return float(-np.sum(worth * np.log(np.where(folded, chance, 1 - chance))))

    found = fit(found, FAILED, loss)
    wrong = np.array([er.end_of(r) == "wrong_way" for r in bad])
    return replace(found, wrong_way_share=float(np.sum(worth * wrong) / np.sum(worth * ~folded)))


def fit_remedies(start: JunctionConstants, rows: list[er.Row], weight: np.ndarray) -> JunctionConstants:
    """What frees a stalled head, and how often a stroke folds it."""
    good = np.array([er.passed(r) for r in rows])
    folded = np.array(["fold" in r["outcome"] for r in rows])
    quick = np.array([r["remedy"].startswith("q") for r in rows])

    def loss(c: JunctionConstants) -> float:
        chance = er.remedy_chances(rows, c)
        return float(-np.sum(weight * np.log(np.where(good, chance, 1 - chance))))

    def fold_loss(c: JunctionConstants) -> float:
        chance = np.clip(et.quick_fold_chances(rows, c), 1e-6, 1 - 1e-6)
        return float(-np.sum((weight * quick) * np.log(np.where(folded, chance, 1 - chance))))

    return fit(fit(start, REMEDY, loss), QUICK_FOLD, fold_loss)


def held_out(
    rows: list[er.Row],
    start: JunctionConstants,
    fitter: Callable[[JunctionConstants, list[er.Row], np.ndarray], JunctionConstants],
    chances: Callable[[list[er.Row], JunctionConstants], np.ndarray],
    folds: int,
) -> np.ndarray:
    """Chances of rows from fits that have not seen them; repeats of one case stay together."""
    fold = et.case_folds(rows, folds)
    answer = np.zeros(len(rows))
    for f in range(folds):
        found = fitter(start, rows, (fold != f).astype(float))
        answer[fold == f] = chances([r for r, k in zip(rows, fold, strict=True) if k == f], found)
    return answer


def main() -> None:
    """Fit, resample, hold out, print."""
    ask = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    ask.add_argument("--folds", type=int, default=8)
    ask.add_argument("--resamples", type=int, default=0)
    args = ask.parse_args()
    start = er.constants()
    steady, remedies = et.fitted_steady(), et.remedies()
    found = fit_steady(start, steady, np.ones(len(steady)))
    found = fit_remedies(found, remedies, np.ones(len(remedies)))
    luck = np.random.default_rng(20)
    again = []
    for _ in range(args.resamples):
        one = fit_steady(start, steady, et.resampled(steady, luck))
        again.append(fit_remedies(one, remedies, et.resampled(remedies, luck)))
    fitted = {**WEAK, **FAILED, "wrong_way_share": None, **REMEDY, **QUICK_FOLD}
    for name in fitted:
        span = [getattr(one, name) for one in again]
        low, high = np.quantile(span, (0.1, 0.9)) if span else (math.nan, math.nan)
        print(f"{name:20} {getattr(found, name):9.3f} {low:9.3f} {high:9.3f}", end="")
        print(f"   (table {getattr(start, name):.3f})")
    for title, rows, fitter, chances in (
        ("steady", steady, fit_steady, er.pass_chance),
        ("remedies", remedies, fit_remedies, er.remedy_chances),
    ):
        print(f"\n{title}, held out over {args.folds} folds")
        chance = held_out(rows, found, fitter, chances, args.folds)
        print(et.right_table(rows, chance) if title == "steady" else "")
        print(et.rate_table(et.rates(rows, chance)))


if __name__ == "__main__":
    main()
