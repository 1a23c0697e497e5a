"""What is usual when nobody knows: shares of names, by the year of building."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import Annotated, Any

from pydantic import GetPydanticSchema
from pydantic_core import core_schema

from advisor.errors import QuantityError
from advisor.evidence import Evidence
from advisor.quantity import Chances, Dimension
from advisor.tables.entry import number

_SLACK = 1e-6
_Shares = tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class Stock:
    """How old buildings are in a region: the share of them built before each year."""

    built_before: tuple[tuple[float, float], ...]

    def before(self, year: float) -> float:
        """The share of buildings built before a year, straight lines between those of the table."""
        points = self.built_before
        if year >= points[-1][0]:
            return 1.0
        for (year0, share0), (year1, share1) in pairwise(((points[0][0] - 40.0, 0.0), *points)):
            if year <= year1:
                return max(0.0, share0 + (share1 - share0) * (year - year0) / (year1 - year0))
        raise AssertionError("the years of a stock rise")


@dataclass(frozen=True)
class Steps:
    """Shares of names that change with the year of building, each good until a year."""

    rows: tuple[tuple[float, _Shares], ...]

    @property
    def names(self) -> set[str]:
        """Every name that may come out."""
        return {name for _, shares in self.rows for name, _ in shares}

    def chances(self, year: int | None, stock: Stock, evidence: Evidence) -> Chances:
        """The shares for one year, or averaged over the buildings of a region."""
        if year is not None:
            return Chances(next(shares for until, shares in self.rows if year < until), evidence)
        weighted, start = [], 0.0
        for until, shares in self.rows:
            end = stock.before(until)
            weighted.append((end - start, shares))
            start = end
        return Chances(mixed(weighted), evidence)


def mixed(weighted: Iterable[tuple[float, _Shares]]) -> _Shares:
    """One set of shares from several, each with its weight."""
    total: dict[str, float] = defaultdict(float)
    for weight, shares in weighted:
        for name, share in shares:
            total[name] += weight * share
    whole = sum(total.values())
    return tuple((name, share / whole) for name, share in total.items() if share > 0)


def _shares(data: dict[str, str]) -> _Shares:
    shares = tuple((name, number(text, Dimension.SHARE)) for name, text in data.items())
    total = sum(share for _, share in shares)
    if abs(total - 1) > _SLACK:
        raise ValueError(f"the shares add up to {total:.4g}; expected 1")
    return shares


def _steps(data: dict[str, dict[str, str]]) -> Steps:
    rows = []
    for key, shares in data.items():
        words = key.split()
        if key == "later":
            until = inf
        elif len(words) == 2 and words[0] == "until" and words[1].isdigit():
            until = float(words[1])
        else:
            raise ValueError(f"got {key!r}; expected `until 1960` or `later`")
        rows.append((until, _shares(shares)))
    years = [until for until, _ in rows]
    if not years or years != sorted(set(years)) or years[-1] != inf:
        raise ValueError("expected rising years `until ...` and then `later`")
    return Steps(tuple(rows))


def _stock(data: dict[str, str]) -> Stock:
    points = tuple((float(year), number(share, Dimension.SHARE)) for year, share in data.items())
    if len(points) < 2 or list(points) != sorted(points) or points[-1][1] != 1:
        raise ValueError("expected years and shares that rise to 1")
    return Stock(points)


def _read_as(raw: Any, convert: Callable[[Any], Any]) -> GetPydanticSchema:
    def checked(data: Any) -> Any:
        try:
            return convert(data)
        except QuantityError as fault:
            raise ValueError(str(fault)) from None

    return GetPydanticSchema(
        lambda _, handler: core_schema.no_info_after_validator_function(checked, handler.generate_schema(raw))
    )


YearShares = Annotated[Steps, _read_as(dict[str, dict[str, str]], _steps)]
BuildingStock = Annotated[Stock, _read_as(dict[str, str], _stock)]
PlainShares = Annotated[tuple[tuple[str, float], ...], _read_as(dict[str, str], _shares)]
