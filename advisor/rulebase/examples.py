"""Every rule tried on its own examples."""

from __future__ import annotations

from advisor.errors import Fault
from advisor.rulebase.load import RuleBase

_WORDS = {True: "fires", False: "silent", None: "unknown"}


def check_examples(base: RuleBase) -> list[Fault]:
    """A fault for each example that does not come out as its rule says."""
    faults = []
    for rule in base.all_rules:
        for example in rule.examples:
            outcome = rule.when.evaluate({**base.limits, **example.given})
            if outcome is not example.expect:
                faults.append(
                    Fault(
                        rule.file,
                        rule.line,
                        f"{rule.id}, example {example.name!r}: got {_WORDS[outcome]}; "
                        f"expected {_WORDS[example.expect]}",
                    )
                )
    return faults
