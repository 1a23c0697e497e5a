"""What a rule made of the facts: frozen records, turned into words only when somebody asks."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from advisor.rulebase.reader import Reader

if TYPE_CHECKING:
    from advisor.rulebase.facts import Values
    from advisor.rulebase.rule import Conclusion, Rule


@dataclass(frozen=True)
class Check:
    """One line of a condition: its words, what stood on both sides, and what came out.

    `outcome` is None where a value is not known.
    """

    text: str
    left: str
    right: str
    outcome: bool | None


@dataclass(frozen=True, slots=True)
class Firing:
    """One rule put to one set of facts: it fired (True), did not (False) or is undecided (None).

    Thousands are made for each plan and few are read, so the words are worked out on demand. The
    facts are kept, not copied: `infer` hands over a copy that nobody else holds.
    """

    rule: Rule
    outcome: bool | None
    values: Values = field(repr=False)
    reader: Reader

    @property
    def rule_id(self) -> str:
        """The id of the rule."""
        return self.rule.id

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every line of the condition with its own numbers, in the order of the rule."""
        return tuple(self.rule.when.checks(self.values, self.reader))

    @property
    def missing(self) -> tuple[str, ...]:
        """The facts that the rule looks at and that are not known, by name, in the order of the rule."""
        names = dict.fromkeys(self.rule.when.names())
        return tuple(name for name in names if self.values.get(name) is None)

    @property
    def because(self) -> str:
        """The reason, with its numbers filled in."""
        return self.rule.fill(self.rule.because, self.values, self.reader)

    @property
    def conclusion(self) -> Conclusion:
        """What the rule concludes, or would conclude, with its numbers filled in."""
        return self.rule.conclusion.mapped(lambda text: self.rule.fill(text, self.values, self.reader))
