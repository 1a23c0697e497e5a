"""Rules put to facts: one pass over one stratum, no chaining, so the order of rules never matters."""

from __future__ import annotations

from advisor.rulebase.facts import Values
from advisor.rulebase.load import RuleBase
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Firing


def infer(base: RuleBase, stratum: str, about: str, facts: Values, reader: Reader) -> tuple[Firing, ...]:
    """Every rule of that stratum and subject with its outcome: fired, silent and undecided alike.

    A fact that is None or not given is unknown. `facts` may be changed afterwards: it is copied.
    """
    values = {**base.limits, **facts}
    return tuple(
        [Firing(rule, rule.when.evaluate(values), values, reader) for rule in base.rules(stratum, about)]
    )
