"""One reason and what it rests on, down to sheet and table values with their source and grade."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import BaseModel, ConfigDict

from advisor.evidence import Evidence
from advisor.quantity import Chances, Dimension, Estimate, Known, Units, show
from advisor.rulebase.trace import Check, Firing


class Reason(BaseModel):
    """A sentence, the record it was made from, and the reasons under it.

    `of` says what kind of record: rule, check, mechanics, minutes, chance, table or sheet. `value` is the
    number that the sentence tells, in SI, where it tells one.
    """

    model_config = ConfigDict(frozen=True)

    text: str
    of: str
    value: float | None = None
    grade: str = ""
    source: str = ""
    under: tuple[Reason, ...] = ()

    def walk(self, depth: int = 0) -> Iterator[tuple[int, Reason]]:
        """This reason and all under it, with their depth."""
        yield depth, self
        for each in self.under:
            yield from each.walk(depth + 1)


class Story(BaseModel):
    """What is asked, at most three reasons for a reader, and the whole tree for who wants it."""

    model_config = ConfigDict(frozen=True)

    about: str
    story: tuple[str, ...]
    tree: Reason


def of_rule(firing: Firing) -> Reason:
    """A rule with its conditions, mechanism and sources."""
    rule = firing.rule
    checks = tuple(Reason(text=_check_words(check), of="check") for check in firing.checks)
    why = Reason(text=f"because of: {rule.mechanism}", of="rule")
    wrong = Reason(text=f"if this is wrong you will see: {rule.if_wrong}", of="rule")
    return Reason(
        text=firing.because,
        of=f"rule {rule.id}",
        grade=", ".join(grade.words for grade, _ in rule.sources),
        source=", ".join(source for _, source in rule.sources),
        under=(*checks, why, wrong),
    )


def of_belief(words: str, belief: Known | Estimate | Chances, dimension: Dimension, units: Units) -> Reason:
    """A value of a sheet or table, as far as it is known."""
    if isinstance(belief, Chances):
        text = ", ".join(f"{name} {share:.0%}" for name, share in sorted(belief.options, key=lambda o: -o[1]))
        return _graded(f"{words}: {text}", belief.evidence, None)
    if isinstance(belief, Known):
        return _graded(f"{words}: {show(belief.value, dimension, units)}", belief.evidence, belief.value)
    low, likely, high = (show(v, dimension, units) for v in (belief.low, belief.likely, belief.high))
    return _graded(f"{words}: {low} to {high}, likely {likely}", belief.evidence, belief.likely)


def _graded(text: str, evidence: Evidence, value: float | None) -> Reason:
    of = "sheet" if evidence.grade.value == "told" else "table"
    note = f" ({evidence.note})" if evidence.note else ""
    return Reason(text=text + note, of=of, value=value, grade=evidence.grade.words, source=evidence.source)


def _check_words(check: Check) -> str:
    outcome = {True: "yes", False: "no", None: "not known"}[check.outcome]
    return f"{check.text} [{check.left} / {check.right}]: {outcome}"
