"""Rules read from YAML, put to facts in fixed strata, and all that came of it kept for explaining."""

from advisor.rulebase.examples import check_examples
from advisor.rulebase.facts import Fact, Value, Values
from advisor.rulebase.infer import infer
from advisor.rulebase.load import STRATA, RuleBase, load_rules
from advisor.rulebase.matrix import Cell, Coverage, Matrix, coverage
from advisor.rulebase.rule import Caution, Conclusion, Example, Rule
from advisor.rulebase.trace import Check, Firing

__all__ = [
    "STRATA",
    "Caution",
    "Cell",
    "Check",
    "Conclusion",
    "Coverage",
    "Example",
    "Fact",
    "Firing",
    "Matrix",
    "Rule",
    "RuleBase",
    "Value",
    "Values",
    "check_examples",
    "coverage",
    "infer",
    "load_rules",
]
