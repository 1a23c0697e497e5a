"""All rules of a folder, read strictly: every fault of every file at once, with its line."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from advisor.errors import BadInput, Fault, QuantityError
from advisor.evidence import Grade
from advisor.quantity import Estimate, Known
from advisor.rulebase.condition import comparisons
from advisor.rulebase.facts import Fact, Value, Values, load_facts
from advisor.rulebase.matrix import Matrix, load_matrix
from advisor.rulebase.parse import ConditionParser
from advisor.rulebase.parse import Path as Place
from advisor.rulebase.rule import (
    PLACEHOLDER,
    Caution,
    ConcludeEntry,
    Conclusion,
    Example,
    ExampleEntry,
    Rule,
    RuleEntry,
    RuleFile,
)
from advisor.strict_yaml import Node, Sheet, read_on, read_text, sheet_of_tree
from advisor.strict_yaml.model import nearest

# What each stratum may conclude: the fields of `conclude`, as the file names them.
STRATA: Mapping[str, frozenset[str]] = {
    "difficulty": frozenset({"difficulty"}),
    "technique": frozenset({"technique", "technique steps"}),
    "caution": frozenset({"caution", "verdict"}),
    "entry": frozenset({"entry", "opening"}),
}
_MATRIX = "matrix.yaml"


@dataclass(frozen=True)
class RuleBase:
    """Every rule by stratum, sorted by id, with the facts and limits that they speak of."""

    facts: Mapping[str, Fact]
    limits: Values
    by_stratum: Mapping[str, tuple[Rule, ...]]
    matrix: Matrix

    def __post_init__(self) -> None:
        chosen: dict[tuple[str, str], list[Rule]] = {}
        for rule in self.all_rules:
            chosen.setdefault((rule.stratum, rule.about), []).append(rule)
        object.__setattr__(self, "_chosen", {key: tuple(rules) for key, rules in chosen.items()})

    @property
    def all_rules(self) -> tuple[Rule, ...]:
        """Every rule, stratum by stratum."""
        return tuple(rule for rules in self.by_stratum.values() for rule in rules)

    def rules(self, stratum: str, about: str) -> tuple[Rule, ...]:
        """The rules of one stratum about one kind of subject."""
        chosen: Mapping[tuple[str, str], tuple[Rule, ...]] = self.__dict__["_chosen"]
        return chosen.get((stratum, about), ())


def load_rules(rules: Path, limits: Mapping[str, Known | Estimate], source_ids: Set[str]) -> RuleBase:
    """The rule base under `rules`; raises BadInput with every fault of every file."""
    known = frozenset(source_ids)
    faults: list[Fault] = []
    facts: dict[str, Fact] = {}
    matrix = Matrix({}, {}, {})
    try:
        facts = load_facts(rules / "facts.yaml", limits)
    except BadInput as fault:
        faults.extend(fault.faults)
    try:
        matrix = load_matrix(rules / "technique" / _MATRIX, known)
    except BadInput as fault:
        faults.extend(fault.faults)
    # Without the names nothing in a rule can be checked: every line would be called unknown.
    if faults:
        raise BadInput(faults)
    found: dict[str, list[Rule]] = {stratum: [] for stratum in STRATA}
    where: dict[str, str] = {}
    for stratum in STRATA:
        for path in sorted((rules / stratum).glob("*.yaml")):
            if path.name == _MATRIX:
                continue
            read = partial(_rules_of_tree, str(path), stratum, facts, matrix, known)
            try:
                some = read_on(read_text(path), str(path), read)
            except BadInput as fault:
                faults.extend(fault.faults)
                continue
            found[stratum] += some
            for rule in some:
                if rule.id in where:
                    message = f"{rule.id!r} stands twice, first at {where[rule.id]}"
                    faults.append(Fault(rule.file, rule.line, message))
                where.setdefault(rule.id, f"{rule.file}:{rule.line}")
    if not faults and not where:
        faults.append(Fault(str(rules), 0, f"no rules in {', '.join(STRATA)}"))
    if faults:
        raise BadInput(faults)
    values: dict[str, Value] = {}
    for name in facts:
        if name.startswith("limits."):
            values[name] = limits[name.removeprefix("limits.")].likely
    ordered = {stratum: tuple(sorted(some, key=lambda rule: rule.id)) for stratum, some in found.items()}
    return RuleBase(facts, values, ordered, matrix)


def _rules_of_tree(
    file: str,
    stratum: str,
    facts: Mapping[str, Fact],
    matrix: Matrix,
    source_ids: frozenset[str],
    tree: Node,
) -> list[Rule]:
    """The rules of one file; raises BadInput."""
    sheet = sheet_of_tree(tree, RuleFile, file)
    readers = [
        _RuleReader(sheet, at, entry, stratum, facts, matrix, source_ids)
        for at, entry in enumerate(sheet.model.rules)
    ]
    rules = [reader.read() for reader in readers]
    faults = [fault for reader in readers for fault in reader.faults]
    if faults:
        raise BadInput(faults)
    return rules


class _RuleReader:
    """Checks one rule and makes it; faults are gathered, never raised, so that all are told at once."""

    def __init__(
        self,
        sheet: Sheet[RuleFile],
        at: int,
        entry: RuleEntry,
        stratum: str,
        facts: Mapping[str, Fact],
        matrix: Matrix,
        source_ids: frozenset[str],
    ) -> None:
        self.sheet, self.at, self.entry, self.stratum = sheet, at, entry, stratum
        self.facts, self.matrix, self.source_ids = facts, matrix, source_ids
        self.faults: list[Fault] = []
        self.conditions = ConditionParser(facts, entry.about, self._report)

    def read(self) -> Rule:
        """The rule, to be used only where no fault was found."""
        entry = self.entry
        when = self.conditions.parse(entry.when, ("when",))
        conclusion = self._conclusion(entry.conclude)
        examples = tuple(self._example(at, example) for at, example in enumerate(entry.examples))
        for grade, source in entry.source.items():
            if grade is Grade.TOLD:
                self._report("a rule is read, computed, practice, memory or judgement", ("source",))
            if source not in self.source_ids:
                hint = nearest(source, list(self.source_ids))
                self._report(f"unknown source {source!r}{hint}", ("source", grade))
        rule = Rule(
            entry.id,
            self.stratum,
            entry.title,
            entry.about,
            when,
            conclusion,
            entry.because,
            entry.mechanism,
            entry.if_wrong,
            tuple(entry.source.items()),
            examples,
            self._shown(conclusion),
            self.sheet.file,
            self.sheet.line("rules", self.at, "id"),
        )
        self._demand_examples(rule)
        return rule

    def _report(self, message: str, place: Place) -> None:
        self.faults.append(self.sheet.fault(f"{self.entry.id}: {message}", "rules", self.at, *place))

    def _conclusion(self, entry: ConcludeEntry) -> Conclusion:
        given = entry.model_dump(by_alias=True, exclude_unset=True)
        if not given:
            self._report("it concludes nothing", ("conclude",))
        for name in given:
            if name not in STRATA[self.stratum]:
                may = ", ".join(sorted(STRATA[self.stratum]))
                self._report(f"a {self.stratum} rule concludes {may}, not {name}", ("conclude", name))
        for field, names, known in (
            ("technique", entry.technique, self.matrix.techniques),
            ("technique steps", entry.technique_steps, self.matrix.techniques),
            ("difficulty", entry.difficulty, self.matrix.troubles),
        ):
            for name in names:
                if name not in known:
                    hint = nearest(name, list(known))
                    self._report(f"unknown name {name!r}{hint}", ("conclude", field, name))
        caution, at_entry = entry.caution, entry.entry
        return Conclusion(
            entry.technique,
            {name: tuple(steps) for name, steps in entry.technique_steps.items()},
            tuple(entry.difficulty),
            Caution(
                caution.id,
                caution.word,
                caution.text,
                caution.on_the_way is not None,
                caution.short,
                caution.in_the_pipe is not None,
            )
            if caution
            else None,
            entry.verdict,
            tuple(at_entry.do) if at_entry else (),
            tuple(at_entry.once_open) if at_entry else (),
            tuple(at_entry.bring) if at_entry else (),
            entry.opening == "closed",
        )

    def _shown(self, conclusion: Conclusion) -> dict[str, Fact]:
        """The facts named by placeholders, in `because` and in what is concluded."""
        shown: dict[str, Fact] = {}
        texts = [("because", self.entry.because), *(("conclude", text) for text in conclusion.texts())]
        for key, text in texts:
            for name in PLACEHOLDER.findall(text):
                fact = self.conditions.visible(name, (key,))
                if fact is not None:
                    shown[name] = fact
        for key, text in (("mechanism", self.entry.mechanism), ("if wrong", self.entry.if_wrong)):
            if "{" in text:
                self._report(f"{key} holds for every job, so it takes no {{fact}}", (key,))
        return shown

    def _example(self, at: int, entry: ExampleEntry) -> Example:
        given: dict[str, Value] = {}
        for name, text in entry.given.items():
            place: Place = ("examples", at, "given", name)
            fact = self.conditions.visible(name, place)
            if fact is None or text == "unknown":
                continue
            try:
                given[name] = fact.read(text)
            except QuantityError as fault:
                self._report(f"{name}: {fault}", place)
        return Example(entry.name, given, {"fires": True, "silent": False}.get(entry.expect))

    def _demand_examples(self, rule: Rule) -> None:
        for word, expect in (("fires", True), ("silent", False)):
            if not any(example.expect is expect for example in rule.examples):
                self._report(f"an example that is expected to be `{word}` is missing", ("examples",))
        for line in comparisons(rule.when):
            both = (line.sides(example.given) for example in rule.examples)
            if not any(sides is not None and sides[0] == sides[1] for sides in both):
                self._report(
                    f"an example with {line.fact.name} just equal to the other side is missing",
                    ("examples",),
                )
