"""What is remembered of earlier jobs here, machine runs among it; the log of a push tells a run alike."""

from __future__ import annotations

import re
from datetime import date
from typing import Annotated, Literal, get_args

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from advisor.site.fields import Length, MaybeName, YesNo, or_unknown

CameBack = Literal["roots", "grease", "scale", "soil or pipe", "kinked cable"]
CAME_BACK: tuple[CameBack, ...] = get_args(CameBack)
BROKEN: CameBack = "soil or pipe"  # then the pipe may be
KINKED: CameBack = "kinked cable"  # then something held its end hard


def told_day(value: str) -> str:
    """A day, or as much of one as is remembered."""
    text = value.strip()
    found = re.fullmatch(r"(20\d\d|19\d\d)(-\d\d)?(-\d\d)?", text, re.ASCII)
    try:
        date(*(int(part) for part in (text + "-01-01").split("-")[:3]) if found else (0, 0, 0))
    except ValueError:
        raise ValueError(f"got {value!r}; expected a day such as 2026-05-03, a month or a year") from None
    return text


def still_to_come(day: str, today: date) -> str | None:
    """What is wrong with a day, month or year that is ahead of today; a clock may be wrong, so it is told."""
    now = today.isoformat()
    return f"{day} is still to come: by this computer it is {now}" if day > now[: len(day)] else None


def _runs(value: object) -> object:
    """One alone may stand without being a list."""
    return [value] if isinstance(value, dict) else value


class MachineRun(BaseModel):
    """A cutter, a descaler or a jet that was run: when (nothing where nobody knows), from which opening, how
    far in, what came back."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    on: Annotated[Annotated[str, AfterValidator(told_day)] | None, BeforeValidator(or_unknown)] = None
    to: Length
    in_at: MaybeName = Field(default=None, alias="in at")
    came_back: tuple[CameBack, ...] = Field(default=(), alias="came back")

    @property
    def when(self) -> str:
        """ "on" its day, "in" the month or year of which no more is remembered; "" where nobody knows."""
        if self.on is None:
            return ""
        return f"{'on' if self.on.count('-') == 2 else 'in'} {self.on}"


class History(BaseModel):
    """What is remembered of earlier jobs here."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")

    came_back: tuple[CameBack, ...] = Field(default=(), alias="came back")
    machine_runs: Annotated[tuple[MachineRun, ...], BeforeValidator(_runs)] = Field(
        default=(), alias="machine runs"
    )
    worse_on: tuple[Literal["rain", "laundry days"], ...] = Field(default=(), alias="worse on")
    tool_lost: YesNo = Field(default=None, alias="tool lost")
    asked: tuple[Literal["earlier jobs", "machines"], ...] = ()  # and answered: it need not be asked again

    @property
    def brought(self) -> tuple[CameBack, ...]:
        """Everything that is told to have come back, by whatever means, each once."""
        by_machine = (each for run in self.machine_runs for each in run.came_back)
        return tuple(dict.fromkeys((*self.came_back, *by_machine)))

    @property
    def last_run(self) -> MachineRun | None:
        """The latest machine run; one of which nobody knows when only where there is no other."""
        return max(self.machine_runs, key=lambda run: run.on or "", default=None)
