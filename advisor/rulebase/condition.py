"""Conditions: a structure of lines, each true, false or unknown. Unknown is not false."""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

from advisor.rulebase.facts import LIKELY, UNLIKELY, Fact, Value, Values
from advisor.rulebase.reader import Reader
from advisor.rulebase.trace import Check

COMPARISONS: Mapping[str, Callable[[float, float], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
}
SHARE_WORDS = ("likely", "even", "unlikely", "possible")


class Condition(Protocol):
    """Anything that can be put to a set of facts."""

    def evaluate(self, values: Values) -> bool | None:
        """True, False, or None where it hangs on something that is not known."""

    def checks(self, values: Values, reader: Reader) -> Iterator[Check]:
        """Each line with its own numbers; a line is judged also where an earlier one settled it."""

    def names(self) -> Iterator[str]:
        """The facts that it looks at, in order."""

    def negated(self) -> Condition:
        """The opposite, pushed down to the lines, so that each line still explains itself."""


class _Line:
    """What all lines share; each subclass says its words and its outcome."""

    fact: Fact

    def evaluate(self, values: Values) -> bool | None:
        raise NotImplementedError

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        raise NotImplementedError

    def checks(self, values: Values, reader: Reader) -> Iterator[Check]:
        text, right = self._words(values, reader)
        yield Check(text, self.fact.show(values, reader), right, self.evaluate(values))

    def names(self) -> Iterator[str]:
        yield self.fact.name

    def negated(self) -> Condition:
        return Not(self)


@dataclass(frozen=True)
class Is(_Line):
    """A flag or a name is one of some values."""

    fact: Fact
    wanted: tuple[Value, ...]

    def evaluate(self, values: Values) -> bool | None:
        value = values.get(self.fact.name)
        return None if value is None else value in self.wanted

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        shown = " or ".join(self.fact.show({self.fact.name: value}, reader) for value in self.wanted)
        return f"{self.fact.meaning}: {shown}", shown


@dataclass(frozen=True)
class IsUnknown(_Line):
    """Whether nothing is known about a fact; itself always decided."""

    fact: Fact

    def evaluate(self, values: Values) -> bool | None:
        return values.get(self.fact.name) is None

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        return f"{self.fact.meaning}: not known", "unknown"


@dataclass(frozen=True)
class ShareIs(_Line):
    """A share of the worlds is likely, even, unlikely, or possible (anything above unlikely)."""

    fact: Fact
    word: str

    def evaluate(self, values: Values) -> bool | None:
        share, likely, unlikely = (
            values.get(self.fact.name),
            values[LIKELY],
            values[UNLIKELY],
        )
        if share is None:
            return None
        assert not isinstance(share, str)
        assert isinstance(likely, float)
        assert isinstance(unlikely, float)
        if self.word == "possible":
            return bool(share > unlikely)
        if self.word == "likely":
            return bool(share >= likely)
        if self.word == "unlikely":
            return bool(share <= unlikely)
        return bool(unlikely < share < likely)

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        return f"{self.fact.meaning}: {self.word}", self.word


@dataclass(frozen=True)
class Compare(_Line):
    """A number is below or above another fact, a limit or a stated number."""

    fact: Fact
    sign: str
    right: Fact | float

    def sides(self, values: Values) -> tuple[float, float] | None:
        """Both numbers, or None where one is not known."""
        left = values.get(self.fact.name)
        right = values.get(self.right.name) if isinstance(self.right, Fact) else self.right
        if left is None or right is None:
            return None
        assert not isinstance(left, str)
        assert not isinstance(right, str)
        return left, right

    def evaluate(self, values: Values) -> bool | None:
        sides = self.sides(values)
        return None if sides is None else bool(COMPARISONS[self.sign](*sides))

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        if isinstance(self.right, Fact):
            return (
                f"{self.fact.meaning} {self.sign} {self.right.meaning}",
                self.right.show(values, reader),
            )
        # A stated number is shown as the fact itself would be, if that were its value.
        shown = self.fact.show({**values, self.fact.name: self.right}, reader)
        return f"{self.fact.meaning} {self.sign} {shown}", shown

    def names(self) -> Iterator[str]:
        yield self.fact.name
        if isinstance(self.right, Fact):
            yield self.right.name


@dataclass(frozen=True)
class Not(_Line):
    """The opposite of one line."""

    line: _Line

    @property
    def fact(self) -> Fact:  # type: ignore[override]
        """The fact of the line that is turned round."""
        return self.line.fact

    def evaluate(self, values: Values) -> bool | None:
        outcome = self.line.evaluate(values)
        return None if outcome is None else not outcome

    def _words(self, values: Values, reader: Reader) -> tuple[str, str]:
        text, right = self.line._words(values, reader)
        return f"not: {text}", right

    def names(self) -> Iterator[str]:
        return self.line.names()

    def negated(self) -> Condition:
        return self.line


@dataclass(frozen=True)
class All:
    """Every part must hold."""

    parts: tuple[Condition, ...]

    def evaluate(self, values: Values) -> bool | None:
        outcome: bool | None = True
        for part in self.parts:
            one = part.evaluate(values)
            if one is False:
                return False
            if one is None:
                outcome = None
        return outcome

    def checks(self, values: Values, reader: Reader) -> Iterator[Check]:
        for part in self.parts:
            yield from part.checks(values, reader)

    def names(self) -> Iterator[str]:
        for part in self.parts:
            yield from part.names()

    def negated(self) -> Condition:
        return Any(tuple(part.negated() for part in self.parts))


@dataclass(frozen=True)
class Any:
    """One part is enough."""

    parts: tuple[Condition, ...]

    def evaluate(self, values: Values) -> bool | None:
        outcome: bool | None = False
        for part in self.parts:
            one = part.evaluate(values)
            if one is True:
                return True
            if one is None:
                outcome = None
        return outcome

    def checks(self, values: Values, reader: Reader) -> Iterator[Check]:
        for part in self.parts:
            for check in part.checks(values, reader):
                yield Check(f"either: {check.text}", check.left, check.right, check.outcome)

    def names(self) -> Iterator[str]:
        for part in self.parts:
            yield from part.names()

    def negated(self) -> Condition:
        return All(tuple(part.negated() for part in self.parts))


def comparisons(condition: Condition) -> Iterator[Compare]:
    """Every line that compares two numbers, for the demand of an example at equality."""
    if isinstance(condition, (All, Any)):
        for part in condition.parts:
            yield from comparisons(part)
    elif isinstance(condition, Not):
        yield from comparisons(condition.line)
    elif isinstance(condition, Compare):
        yield condition
