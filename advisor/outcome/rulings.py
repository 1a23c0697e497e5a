"""Rules put to one opening, route and hard spot: what they reject, require, explain and warn of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from advisor.outcome.attempts import BLOW, TECHNIQUES
from advisor.outcome.facts import Facts
from advisor.outcome.meeting import Meeting
from advisor.rulebase.infer import NOTHING_SAID, infer
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing
from advisor.worlds.draws import Array

STRATA = ("difficulty", "technique", "caution", "entry")
Said = tuple[Mapping[str, Firing], ...]
_OF_THE_WAY = frozenset({"opening", "route"})


@dataclass(frozen=True)
class Ruling:
    """What the rules say of one variant of a spot; `where` is the worlds in which it is that variant."""

    variant: str
    share: float
    where: NDArray[np.bool_] | None
    facts: Facts
    firings: tuple[Firing, ...]

    @cached_property
    def rejected(self) -> Mapping[str, Firing]:
        """Each technique that a rule rejects, with the first rule that does."""
        found: dict[str, Firing] = {}
        for firing in self.firings:
            if firing.outcome:
                for technique, standing in firing.rule.conclusion.techniques.items():
                    if standing == "rejected":
                        found.setdefault(technique, firing)
        return found

    @cached_property
    def required(self) -> Mapping[str, Firing]:
        """Each technique that a rule requires."""
        return {
            technique: firing
            for firing in self.firings
            if firing.outcome
            for technique, standing in firing.rule.conclusion.techniques.items()
            if standing == "required"
        }


def infer_all(
    base: RuleBase, about: str, facts: Facts, reader: Reader, said: Mapping[str, Firing] = NOTHING_SAID
) -> tuple[Firing, ...]:
    """One pass of every stratum over one subject; what was `said` by a rule before stands, by its id."""
    return tuple(each for stratum in STRATA for each in infer(base, stratum, about, facts, reader, said))


def said_alone(meeting: Meeting, base: RuleBase, site: Facts, reader: Reader) -> Said:
    """What the rules that ask for nothing of the way say of each thing that a spot may be, by their ids."""
    return tuple(
        {
            each.rule_id: each
            for each in infer_all(base, "passage", {**site, **variant.facts}, reader)
            if not each.rule.subjects & _OF_THE_WAY
        }
        for variant in meeting.variants
    )


def rule_on(
    meeting: Meeting, base: RuleBase, around: Facts, outer: tuple[Firing, ...], reader: Reader, alone: Said
) -> tuple[Ruling, ...]:
    """The rules on a hard spot, once for each thing that its fitting may be.

    `around` is what is known of site, opening and route; `outer` is what fired on them: it may reject
    techniques everywhere. `alone` is what `said_alone` gives for this meeting, rules, site and reader.
    """
    found = []
    for variant, said in zip(meeting.variants, alone, strict=True):
        facts = {**around, **variant.facts}
        firings = (*outer, *infer_all(base, "passage", facts, reader, said))
        found.append(Ruling(variant.name, variant.share, variant.where, facts, firings))
    return tuple(found)


def ruled_anew(ruling: Ruling, changed: Facts, base: RuleBase, reader: Reader) -> Ruling:
    """The same variant with some facts of its passage otherwise; what was said of the way around it stays."""
    facts = {**ruling.facts, **changed}
    outer = (firing for firing in ruling.firings if firing.rule.about != "passage")
    return replace(ruling, facts=facts, firings=(*outer, *infer_all(base, "passage", facts, reader)))


def no_blow(rulings: tuple[Ruling, ...]) -> Firing | None:
    """The rule that bars a blow whatever the fitting is: one that does for anything that it may be.

    Nobody sees which it is before the blow, what a blow breaks stays broken, and what is told of the place,
    such as "no blow", is told whichever it is.
    """
    against = [(each.share, each.rejected[BLOW]) for each in rulings if BLOW in each.rejected]
    return max(against, key=lambda each: each[0])[1] if against else None


def allowed(rulings: tuple[Ruling, ...], n: int) -> dict[str, Array]:
    """For each technique the worlds, as 0 or 1, in which no rule rejects it; a blow in all or none."""
    masks = dict.fromkeys(TECHNIQUES, np.ones(n, np.float32))
    nowhere = np.zeros(n, np.float32)
    for ruling in rulings:
        for technique in ruling.rejected:
            if technique in masks:
                kept = masks[technique]
                masks[technique] = nowhere if ruling.where is None else np.where(ruling.where, nowhere, kept)
    if no_blow(rulings) is not None:
        masks[BLOW] = nowhere
    return masks
