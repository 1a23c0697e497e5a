"""The constants of junction mechanics, from the table that the fits are kept in."""

from __future__ import annotations

from dataclasses import fields
from typing import Annotated, Any

from pydantic import BeforeValidator, RootModel, model_validator

from advisor.mechanics.junction_constants import JunctionConstants
from advisor.quantity import Dimension
from advisor.strict_yaml.model import nearest
from advisor.tables.entry import Graded, number

_NAMES = tuple(field.name for field in fields(JunctionConstants))


def _bare(text: Any) -> Any:
    # Fitted constants may be negative; their units (logit, rad per e-fold) are remarks, not conversions.
    if not isinstance(text, str):
        return text
    sign, digits = (-1.0, text[1:]) if text.startswith("-") else (1.0, text)
    try:
        return sign * number(digits, Dimension.COUNT)
    except Exception as fault:
        raise ValueError(str(fault)) from None


_Number = Annotated[float, BeforeValidator(_bare)]


class ConstantRow(Graded):
    """One fitted constant with its span; the unit is a remark."""

    value: _Number
    low: _Number
    high: _Number
    unit: str = ""

    @model_validator(mode="after")
    def _in_order(self) -> ConstantRow:
        if not self.low <= self.value <= self.high:
            raise ValueError("low, value and high are not in this order")
        return self


class ConstantsFile(RootModel[dict[str, ConstantRow]]):
    """rules/tables/junction.yaml."""

    @model_validator(mode="after")
    def _every_name(self) -> ConstantsFile:
        wrong = [f"unknown constant {n!r}{nearest(n, list(_NAMES))}" for n in self.root if n not in _NAMES]
        wrong += [f"{name!r} is missing" for name in _NAMES if name not in self.root]
        if wrong:
            raise ValueError("; ".join(wrong))
        return self

    def constants(self) -> JunctionConstants:
        """The likely values."""
        return JunctionConstants(**{name: row.value for name, row in self.root.items()})
