"""The kinds of value on a sheet: text with a unit, a name, yes or no. Each is read to SI at this edge."""

from __future__ import annotations

from math import pi
from typing import Annotated, Any, Literal, TypeVar

from pydantic import AfterValidator, BeforeValidator, ValidationInfo

from advisor.errors import QuantityError
from advisor.quantity import Dimension, Stated, Units, parse, parse_stated, without_assumed

LONGEST_NAME = 80
SMALLEST_PIPE, LARGEST_PIPE = 0.015, 1.0  # m: outside this a nominal size is a slip of the pen
A_SIZE = {Units.INCH: "4 in", Units.METRIC: "100 mm", None: "4 in or 100 mm"}  # as an example


def stated(dimension: Dimension) -> BeforeValidator:
    """A pydantic step that turns text with a unit into SI; `unknown` and `?` become nothing.

    Its context are the units of the job, in which an example is given; without it in both.
    """

    def read(value: Any, info: ValidationInfo) -> Any:
        if not isinstance(value, str):
            raise ValueError(f"expected a {dimension.value} with its unit")
        if value.strip().lower() in ("unknown", "?"):
            return None
        try:
            return parse_stated(value, dimension, info.context)
        except QuantityError as fault:
            raise ValueError(str(fault)) from None

    return BeforeValidator(read)


def positive(value: Stated | None) -> Stated | None:
    """A pydantic step that refuses nothing and less."""
    if value is not None and value.low <= 0:
        raise ValueError("it must be more than nothing")
    return value


def within(low: float, high: float, what: str) -> AfterValidator:
    """A pydantic step that refuses a slip of the pen, such as m for mm; `low` and `high` in SI."""

    def check(value: Stated | None) -> Stated | None:
        if value is not None and not low <= value.likely <= high:
            raise ValueError(f"no {what} has that size")
        return value

    return AfterValidator(check)


def _one_pipe(value: Stated | None, info: ValidationInfo) -> Stated | None:
    example = A_SIZE[info.context]
    if value is not None and value.low != value.high:
        raise ValueError(f"it is a range; expected one nominal size such as {example}, or unknown")
    if value is not None and not SMALLEST_PIPE <= value.likely <= LARGEST_PIPE:
        raise ValueError(f"no drain has that size; expected a nominal size such as {example}")
    return value


def _half_turn(value: Stated | None) -> Stated | None:
    if value is not None and value.high > pi:
        raise ValueError("it is more than a half turn; expected an angle such as 45 deg")
    return value


def _one_heading(value: Stated | None) -> Stated | None:
    if value is not None and (value.low != value.high or not 0 <= value.likely <= 2 * pi):
        raise ValueError("expected one angle from true north, clockwise, such as 90 deg for east, or unknown")
    return value


Many = TypeVar("Many", bound=tuple[Any, ...])


def at_least_one(value: Many) -> Many:
    """A pydantic step that refuses an empty list."""
    if not value:
        raise ValueError("the list is empty; expected at least one")
    return value


def _short(value: str) -> str:
    text = " ".join(value.split())
    if not text:
        raise ValueError("it is empty; expected a name")
    if len(text) > LONGEST_NAME:
        raise ValueError(f"it is longer than {LONGEST_NAME} letters")
    return text


def _yes_no(value: Any) -> Any:
    words = {"yes": True, "true": True, "no": False, "false": False, "unknown": None, "?": None}
    if not isinstance(value, str) or value.strip().lower() not in words:
        raise ValueError(f"got {value!r}; expected yes, no or unknown")
    return words[value.strip().lower()]


def _yes_no_share(value: Any) -> Any:
    """Yes is 1, no is 0, and a share stands between them."""
    try:
        told = _yes_no(value)
    except ValueError:
        try:
            share = parse(value, Dimension.SHARE) if isinstance(value, str) else -1.0
        except QuantityError:
            share = -1.0
        if not 0 <= share <= 1:
            raise ValueError(f"got {value!r}; expected yes, no, a share such as 50 %, or unknown") from None
        return share
    return None if told is None else float(told)


def closed(value: Any) -> bool:
    """A pydantic step for `capped`, which can only be yes."""
    if _yes_no(value) is not True:
        raise ValueError(f"got {value!r}; expected yes, or no such piece where the end is not closed")
    return True


class AssumedName(str):
    """A name out of a table that stands on the sheet as `assumed ...`: nobody saw it."""

    __slots__ = ()


def _seen_or_assumed(value: str | None) -> str | None:
    if value is None:
        return None
    name, assumed = without_assumed(value)
    if assumed and name.lower() in ("", "unknown", "?"):
        raise ValueError(f"got {value!r}; expected a name after `assumed`, or unknown alone")
    return AssumedName(name) if assumed else name


def or_unknown(value: Any) -> Any:
    """A pydantic step: `unknown` and `?` become nothing."""
    return None if isinstance(value, str) and value.strip().lower() in ("unknown", "?") else value


Length = Annotated[Stated | None, stated(Dimension.LENGTH), AfterValidator(positive)]
Size = Annotated[Stated | None, stated(Dimension.LENGTH), AfterValidator(_one_pipe)]
Distance = Annotated[Stated | None, stated(Dimension.LENGTH)]
Slope = Annotated[Stated | None, stated(Dimension.SLOPE)]
Angle = Annotated[
    Stated | None, stated(Dimension.ANGLE), AfterValidator(positive), AfterValidator(_half_turn)
]
Heading = Annotated[Stated | None, stated(Dimension.ANGLE), AfterValidator(_one_heading)]
Roll = Annotated[Stated | None, stated(Dimension.ANGLE)]
Name = Annotated[str, AfterValidator(_short)]
MaybeName = Annotated[Annotated[str, AfterValidator(_short)] | None, BeforeValidator(or_unknown)]
ListedName = Annotated[Name, AfterValidator(_seen_or_assumed)]  # a name that stands in a table
Listed = Annotated[MaybeName, AfterValidator(_seen_or_assumed)]
Likelihood = Annotated[float | None, BeforeValidator(_yes_no_share)]
YesNo = Annotated[bool | None, BeforeValidator(_yes_no)]
Water = Annotated[Literal["standing", "running", "dry"] | None, BeforeValidator(or_unknown)]
