"""The entries of a line on a site sheet, one class for each kind of piece.

A line is listed from its upper end to its lower end: the order is the direction of flow. Text with
units is parsed here, at the edge; everything that leaves is SI.
"""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, Tag, model_validator

from advisor.site.fields import (
    Angle,
    Distance,
    Heading,
    Length,
    Likelihood,
    Listed,
    ListedName,
    MaybeName,
    Name,
    Roll,
    Size,
    Slope,
    Water,
    YesNo,
    closed,
)


class Entry(BaseModel):
    """What every piece may carry: where it is, what marks it, which way the water runs from it, a remark."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid", populate_by_name=False)

    at: Distance = None
    landmark: MaybeName = None
    note: MaybeName = None
    name: MaybeName = None
    heading: Heading = None

    @model_validator(mode="before")
    @classmethod
    def _one_kind(cls, value: Any) -> Any:
        if isinstance(value, dict):
            own = {field.alias or name for name, field in cls.model_fields.items()}
            kinds = [key for key in value if key in KEYS and (KEYS[key] is cls or key not in own)]
            if len(kinds) > 1:
                first, other = kinds[:2]
                raise ValueError(f"`{first}` and `{other}` in one piece; expected `- {other}:` on its own")
        return value


class OpeningEntry(Entry):
    """A place where the rod can go in."""

    opening: Name
    kind: Listed = None
    size: Size = None
    water: Water = None
    buried: YesNo = None
    depth: Length = None
    there: Likelihood = None
    opens: YesNo = None
    crawl: YesNo = None  # whether somebody has to crawl to it
    cellar: YesNo = None  # whether it lies in one: a low room, in which nobody crawls unless it says so
    ground: Literal["neighbour"] | None = None  # whose it lies on, where not the owner's


class PipeEntry(Entry):
    """A straight run at the line's slope."""

    pipe: Length


class DropEntry(Entry):
    """A vertical run, downward with the flow."""

    drop: Length


class RiseEntry(Entry):
    """A vertical run that is pumped upward."""

    rise: Length


class BendEntry(Entry):
    """A change of direction; one that is not `there` was only assumed, and its place is plain pipe."""

    bend: Listed
    there: YesNo = None
    angle: Angle = None
    roll: Roll = None


class JunctionEntry(Entry):
    """Where another line joins this one."""

    joined_by: Name = Field(alias="joined by")
    fitting: Listed = None
    side: Literal["left", "right", "top"] | None = None
    lies: Literal["on its back", "on its side", "upright"] | None = None
    upside_down: YesNo = Field(default=None, alias="upside down")
    drawn: YesNo = None


class FixtureEntry(Entry):
    """A fixture: at the top of a line its start, further down a short arm that joins here."""

    fixture: Name
    label: MaybeName = None
    fitting: Listed = None
    trap: Literal["in wall", "in floor"] | None = None
    size: Size = None
    arm: Length = None
    side: Literal["left", "right", "top"] | None = None
    water: Water = None


class Change(BaseModel):
    """What is different from here on."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    kind: Literal["drain", "sewer"] | None = None
    size: Size = None
    material: Listed = None
    condition: Listed = None
    slope: Slope = None

    @model_validator(mode="after")
    def _something(self) -> Change:
        if not self.model_fields_set:
            raise ValueError("change: nothing is in it; expected size, material, condition, slope or kind")
        return self


class ChangeEntry(Entry):
    """From here on the pipe is of another size, material, condition or slope."""

    change: Change


class BellyEntry(Entry):
    """A sag that holds water."""

    belly: Length


class JointEntry(Entry):
    """A displaced joint: a step in the wall."""

    joint: Literal["offset", "open", "cracked"]
    step: Length = None


class TrapEntry(Entry):
    """A trap in the line itself."""

    trap: ListedName


class ValveEntry(Entry):
    """A valve in the line."""

    valve: ListedName


class TankEntry(Entry):
    """A tank in the line: a grease tank, a septic tank, an ejector."""

    tank: ListedName


class CappedEntry(Entry):
    """The closed upper end of a dead leg."""

    capped: Annotated[bool | None, BeforeValidator(closed)]


class TiedEntry(Entry):
    """The upper end of this line is joined to another line (vents that meet, a loop)."""

    tied_to: Name = Field(alias="tied to")


class EndEntry(Entry):
    """Where the line ends: a public sewer, a soakaway, or out of the plan."""

    end: Name


KEYS: dict[str, type[Entry]] = {
    "opening": OpeningEntry,
    "joined by": JunctionEntry,
    "fixture": FixtureEntry,
    "pipe": PipeEntry,
    "bend": BendEntry,
    "drop": DropEntry,
    "rise": RiseEntry,
    "change": ChangeEntry,
    "belly": BellyEntry,
    "joint": JointEntry,
    "trap": TrapEntry,
    "valve": ValveEntry,
    "tank": TankEntry,
    "capped": CappedEntry,
    "tied to": TiedEntry,
    "end": EndEntry,
}


def _kind_of(value: Any) -> str | None:
    if isinstance(value, Entry):
        return next(key for key, kind in KEYS.items() if isinstance(value, kind))
    if isinstance(value, dict):
        # `trap` is also a remark on a fixture, so the order of KEYS decides.
        # An unknown first word is handed on, so that the fault can name it and the nearest known one.
        return next((key for key in KEYS if key in value), next(iter(value), None))
    return None


PieceEntry = Annotated[
    Annotated[OpeningEntry, Tag("opening")]
    | Annotated[JunctionEntry, Tag("joined by")]
    | Annotated[FixtureEntry, Tag("fixture")]
    | Annotated[PipeEntry, Tag("pipe")]
    | Annotated[BendEntry, Tag("bend")]
    | Annotated[DropEntry, Tag("drop")]
    | Annotated[RiseEntry, Tag("rise")]
    | Annotated[ChangeEntry, Tag("change")]
    | Annotated[BellyEntry, Tag("belly")]
    | Annotated[JointEntry, Tag("joint")]
    | Annotated[TrapEntry, Tag("trap")]
    | Annotated[ValveEntry, Tag("valve")]
    | Annotated[TankEntry, Tag("tank")]
    | Annotated[CappedEntry, Tag("capped")]
    | Annotated[TiedEntry, Tag("tied to")]
    | Annotated[EndEntry, Tag("end")],
    Discriminator(_kind_of),
]
