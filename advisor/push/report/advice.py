"""`rules/report/`: what is recommended for what was found, and what is told beside a mark."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from pydantic import Field

from advisor.errors import BadInput
from advisor.quantity import Estimate, Known
from advisor.strict_yaml import read_sheet
from advisor.tables.entry import Graded, Quantity, TableFile, one_of
from advisor.tables.finds import FindsFile
from advisor.tables.load import Tables
from advisor.tables.sources import unknown_sources
from advisor.tables.where import DepthRow, number


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
            *self.finds.between,
            *self.finds.nothing,
            self.finds.after,
            self.finds.barred,
            self.finds.bears_no_tool,
            *self.marking.marks,
        )


def read_advice(rules: Path, tables: Tables) -> Advice:
    """What the tables say of finds, and the file of marks; raises BadInput with every fault at once."""
    marking = read_sheet(rules / "report/marking.yaml", MarkingFile)
    if faults := unknown_sources(marking, list(tables.sources)):
        raise BadInput(faults)
    return Advice(tables.finds, marking.model, tables.where.depth)
