"""One random site: planned once, then tried in many hidden worlds by every policy."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from advisor.kit.loadouts import default_kit
from advisor.outcome.assess import RouteOutcome
from advisor.plan import Case, plan
from advisor.quantity import Units
from advisor.rulebase.load import RuleBase, load_rules
from advisor.site.sheet import site_of_text
from advisor.tables.load import Tables, load_tables
from advisor.tables.place import rules_dir
from tests.bench.simulation.attempt import Happened, attempt
from tests.bench.simulation.policies import (
    ORACLE,
    PLANNER,
    by_rule,
    candidates,
    follow,
    knowing,
    planned,
    rules_of_thumb,
)
from tests.bench.simulation.sites import site_text
from tests.bench.simulation.truth import Numbers, Truth, Twist

PLANNER_WORLDS = 800


@dataclass(frozen=True)
class Told:
    """One attempt as the planner states it, and what came of it in the hidden worlds."""

    stated: float
    seen: float  # share by luck
    chance: float  # mean true chance, without luck
    worlds: int


@dataclass
class SiteResult:
    """Mean minutes and share seen of each policy on one site, by twist; and the first attempts."""

    number: int
    openings: int
    minutes: dict[str, dict[str, float]] = field(default_factory=dict)
    seen: dict[str, dict[str, float]] = field(default_factory=dict)
    first: dict[str, Told] = field(default_factory=dict)
    every: dict[str, list[Told]] = field(default_factory=dict)


class Bench:
    """Tables, rules and kit, read once."""

    def __init__(self) -> None:
        self.tables: Tables = load_tables(rules_dir())
        self.base: RuleBase = load_rules(rules_dir(), self.tables.limits, set(self.tables.sources))
        self.kit = default_kit(self.tables)

    def site(self, number: int, seed: int, worlds: int, twists: dict[str, Twist]) -> SiteResult:
        """Plan a site and try it under each twist of the truth."""
        text = site_text(number, seed, self.tables)
        sheet = site_of_text(text, f"house {number}", self.tables)
        study = plan(Case(sheet, self.kit, Units.METRIC, PLANNER_WORLDS), self.tables, self.base)
        among = candidates(study.settled)
        result = SiteResult(number, len(study.network.openings()))
        if not among:
            return result
        failing = self.tables.costs["failing"].likely
        orders = {PLANNER: planned(among, study.settled)}
        for name, key in rules_of_thumb(self.tables).items():
            orders[name] = by_rule(among, key)
            # The planner may also think the rest not worth trying; here the rule stops where it does.
            orders[f"{name}, as many as the planner"] = orders[name][: len(orders[PLANNER])]
        for name, twist in twists.items():
            truth = Truth(seed * 100_003 + number, worlds, self.tables, study.network.year, twist)
            hidden_at = _hidden_at(among, seed + number) if twist.bend else None
            happened = [attempt(outcome, truth, hidden_at) for outcome in among]
            lived = {who: follow(order, happened, failing) for who, order in orders.items()}
            lived[ORACLE] = _by_oracle(happened, failing, worlds)
            result.minutes[name] = {who: float(minutes.mean()) for who, (minutes, _) in lived.items()}
            result.seen[name] = {who: float(seen.mean()) for who, (_, seen) in lived.items()}
            told = [_told(outcome, h, worlds) for outcome, h in zip(among, happened, strict=True)]
            if orders[PLANNER]:
                result.first[name] = told[orders[PLANNER][0]]
            result.every[name] = told
        return result


def _told(outcome: RouteOutcome, happened: Happened, worlds: int) -> Told:
    return Told(outcome.chance, float(happened.seen.mean()), float(happened.chance.mean()), worlds)


def _by_oracle(happened: list[Happened], failing: float, worlds: int) -> tuple[Numbers, Numbers]:
    minutes, seen = np.zeros(worlds), np.zeros(worlds)
    for world in range(worlds):
        each = follow(knowing(happened, failing, world), happened, failing)
        minutes[world], seen[world] = each[0][world], each[1][world]
    return minutes, seen


def _hidden_at(among: list[RouteOutcome], seed: int) -> str | None:
    """A level pipe on some way to the target, likelier the longer it is."""
    lengths = {
        p.piece.id: p.piece.length.likely
        for outcome in among
        for p in outcome.route.passages
        if p.piece.kind == "pipe" and p.piece.length is not None
    }
    if not lengths:
        return None
    shares = np.array(list(lengths.values()))
    return list(lengths)[int(np.random.default_rng(seed).choice(len(shares), p=shares / shares.sum()))]
