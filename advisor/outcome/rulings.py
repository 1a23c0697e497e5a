"""Rules put to one opening, route and hard spot: what they reject, require, explain and warn of."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from advisor.outcome.attempts import TECHNIQUES
from advisor.outcome.facts import Facts
from advisor.outcome.meeting import Meeting
from advisor.rulebase.infer import infer
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing
from advisor.worlds.draws import Array

STRATA = ("difficulty", "technique", "caution", "entry")


@dataclass(frozen=True)
class Ruling:
    """What the rules say of one variant of a spot; `where` is the worlds in which it is that variant."""

    variant: str
    share: float
    where: NDArray[np.bool_] | None
    facts: Facts
    firings: tuple[Firing, ...]

    def rejected(self) -> dict[str, Firing]:
        """Each technique that a rule rejects, with the first rule that does."""
        found: dict[str, Firing] = {}
        for firing in self.firings:
            if firing.outcome:
                for technique, standing in firing.rule.conclusion.techniques.items():
                    if standing == "rejected":
                        found.setdefault(technique, firing)
        return found

    def required(self) -> dict[str, Firing]:
        """Each technique that a rule requires."""
        return {
            technique: firing
            for firing in self.firings
            if firing.outcome
            for technique, standing in firing.rule.conclusion.techniques.items()
            if standing == "required"
        }


def infer_all(base: RuleBase, about: str, facts: Facts, reader: Reader) -> tuple[Firing, ...]:
    """One pass of every stratum over one subject."""
    return tuple(firing for stratum in STRATA for firing in infer(base, stratum, about, facts, reader))


def rule_on(
    meeting: Meeting, base: RuleBase, around: Facts, outer: tuple[Firing, ...], reader: Reader
) -> tuple[Ruling, ...]:
    """The rules on a hard spot, once for each thing that its fitting may be.

    `outer` is what fired on the site, the opening and the route: it may reject techniques everywhere.
    """
    outer = tuple(f for f in outer if f.rule.conclusion.techniques or f.rule.conclusion.steps)
    found = []
    for variant in meeting.variants:
        facts = {**around, **variant.facts}
        firings = (*outer, *infer_all(base, "passage", facts, reader))
        found.append(Ruling(variant.name, variant.share, variant.where, facts, firings))
    return tuple(found)


def ruled_anew(ruling: Ruling, changed: Facts, base: RuleBase, reader: Reader) -> Ruling:
    """The same variant with some facts of its passage otherwise; what was said of the way around it stays."""
    facts = {**ruling.facts, **changed}
    outer = (firing for firing in ruling.firings if firing.rule.about != "passage")
    return replace(ruling, facts=facts, firings=(*outer, *infer_all(base, "passage", facts, reader)))


def allowed(rulings: tuple[Ruling, ...], n: int) -> dict[str, Array]:
    """For each technique the worlds, as 0 or 1, in which no rule rejects it."""
    masks = {name: np.ones(n, np.float32) for name in TECHNIQUES}
    for ruling in rulings:
        for technique in ruling.rejected():
            if technique in masks:
                if ruling.where is None:
                    masks[technique] = np.zeros(n, np.float32)
                else:
                    masks[technique] = np.where(ruling.where, 0, masks[technique]).astype(np.float32)
    return masks
