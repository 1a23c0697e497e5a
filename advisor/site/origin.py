"""Where a site lies: the point that plan positions are measured from, and its latitude and longitude."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict, model_validator

from advisor.errors import Fault
from advisor.site.fields import Name
from advisor.site.pieces import FixtureEntry, OpeningEntry
from advisor.strict_yaml import Sheet
from advisor.strict_yaml.model import nearest

if TYPE_CHECKING:
    from advisor.site.sheet import SiteSheet


def _degrees(most: float, example: str) -> BeforeValidator:
    def read(value: object) -> float:
        number = re.fullmatch(r"(-?\d{1,3}(?:\.\d+)?) deg", str(value).strip(), re.ASCII)
        if number is None or abs(float(number[1])) > most:
            raise ValueError(f"got {value!r}; expected decimal degrees within {most:g}, such as {example}")
        return float(number[1])

    return BeforeValidator(read)


class Origin(BaseModel):
    """The opening or landmark that plan positions are measured from; degrees are WGS 84."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    at: Name
    latitude: Annotated[float | None, _degrees(89, "48.2104 deg")] = None
    longitude: Annotated[float | None, _degrees(180, "-16.3725 deg")] = None

    @model_validator(mode="after")
    def _both(self) -> Origin:
        if (self.latitude is None) != (self.longitude is None):
            raise ValueError("origin: expected latitude and longitude, or neither")
        return self


def origin_faults(sheet: Sheet[SiteSheet]) -> Iterator[Fault]:
    """The origin must stand on the sheet, once."""
    origin = sheet.model.origin
    if origin is None:
        return
    names = [name for line in sheet.model.lines for piece in line.pieces for name in _names(piece)]
    if origin.at not in names:
        message = f"no opening or landmark is called {origin.at!r}{nearest(origin.at, sorted(set(names)))}"
        yield sheet.fault(message, "origin", "at")
    elif names.count(origin.at) > 1:
        message = f"{names.count(origin.at)} are called {origin.at!r}; expected one of that name"
        yield sheet.fault(message, "origin", "at")


def _names(piece: object) -> set[str]:
    """What a piece goes by as a place."""
    own = getattr(piece, "opening", None) if isinstance(piece, OpeningEntry) else None
    if isinstance(piece, FixtureEntry):
        own = piece.label or piece.fixture
    return {name for name in (own, getattr(piece, "landmark", None)) if name}
