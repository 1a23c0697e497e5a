"""Sound bores of the pipe that is sold under a nominal size."""

from __future__ import annotations

from math import log
from typing import Annotated, Literal, NamedTuple

from pydantic import BeforeValidator, model_validator

from advisor.errors import QuantityError
from advisor.evidence import Evidence
from advisor.quantity import Dimension, Estimate, Known
from advisor.tables.entry import Graded, Kind, Share, TableFile, as_estimate, by_name, number

COLUMNS = ("nominal", "outside", "wall", "bore", "low", "high")


class PipeSize(NamedTuple):
    """One row of a pipe table, in m; None where the table is silent."""

    nominal: float
    outside: float | None
    wall: float | None
    bore: float
    low: float | None
    high: float | None


class PipeFamily(Kind, Graded):
    """The sizes of one standard; grade and source hold for every row."""

    standard: str
    unit: Literal["in", "mm"]
    rows: tuple[tuple[str, str, str, str, str, str], ...]

    @model_validator(mode="after")
    def _readable(self) -> PipeFamily:
        try:
            for size in self.sizes:
                low, high = size.low or size.bore, size.high or size.bore
                if not low <= size.bore <= high:
                    raise ValueError(f"{self.name}: low, bore and high are not in this order")
        except QuantityError as fault:
            raise ValueError(f"{self.name}: {fault}") from None
        return self

    @property
    def sizes(self) -> tuple[PipeSize, ...]:
        """The rows in m."""
        return tuple(self._size(*row) for row in self.rows)

    def _size(self, nominal: str, outside: str, wall: str, bore: str, low: str, high: str) -> PipeSize:
        return PipeSize(
            self._length(nominal),
            self._length_or_none(outside),
            self._length_or_none(wall),
            self._length(bore),
            self._length_or_none(low),
            self._length_or_none(high),
        )

    def _length(self, text: str) -> float:
        return number(f"{text} {self.unit}", Dimension.LENGTH)

    def _length_or_none(self, text: str) -> float | None:
        return None if text == "-" else self._length(text)


def _columns(data: object) -> object:
    if data != list(COLUMNS):
        raise ValueError(f"expected the columns {', '.join(COLUMNS)}")
    return data


class PipesFile(TableFile):
    """rules/tables/pipes.yaml."""

    columns: Annotated[list[str], BeforeValidator(_columns)]
    nearest_within: Share
    otherwise: Share
    families: Annotated[dict[str, PipeFamily], by_name]

    def alike(self, one: float, other: float) -> bool:
        """Whether two sizes, m, are so near that they are called one pipe."""
        return abs(log(one / other)) <= log(1 + as_estimate(self.nearest_within).likely)

    def bore(self, families: tuple[str, ...], nominal: float) -> Known | Estimate:
        """The sound bore in m of the size nearest to `nominal` (m) in these families.

        Where several families, or two published numbers, meet in one size, the first family's bore is
        the likely one and the range takes in the others.
        """
        rows = [
            (abs(log(size.nominal / nominal)), size, self.families[name])
            for name in families
            for size in self.families[name].sizes
        ]
        if not any(self.alike(size.nominal, nominal) for _, size, _ in rows):
            share = as_estimate(self.otherwise)
            note = "no table row: taken as the nominal size"
            evidence = Evidence(share.evidence.grade, share.evidence.source, note)
            return Estimate(share.low * nominal, share.likely * nominal, share.high * nominal, evidence)
        wanted = min(rows, key=lambda row: row[0])[1].nominal
        met = [(size, family) for _, size, family in rows if size.nominal == wanted]
        likely, family = met[0][0].bore, met[0][1]
        low = min(size.low or size.bore for size, _ in met)
        high = max(size.high or size.bore for size, _ in met)
        if low == high:
            return Known(likely, family.evidence)
        return Estimate(low, likely, high, family.evidence)
