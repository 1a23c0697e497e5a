"""Rules put to facts: one pass over one stratum, no chaining, so the order of rules never matters."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from advisor.rulebase.facts import Values
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing

NOTHING_SAID: Mapping[str, Firing] = MappingProxyType({})


def infer(
    base: RuleBase,
    stratum: str,
    about: str,
    facts: Values,
    reader: Reader,
    said: Mapping[str, Firing] = NOTHING_SAID,
) -> tuple[Firing, ...]:
    """Every rule of that stratum and subject with its outcome: fired, silent and undecided alike.

    A fact that is None or not given is unknown. `facts` may be changed afterwards: it is copied. A rule that
    has `said` what it makes of these facts already, by its id, is not asked again.
    """
    rules = base.rules(stratum, about)
    if said and all(rule.id in said for rule in rules):
        return tuple([said[rule.id] for rule in rules])
    values = {**base.limits, **facts}
    return tuple(
        [said.get(rule.id) or Firing(rule, rule.when.evaluate(values), values, reader) for rule in rules]
    )
