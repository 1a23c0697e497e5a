"""Text of a rule's `when` to a Condition; every fault reported with its place, nothing evaluated."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from advisor.errors import QuantityError
from advisor.rulebase.condition import (
    COMPARISONS,
    SHARE_WORDS,
    All,
    Any,
    Compare,
    Condition,
    Is,
    IsUnknown,
    ShareIs,
)
from advisor.rulebase.facts import FACT_NAME, SUBJECTS, Fact, Kind
from advisor.strict_yaml.model import nearest

Path = tuple[str | int, ...]
Report = Callable[[str, Path], None]

_LINE = re.compile(r"(\S+)\s+(is not|is|not in|in|<=|>=|<|>)\s+(\S.*)")
_FORMS = (
    "`fact is value`, `fact is not value`, `fact in [a, b]`, `fact is unknown`, "
    "or `fact < number, fact or limit`"
)


class ConditionParser:
    """Reads the conditions of rules about one subject against the declared facts."""

    def __init__(self, facts: Mapping[str, Fact], about: str, report: Report) -> None:
        self.facts = facts
        self.about = about
        self.report = report

    def parse(self, plain: object, path: Path) -> Condition:
        """The condition; whatever is at fault is reported and left out."""
        if isinstance(plain, str):
            return self._line(plain.strip(), path) or All(())
        if isinstance(plain, list):
            self.report("got a bare list; expected all:, any: or not: above it", path)
            return All(())
        assert isinstance(plain, dict)
        if len(plain) != 1:
            self.report(f"got {', '.join(plain) or 'nothing'}; expected one of all, any, not", path)
            return All(())
        word, inner = next(iter(plain.items()))
        if word == "not":
            return self.parse(inner, (*path, word)).negated()
        if word not in ("all", "any"):
            self.report(f"unknown entry {word!r}{nearest(word, ['all', 'any', 'not'])}", (*path, word))
            return All(())
        if not isinstance(inner, list) or not inner:
            self.report(f"{word}: expected a list of conditions", (*path, word))
            return All(())
        parts = tuple(self.parse(part, (*path, word, at)) for at, part in enumerate(inner))
        return All(parts) if word == "all" else Any(parts)

    def visible(self, name: str, path: Path) -> Fact | None:
        """The declared fact of that name if a rule about this subject may use it."""
        fact = self.facts.get(name)
        if fact is None:
            self.report(f"unknown fact {name!r}{nearest(name, list(self.facts))}", path)
            return None
        if fact.subject not in SUBJECTS[self.about]:
            may = ", ".join(f"{subject}." for subject in SUBJECTS[self.about])
            self.report(f"{name}: a rule about one {self.about} may only use {may}", path)
            return None
        return fact

    def _line(self, text: str, path: Path) -> Condition | None:
        found = _LINE.fullmatch(text)
        if not found:
            self.report(f"got {text!r}; expected {_FORMS}", path)
            return None
        name, sign, wanted = found.groups()
        fact = self.visible(name, path)
        if fact is None:
            return None
        if sign in COMPARISONS:
            return self._compare(fact, sign, wanted, path)
        line = self._within(fact, wanted, path) if sign.endswith("in") else self._is(fact, wanted, path)
        return line.negated() if line is not None and "not" in sign else line

    def _is(self, fact: Fact, wanted: str, path: Path) -> Condition | None:
        if wanted == "unknown":
            return IsUnknown(fact)
        if wanted == "known":
            return IsUnknown(fact).negated()
        if fact.kind is Kind.SHARE:
            if wanted in SHARE_WORDS:
                return ShareIs(fact, wanted)
            self.report(f"{fact.name}: got {wanted!r}{nearest(wanted, list(SHARE_WORDS))}", path)
            return None
        if fact.kind not in (Kind.FLAG, Kind.NAME):
            self.report(f"{fact.name} is a number; expected <, <=, > or >=", path)
            return None
        return self._values(fact, [wanted], path)

    def _within(self, fact: Fact, wanted: str, path: Path) -> Condition | None:
        if fact.kind is not Kind.NAME:
            self.report(f"{fact.name} is not a name; `in` goes with names only", path)
            return None
        if not (wanted.startswith("[") and wanted.endswith("]")):
            self.report(f"got {wanted!r}; expected a list such as [bend, wye]", path)
            return None
        return self._values(fact, [one.strip() for one in wanted[1:-1].split(",")], path)

    def _values(self, fact: Fact, wanted: list[str], path: Path) -> Condition | None:
        values = []
        for one in wanted:
            try:
                values.append(fact.read(one))
            except QuantityError as fault:
                self.report(f"{fact.name}: {fault}", path)
        return Is(fact, tuple(values)) if len(values) == len(wanted) else None

    def _compare(self, fact: Fact, sign: str, wanted: str, path: Path) -> Condition | None:
        if fact.dimension is None:
            self.report(f"{fact.name} is a {fact.kind}; {sign} goes with numbers only", path)
            return None
        if FACT_NAME.fullmatch(wanted) or wanted in self.facts:
            other = self.visible(wanted, path)
            if other is None:
                return None
            if other.dimension is not fact.dimension:
                got = other.dimension.value if other.dimension else other.kind.value
                self.report(
                    f"{fact.name} is a {fact.dimension.value}, {other.name} a {got}: not comparable", path
                )
                return None
            return Compare(fact, sign, other)
        try:
            number = fact.read(wanted)
        except QuantityError as fault:
            self.report(f"{fact.name}: {fault}", path)
            return None
        assert isinstance(number, float)
        return Compare(fact, sign, number)
