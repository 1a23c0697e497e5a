"""`rules/report/`: what is recommended for what was found, and what is told beside a mark."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, TypeVar

from pydantic import Field

from advisor.errors import BadInput, Fault
from advisor.quantity import Estimate, Known
from advisor.strict_yaml import Sheet, read_sheet
from advisor.tables.entry import Graded, Quantity, Row, TableFile, one_of
from advisor.tables.load import Tables
from advisor.tables.sources import unknown_sources
from advisor.tables.where import DepthRow, number

_FOLDER = "report"
LOCATE = "locate it first"  # instead of a spade, where nobody is sure of the place
DIG = ("dig here", "bring it up", "new cleanout here", LOCATE)  # what takes a spade, now or then
ADVICE = ("clean", "descale", "take out", "free it", "watch", "ask first", "stop", "look again", *DIG)
TOOLS = ("clean", "descale", "take out", "watch", "look again")  # what sends something into the pipe


class Advised(Graded):
    """What is recommended, in one or a few sentences."""

    advice: Annotated[str, one_of(*ADVICE)]
    says: str


class Found(Advised):
    """What is recommended for something in a pipe; where no scale grows on its wall that may be otherwise."""

    without_scale: Advised | None = Field(None, alias="where no scale grows")

    def on(self, scales: bool) -> Advised:
        """What is recommended on such a wall."""
        return self if scales or self.without_scale is None else self.without_scale


class FindRow(Found):
    """What is recommended where the operator wrote one of the words."""

    find: str
    words: tuple[str, ...]


class StopRow(Found):
    """What is recommended where a stop was told with this sign."""

    sign: str


class NoToolRow(Graded):
    """What is told, before its hazards, where the plan warns of a pipe with one of these."""

    says: str
    hazards: tuple[str, ...]


class FindsFile(Row):
    """finds.yaml."""

    finds: tuple[FindRow, ...]
    shut: tuple[Advised, ...]
    stopped: tuple[Advised, ...]
    held: tuple[StopRow, ...]
    nothing: tuple[Advised, ...]
    blind: tuple[str, ...]
    bears_no_tool: NoToolRow = Field(alias="bears no tool")


class MarkRow(Graded):
    """A sentence that stands beside a mark."""

    when: Annotated[str, one_of("always", "dig", "riser", "iron", "alone")]
    says: str


class MarkingFile(TableFile):
    """marking.yaml."""

    marks: tuple[MarkRow, ...]
    same_place: Quantity  # m
    broad: Quantity  # m
    digs_from: Quantity = Field(alias="digs from")  # a chance


M = TypeVar("M", FindsFile, MarkingFile)


@dataclass(frozen=True)
class Advice:
    """What the rules say of finds and marks."""

    finds: FindsFile
    marking: MarkingFile
    depth: DepthRow

    @property
    def agree(self) -> float:
        """The share within which two depths are one."""
        return number(self.depth.agree)

    @property
    def same_place(self) -> float:
        """How far apart along the pipe, m, two finds or marks are of one place."""
        within: Known | Estimate = self.marking.same_place
        return within.likely

    @property
    def broad(self) -> float:
        """How long a range, m, is too long to dig in before the place is located."""
        return self.marking.broad.likely

    @property
    def digs_from(self) -> float:
        """The chance of the pipe below which nobody digs before the place is located."""
        return self.marking.digs_from.likely

    @property
    def rows(self) -> tuple[Graded, ...]:
        """Every sentence, for whoever lists what it rests on."""
        found = (*self.finds.finds, *self.finds.held)
        return (
            *found,
            *(row.without_scale for row in found if row.without_scale is not None),
            *self.finds.shut,
            *self.finds.stopped,
            *self.finds.nothing,
            self.finds.bears_no_tool,
            *self.marking.marks,
        )

    def for_find(self, what: str) -> FindRow | None:
        """The first row one of whose words stands in what the operator wrote; "no roots" is none."""
        return next((row for row in self.finds.finds if _one_stands(row.words, what)), None)

    def is_blind(self, what: str) -> bool:
        """True where the operator says that the picture showed nothing there."""
        return _one_stands(self.finds.blind, what)


def _one_stands(words: tuple[str, ...], text: str) -> bool:
    return any(_stands(word, text.lower()) for word in words)


def _stands(word: str, text: str) -> bool:
    """True where the word stands there as a word of its own and nobody denies it just before each time."""
    return any(
        not re.search(r"\b(no|not|without|never)\s+(\w+\s+){0,2}$", text[: found.start()])
        for found in re.finditer(rf"(?<!\w){re.escape(word)}(?!\w)", text)
    )


def read_advice(rules: Path, tables: Tables) -> Advice:
    """Read and check both files; raises BadInput with every fault at once."""
    folder = rules / _FOLDER
    finds = read_sheet(folder / "finds.yaml", FindsFile)
    marking = read_sheet(folder / "marking.yaml", MarkingFile)
    faults = [*_sources(finds, tables), *_sources(marking, tables)]
    if faults:
        raise BadInput(faults)
    return Advice(finds.model, marking.model, tables.where.depth)


def _sources(sheet: Sheet[M], tables: Tables) -> list[Fault]:
    return unknown_sources(sheet, list(tables.sources))
