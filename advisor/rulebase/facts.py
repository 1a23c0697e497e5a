"""The names that rules may use, each with its meaning, kind and dimension (rules/facts.yaml)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from pydantic import BaseModel, ConfigDict, RootModel

from advisor.errors import BadInput, Fault, QuantityError
from advisor.quantity import Dimension, Estimate, Known, parse, show, show_reading
from advisor.rulebase.reader import Reader
from advisor.strict_yaml import read_sheet
from advisor.strict_yaml.model import nearest

Value = float | bool | str | None
"""What a fact may be worth: a number in SI, a flag, a name, or None where it is not known."""

Values = Mapping[str, Value]

# A rule may look at its own subject and at what that stands in.
SUBJECTS: Mapping[str, tuple[str, ...]] = {
    "site": ("site", "limits"),
    "opening": ("opening", "site", "limits"),
    "route": ("route", "opening", "site", "limits"),
    "passage": ("passage", "route", "opening", "site", "limits"),
}
LIKELY, UNLIKELY = "limits.likely_share", "limits.unlikely_share"
FACT_NAME = re.compile(r"(site|opening|route|passage|limits)\.[a-z][a-z0-9_]*")


class Kind(StrEnum):
    """What sort of value a fact takes."""

    FLAG = "flag"  # true or false
    SHARE = "share"  # of the worlds, 0 to 1
    QUANTITY = "quantity"  # a number with a dimension
    COUNT = "count"  # a bare number
    NAME = "name"  # a word


@dataclass(frozen=True)
class Fact:
    """One declared name; `options` are the words that a rule may compare it with (none: any)."""

    name: str
    meaning: str
    kind: Kind
    dimension: Dimension | None = None
    options: tuple[str, ...] = ()
    counter: bool = False  # a reading of the counter: told in the one unit in which it counts

    @property
    def subject(self) -> str:
        """The part before the point."""
        return self.name.partition(".")[0]

    def read(self, text: str) -> Value:
        """The value that a rule's text stands for; raises QuantityError saying what was expected."""
        if self.kind is Kind.FLAG:
            if text not in ("true", "false"):
                raise QuantityError(f"got {text!r}; expected true or false")
            return text == "true"
        if self.kind is Kind.NAME:
            if self.options and text not in self.options:
                raise QuantityError(f"unknown value {text!r}{nearest(text, list(self.options))}")
            return text
        assert self.dimension is not None
        return parse(text, self.dimension)

    def show(self, values: Values, reader: Reader, more: int = 0) -> str:
        """The value as a reader sees it, with `more` digits than usual; a share as a word with its number."""
        value = values.get(self.name)
        if value is None:
            return "unknown"
        if self.kind is Kind.FLAG:
            return "yes" if value else "no"
        if self.kind is Kind.NAME:
            return reader.call(str(value))
        assert self.dimension is not None
        number = float(value)
        if self.counter:
            return show_reading(number, reader.units, more)
        text = show(number, self.dimension, reader.units, more)
        if self.kind is Kind.SHARE and self.subject != "limits":
            # Nothing that was drawn is sure: all of a thousand cases are not all cases.
            sure = "under 1 %" if number < 0.005 else "over 99 %" if number >= 0.995 else text
            return f"{_share_word(number, values)} ({sure})"
        return text


def _share_word(number: float, values: Values) -> str:
    likely, unlikely = values[LIKELY], values[UNLIKELY]
    assert isinstance(likely, float)
    assert isinstance(unlikely, float)
    return "likely" if number >= likely else "unlikely" if number <= unlikely else "an even chance"


class _FactEntry(BaseModel):
    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True)
    meaning: str
    kind: Kind
    dimension: Dimension | None = None
    options: list[str] = []
    counter: bool = False


class _FactFile(RootModel[dict[str, _FactEntry]]):
    pass


def load_facts(path: Path, limits: Mapping[str, Known | Estimate]) -> dict[str, Fact]:
    """The declared facts by name; raises BadInput with every fault, a missing limit among them."""
    sheet = read_sheet(path, _FactFile)
    faults: list[Fault] = []
    facts: dict[str, Fact] = {}
    for name, entry in sheet.model.root.items():
        if not FACT_NAME.fullmatch(name):
            expected = "a subject, a point and a name in small letters, such as passage.bore"
            faults.append(sheet.fault(f"got {name!r}; expected {expected}", name))
        if (entry.kind is Kind.QUANTITY) != (entry.dimension is not None):
            faults.append(sheet.fault(f"{name}: a dimension belongs to a quantity, and only there", name))
        if entry.options and entry.kind is not Kind.NAME:
            faults.append(sheet.fault(f"{name}: options belong to a name", name, "options"))
        if entry.counter and entry.dimension is not Dimension.LENGTH:
            faults.append(sheet.fault(f"{name}: a counter shows a length", name, "counter"))
        if name.startswith("limits.") and name.removeprefix("limits.") not in limits:
            hint = nearest(name.removeprefix("limits."), list(limits))
            faults.append(sheet.fault(f"{name} is not in the table of limits{hint}", name))
        own = {Kind.SHARE: Dimension.SHARE, Kind.COUNT: Dimension.COUNT}
        facts[name] = Fact(
            name,
            entry.meaning,
            entry.kind,
            own.get(entry.kind, entry.dimension),
            tuple(entry.options),
            entry.counter,
        )
    for name in (LIKELY, UNLIKELY):
        if name not in facts:
            faults.append(Fault(str(path), 0, f"{name} is missing; it says what a share is called"))
    if faults:
        raise BadInput(faults)
    return facts
