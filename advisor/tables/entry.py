"""One number of a table: its value, range, unit, grade, source and note, read into SI."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetPydanticSchema,
    model_validator,
)
from pydantic_core import core_schema

from advisor.errors import QuantityError
from advisor.evidence import Evidence, Grade
from advisor.quantity import Dimension, Estimate, Known, parse
from advisor.strict_yaml.model import nearest

# "told" is missing on purpose: nobody tells a table anything.
GradeName = Literal["read", "computed", "practice", "memory", "judgement"]

_DIMENSION_OF_UNIT = {
    "": Dimension.COUNT,
    "%": Dimension.SHARE,
    "deg": Dimension.ANGLE,
    "in per ft": Dimension.SLOPE,
    "mm per m": Dimension.SLOPE,
    "N": Dimension.FORCE,
    "kg": Dimension.MASS,
    "g": Dimension.MASS,
    "N/m": Dimension.WEIGHT,
    "N m2": Dimension.STIFFNESS,
    "GPa": Dimension.MODULUS,
    "kg/m3": Dimension.DENSITY,
    "s": Dimension.TIME,
    "min": Dimension.TIME,
    "m/s": Dimension.SPEED,
    "l/s": Dimension.FLOW,
    "gpm": Dimension.FLOW,
    **dict.fromkeys(("mm", "m", "in", "ft"), Dimension.LENGTH),
}

number = lru_cache(maxsize=8192)(parse)


class Row(BaseModel):
    """A mapping of a table file: no entry that is not declared, nothing changed after loading."""

    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True)


class Graded(Row):
    """A row that says how far to trust it."""

    grade: GradeName
    source: str
    note: str = ""

    @property
    def evidence(self) -> Evidence:
        """Grade, source and note together."""
        return Evidence(Grade(self.grade), self.source, self.note)


class Entry(Graded):
    """One number as written in a table file."""

    value: str
    low: str | None = None
    high: str | None = None
    unit: str = ""

    @property
    def belief(self) -> Known | Estimate:
        """The number in SI; its dimension is that of its unit."""
        if self.unit not in _DIMENSION_OF_UNIT:
            raise QuantityError(
                f"unit {self.unit!r} is not used in tables; known: "
                f"{', '.join(unit for unit in _DIMENSION_OF_UNIT if unit)}"
            )
        return self.belief_as(_DIMENSION_OF_UNIT[self.unit])

    def belief_as(self, dimension: Dimension) -> Known | Estimate:
        """The number in SI, refused when its unit is not one of that dimension."""
        likely = self._number(self.value, dimension)
        if self.low is None and self.high is None:
            return Known(likely, self.evidence)
        low = likely if self.low is None else self._number(self.low, dimension)
        high = likely if self.high is None else self._number(self.high, dimension)
        if not low <= likely <= high:
            raise QuantityError("low, value and high are not in this order")
        return Estimate(low, likely, high, self.evidence)

    def _number(self, text: str, dimension: Dimension) -> float:
        # The parser knows no minus sign, for nothing on a sheet is negative; a fitted constant may be.
        if text.startswith("-"):
            return -number(f"{text[1:]} {self.unit}".strip(), dimension)
        return number(f"{text} {self.unit}".strip(), dimension)


def scaled(belief: Known | Estimate, factor: float) -> Known | Estimate:
    """The same belief in another unit."""
    if isinstance(belief, Known):
        return Known(belief.value * factor, belief.evidence)
    return Estimate(belief.low * factor, belief.likely * factor, belief.high * factor, belief.evidence)


def as_estimate(belief: Known | Estimate) -> Estimate:
    """A known value as a range of no width."""
    if isinstance(belief, Estimate):
        return belief
    return Estimate(belief.value, belief.value, belief.value, belief.evidence)


def _read_as(convert: Callable[[Entry], Any]) -> GetPydanticSchema:
    """Check a field as an Entry, so that faults name the line, and keep what `convert` makes of it."""

    def checked(entry: Entry) -> Any:
        try:
            return convert(entry)
        except QuantityError as fault:
            raise ValueError(str(fault)) from None

    return GetPydanticSchema(
        lambda _, handler: core_schema.no_info_after_validator_function(
            checked, handler.generate_schema(Entry)
        )
    )


def _of(dimension: Dimension) -> GetPydanticSchema:
    return _read_as(lambda entry: entry.belief_as(dimension))


def _in_minutes(entry: Entry) -> Known | Estimate:
    """Minutes where the unit is one of time; a rate per metre has its unit in its name."""
    if not entry.unit:
        return entry.belief_as(Dimension.COUNT)
    return scaled(entry.belief_as(Dimension.TIME), 1 / 60)


Quantity = Annotated[Known | Estimate, _read_as(lambda entry: entry.belief)]
Length = Annotated[Known | Estimate, _of(Dimension.LENGTH)]
Angle = Annotated[Known | Estimate, _of(Dimension.ANGLE)]
Slope = Annotated[Known | Estimate, _of(Dimension.SLOPE)]
Flow = Annotated[Known | Estimate, _of(Dimension.FLOW)]
Force = Annotated[Known | Estimate, _of(Dimension.FORCE)]
Mass = Annotated[Known | Estimate, _of(Dimension.MASS)]
Stiffness = Annotated[Known | Estimate, _of(Dimension.STIFFNESS)]
Modulus = Annotated[Known | Estimate, _of(Dimension.MODULUS)]
Density = Annotated[Known | Estimate, _of(Dimension.DENSITY)]
Share = Annotated[Known | Estimate, _of(Dimension.SHARE)]
Count = Annotated[Known | Estimate, _of(Dimension.COUNT)]
Cost = Annotated[Known | Estimate, _read_as(_in_minutes)]
Minutes = Annotated[Estimate, _read_as(lambda entry: as_estimate(_in_minutes(entry)))]


def one_of(*names: str) -> AfterValidator:
    """A word of a fixed set, refused with the nearest one; to the type checker it is plain text."""

    def known(text: str) -> str:
        if text not in names:
            raise ValueError(f"got {text!r}{nearest(text, list(names))}")
        return text

    return AfterValidator(known)


def _year(text: Any) -> Any:
    if isinstance(text, str) and not (text.isascii() and text.isdigit() and len(text) == 4):
        raise ValueError(f"got {text!r}; expected a year such as 1958")
    return text


Year = Annotated[int, BeforeValidator(_year)]


class TableFile(Row):
    """The top of a table file.

    A number without a grade and source of its own takes those of the nearest record around it.
    """

    @model_validator(mode="before")
    @classmethod
    def _hand_down(cls, data: Any) -> Any:
        return _handed_down(data, {})


def _handed_down(data: Any, above: dict[str, Any]) -> Any:
    if isinstance(data, list):
        return [_handed_down(item, above) if isinstance(item, (dict, list)) else item for item in data]
    if not isinstance(data, dict):
        return data
    if "value" in data:
        return data if "grade" in data or "source" in data else {**data, **above}
    if "grade" in data and "source" in data:
        above = {"grade": data["grade"], "source": data["source"]}
    return {
        key: _handed_down(value, above) if isinstance(value, (dict, list)) else value
        for key, value in data.items()
    }


def _flag(text: str) -> bool:
    if text not in ("yes", "no"):
        raise ValueError(f"got {text!r}; expected yes or no")
    return text == "yes"


YesNo = Annotated[
    bool,
    GetPydanticSchema(
        lambda _, handler: core_schema.no_info_after_validator_function(_flag, handler.generate_schema(str))
    ),
]


class Kind(Row):
    """A row known by the name it stands under."""

    name: str


def _with_names(data: Any) -> Any:
    if not isinstance(data, dict):
        return data
    for key, row in data.items():
        if isinstance(row, dict) and "name" in row:
            raise ValueError(f"{key!r} has a name of its own; its name is the one it stands under")
    return {key: {**row, "name": key} if isinstance(row, dict) else row for key, row in data.items()}


by_name = BeforeValidator(_with_names)
