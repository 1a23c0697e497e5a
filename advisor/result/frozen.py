"""What every part of the plan is: frozen, with no field beyond its own."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Frozen(BaseModel):
    """A part of the plan."""

    model_config = ConfigDict(defer_build=True, frozen=True, extra="forbid")
