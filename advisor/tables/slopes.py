"""The least slope a code asks of a drain: what is assumed where nobody measured."""

from __future__ import annotations

from pydantic import model_validator

from advisor.quantity import Known
from advisor.tables.entry import Length, Row, Slope, TableFile, as_estimate
from advisor.tables.regions import REGIONS, Region


class SlopeRow(Row):
    """The least slope for sizes up to and including `up_to`; without it, for every larger size."""

    up_to: Length | None = None
    slope: Slope


class SlopesFile(TableFile):
    """rules/tables/slopes.yaml."""

    minimum: dict[Region, tuple[SlopeRow, ...]]

    @model_validator(mode="after")
    def _complete(self) -> SlopesFile:
        for region in REGIONS:
            rows = self.minimum.get(region, ())
            sizes = [as_estimate(row.up_to).likely for row in rows if row.up_to is not None]
            if not rows or rows[-1].up_to is not None or sizes != sorted(set(sizes)):
                raise ValueError(f"{region}: expected rising sizes and a last row without `up_to`")
            if len(sizes) != len(rows) - 1:
                raise ValueError(f"{region}: only the last row goes without `up_to`")
        return self

    def minimum_slope(self, region: Region, nominal: float) -> Known:
        """The least slope (rise over run) for a nominal size in m."""
        for row in self.minimum[region]:
            if row.up_to is None or nominal <= as_estimate(row.up_to).likely * 1.001:
                slope = as_estimate(row.slope)
                return Known(slope.likely, slope.evidence)
        raise AssertionError("the last row takes every size")
