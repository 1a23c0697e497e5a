"""Openings: how a rod gets into a drain, what it costs to open them, and what may go wrong."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import BeforeValidator

from advisor.tables.entry import (
    Angle,
    Count,
    Graded,
    Kind,
    Length,
    Minutes,
    Share,
    TableFile,
    by_name,
)
from advisor.tables.regions import Region


def _bore(data: object) -> object:
    if isinstance(data, str) and data not in ("own", "line"):
        raise ValueError(f"got {data!r}; expected own, line or a length")
    return data


_CHANNEL = "open channel"  # the entry of a chamber


class EntryStep(Kind, Graded):
    """One thing the head meets between hand and line.

    `bore` is that of the opening itself (`own`), of the line it opens, or a length; `to` is the
    direction of travel in which it is met. What is `upright` goes straight down: it counts on the counter,
    and not along the line.
    """

    kind: str
    angle: Angle
    shape: Literal["sweep", "square", "open"]
    radius_bores: Count
    bore: Annotated[Literal["own", "line"], BeforeValidator(_bore)] | Length
    length: Length
    to: Literal["down", "up", "both"]
    upright: bool = False


class _OpeningBase(Kind, Graded):
    words: dict[Region, str]
    reaches: tuple[Literal["up", "down"], ...]
    place: Literal["floor", "wall", "roof", "yard", "pit", "fixture"]
    open_minutes: Minutes
    close_minutes: Minutes
    opens_share: Share
    hazards: tuple[str, ...] = ()
    bring: tuple[str, ...] = ()
    first: tuple[str, ...] = ()
    looked_into_open: bool = False
    tells_way: bool = False
    in_a_chamber: bool = False
    perhaps_in_the_floor: bool = False
    machine_past: bool = False


class OpeningRow(_OpeningBase):
    """An opening as its file has it: its entry is named steps."""

    entry: tuple[str, ...] = ()


class OpeningKind(_OpeningBase):
    """A kind of opening; one that reaches nowhere is no opening for a rod.

    `open_minutes` and `close_minutes` are in minutes; `opens_share` is the chance that it opens at
    all without damage; `first` is what must be done before it can be used. Nobody sees the water in what is
    `looked_into_open` with its cover on. Who told a kind that `tells_way` told where its throat leads.
    What is `in_a_chamber` is nowhere without one. What lies in a pit or `perhaps_in_the_floor` does not tell
    by its kind which. A machine may be run in `machine_past` what has to come off for a head: through a trap
    or a bowl.
    """

    entry: tuple[EntryStep, ...] = ()

    @property
    def usable(self) -> bool:
        """False where a rod cannot get in here, whatever is tried."""
        return bool(self.reaches)

    @property
    def in_pit(self) -> bool | None:
        """Whether it lies in a pit; None where nothing tells."""
        return None if self.perhaps_in_the_floor else self.place == "pit"

    @property
    def place_words(self) -> str:
        """The kind of place; both where nothing tells which."""
        return f"{self.place} or floor" if self.perhaps_in_the_floor else self.place

    @property
    def open_channel(self) -> bool:
        """Whether the lens comes out of the pipe into an open channel there: a chamber."""
        return any(step.kind == _CHANNEL for step in self.entry)


class EntryStepsFile(TableFile):
    """rules/tables/entry_steps.yaml."""

    steps: Annotated[dict[str, EntryStep], by_name]


class OpeningHazardsFile(TableFile):
    """rules/words/opening_hazards.yaml."""

    hazards: dict[str, str]


class OpeningsFile(TableFile):
    """rules/tables/openings.yaml."""

    openings: Annotated[dict[str, OpeningRow], by_name]

    def kinds(self, steps: Mapping[str, EntryStep]) -> dict[str, OpeningKind]:
        """Every kind of opening by its name, its steps written out."""
        return {
            row.name: OpeningKind.model_construct(
                **{**dict(row), "entry": tuple(steps[name] for name in row.entry)}
            )
            for row in self.openings.values()
        }
