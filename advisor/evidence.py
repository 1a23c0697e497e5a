"""Where a value comes from and how far to trust it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Grade(StrEnum):
    """How a value was come by, strongest first."""

    TOLD = "told"  # the user wrote it on a sheet or answered it
    READ = "read"  # read in a text
    COMPUTED = "computed"  # worked out from other values or fitted to data
    PRACTICE = "practice"  # common practice, no source
    MEMORY = "memory"  # from memory, unchecked
    JUDGEMENT = "judgement"  # our own planning value

    @property
    def weak(self) -> bool:
        """True where nobody outside the project has been seen to say so."""
        return self in (Grade.MEMORY, Grade.JUDGEMENT)

    @property
    def words(self) -> str:
        """The grade as a reader sees it."""
        return _WORDS[self]


_WORDS = {
    Grade.TOLD: "as written on the sheet",
    Grade.READ: "from a published text",
    Grade.COMPUTED: "computed",
    Grade.PRACTICE: "common practice, no source",
    Grade.MEMORY: "from memory, unchecked",
    Grade.JUDGEMENT: "our judgement, no source",
}


@dataclass(frozen=True)
class Evidence:
    """The grade of a value, the id of its source in rules/sources.yaml, and a remark."""

    grade: Grade
    source: str = ""
    note: str = ""


@dataclass(frozen=True)
class Source:
    """One entry of rules/sources.yaml."""

    id: str
    title: str
    where: str = ""
    note: str = ""


TOLD = Evidence(Grade.TOLD)
ASSUMED = Evidence(Grade.JUDGEMENT, "own", "assumed on the sheet")  # nobody saw it
