"""The engine's pushes as the mechanics take them: reads the CSVs in tests/outside/engine."""

from __future__ import annotations

import csv
import math
from collections.abc import Callable, Iterable
from dataclasses import fields
from pathlib import Path
from typing import Any

import numpy as np
import yaml

from advisor.mechanics.head import rigid_limit
from advisor.mechanics.junction import rod_end_margin, steady_push
from advisor.mechanics.junction_case import JunctionKind, Lie, Push
from advisor.mechanics.junction_constants import JunctionConstants
from advisor.mechanics.rod import chord_height
from advisor.mechanics.technique import Remedy, quick_push_chance, quick_push_logit, remedy_chance
from advisor.mechanics.tip import logistic, tip_margin

ENGINE = Path(__file__).parent / "engine"
TABLE = Path(__file__).parents[2] / "rules" / "tables" / "junction.yaml"
Row = dict[str, Any]
WORDS = {"id", "set", "kind", "pair", "var", "orient", "mode", "remedy", "head", "nose", "outcome"}

KINDS = {
    "wye": JunctionKind.WYE,
    "combo": JunctionKind.SHORT_LEG,  # the plain set's combinations: 0.71 Dm + 1.35 Db of leg
    "short": JunctionKind.SHORT_LEG,
    "long": JunctionKind.LONG_LEG,
    "one1.0": JunctionKind.SWEEP,
    "one1.5": JunctionKind.SWEEP,
    "generous": JunctionKind.SWEEP,  # sanitary tees laid flat, swept by 0.8 Db
    "santee": JunctionKind.SANITARY_TEE,
    "tee": JunctionKind.STRAIGHT_TEE,
}
REMEDIES = {
    "slow150": Remedy.HARD_SLOW_PUSH,
    "slow": Remedy.HARD_SLOW_PUSH,
    "slow_half": Remedy.HALF_TURN_SLOW_PUSH,
    "q1.5_x3": Remedy.THREE_QUICK_PUSHES,
    "gentle90": Remedy.GENTLE_QUARTER_TURN,
}


def table() -> dict[str, dict[str, Any]]:
    """The junction table as it stands in rules."""
    loaded: dict[str, dict[str, Any]] = yaml.safe_load(TABLE.read_text(encoding="utf-8"))
    return loaded


def constants() -> JunctionConstants:
    """The constants of the junction table."""
    entries = table()
    names = [field.name for field in fields(JunctionConstants)]
    return JunctionConstants(**{name: entries[name]["value"] for name in names})


def read(name: str) -> list[Row]:
    """Rows of one CSV, numbers as floats and blanks as nan."""
    with (ENGINE / name).open(encoding="utf-8", newline="") as file:
        rows: list[Row] = list(csv.DictReader(file))
    for row in rows:
        for key, value in row.items():
            if key not in WORDS and key != "head_turned":
                row[key] = float(value) if value else math.nan
    return rows


def cases() -> list[Row]:
    """Plain junctions, bends, planes and string."""
    return read("engine_cases.csv")


def sweeps() -> list[Row]:
    """Swept fittings: the steady push and the remedies."""
    rows = read("engine_sweeps.csv")
    for row in rows:
        row["var"] = "generous" if row["var"] == "santee" else row["var"]
    return rows


def passed(row: Row) -> bool:
    """Whether the push did what was wanted."""
    return row["outcome"] in ("pass", "pass_down", "slides_fwd")


def column(rows: Iterable[Row], name: str) -> np.ndarray:
    """One column as an array."""
    return np.array([row[name] for row in rows])


def push_of(rows: list[Row]) -> Push:
    """What the rows push, as arrays."""
    names = {
        "force": "F", "friction": "mu", "rod_stiffness": "EI", "rod_diameter": "rod_d",
        "spring_stiffness": "B", "spring_length": "spr_L", "head_length": "head_L",
        "head_diameter": "head_d", "curl": "psi", "bore_branch": "Db", "bore_main": "Dm",
    }  # fmt: skip
    flat = column(rows, "nose") == "flat"
    return Push(**{ours: column(rows, theirs) for ours, theirs in names.items()}, flat_nose=flat)


def kind_of(row: Row) -> JunctionKind | None:
    """The junction of a row; none for bends, planes and what the mechanics does not cover."""
    return KINDS.get(row.get("var") or row["kind"])


def grouped(rows: list[Row], key: Callable[[Row], Any]) -> dict[Any, list[int]]:
    """Places of the rows that share a key."""
    places: dict[Any, list[int]] = {}
    for place, row in enumerate(rows):
        places.setdefault(key(row), []).append(place)
    return places


def by_group(
    rows: list[Row], key: Callable[[Row], Any], work: Callable[[Any, list[Row]], np.ndarray]
) -> np.ndarray:
    """Work on each group of rows at once and put the answers back in the order of the rows."""
    answer = np.zeros(len(rows))
    for group, where in grouped(rows, key).items():
        answer[where] = work(group, [rows[i] for i in where])
    return answer


def bend_margins(rows: list[Row], c: JunctionConstants) -> np.ndarray:
    """Rod-end margins of pushes through quarter bends."""
    p = push_of(rows)
    height = chord_height(p.bore_branch, p.rod_diameter, column(rows, "R"), np.pi / 2)
    return np.asarray(
        rod_end_margin(p.force, height, p.friction, p.rod_stiffness, p.spring_stiffness, c, p.curl)
    )


def pass_chance(rows: list[Row], c: JunctionConstants) -> np.ndarray:
    """Chance that each steady push passes, by the mechanics for its kind of row."""

    def work(group: tuple[str, JunctionKind | None, str], some: list[Row]) -> np.ndarray:
        what, kind, lie = group
        if kind is not None:
            return np.asarray(steady_push(kind, Lie(lie), push_of(some), c).passes)
        p = push_of(some)
        if what == "plane":
            margin = tip_margin(
                column(some, "gamma"), p.friction, p.flat_nose, p.force,
                p.spring_stiffness, p.spring_length, c,
            )  # fmt: skip
            return np.where(np.asarray(margin) >= 1.0, 1.0, 0.0)
        chance = np.asarray(logistic(c.rod_steepness * np.log(bend_margins(some, c))))
        if what == "rigid":
            limit = rigid_limit(p.bore_branch, p.head_diameter, column(some, "R"), np.pi / 2)
            chance = np.where(p.head_length < limit, chance, 0.0)
        return chance

    def key(row: Row) -> tuple[str, JunctionKind | None, str]:
        what = "rigid" if row["set"] in ("G", "G2") else row["kind"]
        return what, kind_of(row), row["orient"]

    return by_group(rows, key, work)


def remedy_chances(rows: list[Row], c: JunctionConstants) -> np.ndarray:
    """Chance that each remedy passes."""

    def work(remedy: str, some: list[Row]) -> np.ndarray:
        ratio = column(some, "B") / column(some, "EI")
        step = column(some, "Dm") / column(some, "Db")
        bends = np.nan_to_num(column(some, "nb"))
        logit = quick_push_logit(ratio, step, column(some, "mu"), bends, c)
        if remedy in REMEDIES:
            return np.asarray(remedy_chance(REMEDIES[remedy], logit, c))
        return np.asarray(quick_push_chance(logit, column(some, "vq"), c))

    return by_group(rows, lambda row: row["remedy"], work)


def end_of(row: Row) -> str:
    """How a junction push ended: passes, wrong_way, folded, head_stuck or rod_end_stuck."""
    outcome = row["outcome"]
    if passed(row):
        return "passes"
    if outcome == "stall_rodend" and row.get("head_turned") != "none":
        return "rod_end_stuck"
    if "fold" in outcome:
        return "folded"
    return "wrong_way" if outcome in ("stall_upstream", "upstream") else "head_stuck"
