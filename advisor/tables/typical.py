"""What is taken where a sheet leaves a value out, and what a complaint's signs are worth."""

from __future__ import annotations

from pydantic import Field

from advisor.quantity import Known
from advisor.tables.entry import Length, Share, TableFile, as_estimate
from advisor.tables.materials import Place
from advisor.tables.regions import Region


class TypicalFile(TableFile):
    """rules/tables/typical.yaml."""

    sizes: dict[Region, dict[Place, Length]]
    lengths: dict[str, Length]

    def size(self, region: Region, place: Place) -> Known:
        """The usual nominal size in m."""
        size = as_estimate(self.sizes[region][place])
        return Known(size.likely, size.evidence)


class SignsFile(TableFile):
    """rules/tables/signs.yaml: chances of a sign, and metres of plain pipe that a trouble counts for."""

    signs: dict[str, Share]
    trouble_metres: dict[str, Length] = Field(alias="trouble metres")
