"""Every technique against every trouble (rules/technique/matrix.yaml): worth trying, or not and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pydantic import BaseModel, ConfigDict

from advisor.errors import BadInput, Fault
from advisor.evidence import Grade
from advisor.strict_yaml import Sheet, read_sheet
from advisor.strict_yaml.model import nearest

if TYPE_CHECKING:
    from advisor.rulebase.load import RuleBase


@dataclass(frozen=True)
class Cell:
    """Whether a technique may be tried against a trouble, and why (not).

    `harms`: it is not only vain there, it can cost head, rod or pipe.
    """

    allowed: bool
    why: str
    harms: bool = False


@dataclass(frozen=True)
class Matrix:
    """The names of techniques and troubles with their meaning, and one cell for each pair."""

    techniques: Mapping[str, str]
    troubles: Mapping[str, str]
    cells: Mapping[tuple[str, str], Cell]

    def allowed(self, trouble: str) -> tuple[str, ...]:
        """The techniques that may be tried against a trouble, in the order of the file."""
        return tuple(name for name in self.techniques if self.cells[name, trouble].allowed)


@dataclass(frozen=True)
class Coverage:
    """What the rules say of each technique and each trouble."""

    matrix: Matrix
    explained: Mapping[str, tuple[str, ...]]  # trouble -> difficulty rules
    judged: Mapping[str, tuple[str, ...]]  # technique -> technique rules

    @property
    def gaps(self) -> tuple[str, ...]:
        """What nobody has written yet, in words; empty when the rule base is whole."""
        return (
            *(f"no rule explains {name!r}" for name, ids in self.explained.items() if not ids),
            *(f"no rule speaks of {name!r}" for name, ids in self.judged.items() if not ids),
            *(
                f"nothing may be tried against {name!r}"
                for name in self.matrix.troubles
                if not self.matrix.allowed(name)
            ),
        )


class _CellEntry(BaseModel):
    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True)
    allowed: str | None = None
    rejected: str | None = None
    harms: bool = False


class _MatrixFile(BaseModel):
    model_config = ConfigDict(defer_build=True, extra="forbid", frozen=True)
    source: dict[Grade, str]
    techniques: dict[str, str]
    troubles: dict[str, str]
    cells: dict[str, dict[str, _CellEntry]]


def load_matrix(path: Path, source_ids: frozenset[str]) -> Matrix:
    """The matrix; raises BadInput with every unknown name and every pair without exactly one cell."""
    sheet = read_sheet(path, _MatrixFile)
    entry = sheet.model
    faults = [
        sheet.fault(f"unknown source {source!r}{nearest(source, list(source_ids))}", "source", grade)
        for grade, source in entry.source.items()
        if source not in source_ids
    ]
    cells: dict[tuple[str, str], Cell] = {}
    for technique, row in entry.cells.items():
        if technique not in entry.techniques:
            hint = nearest(technique, list(entry.techniques))
            faults.append(sheet.fault(f"unknown technique {technique!r}{hint}", "cells", technique))
        for trouble, cell in row.items():
            place = ("cells", technique, trouble)
            if trouble not in entry.troubles:
                hint = nearest(trouble, list(entry.troubles))
                faults.append(sheet.fault(f"unknown trouble {trouble!r}{hint}", *place))
            if (cell.allowed is None) == (cell.rejected is None):
                faults.append(sheet.fault(f"{trouble}: expected either allowed or rejected", *place))
            if cell.harms and cell.rejected is None:
                faults.append(sheet.fault(f"{trouble}: only what is rejected may harm", *place))
            allowed, why = cell.allowed is not None, cell.allowed or cell.rejected or ""
            cells[technique, trouble] = Cell(allowed, why, cell.harms)
    faults.extend(_empty(sheet, cells))
    if faults:
        raise BadInput(faults)
    return Matrix(entry.techniques, entry.troubles, cells)


def _empty(sheet: Sheet[_MatrixFile], cells: Mapping[tuple[str, str], Cell]) -> list[Fault]:
    return [
        sheet.fault(f"{technique!r} has no cell for {trouble!r}", "cells", technique)
        for technique in sheet.model.techniques
        for trouble in sheet.model.troubles
        if (technique, trouble) not in cells
    ]


def coverage(base: RuleBase) -> Coverage:
    """The matrix with the rules that stand behind each of its names."""
    explained: dict[str, list[str]] = {name: [] for name in base.matrix.troubles}
    judged: dict[str, list[str]] = {name: [] for name in base.matrix.techniques}
    for rule in base.all_rules:
        for trouble in rule.conclusion.troubles:
            explained[trouble].append(rule.id)
        for technique in {**rule.conclusion.techniques, **rule.conclusion.steps}:
            judged[technique].append(rule.id)
    return Coverage(
        base.matrix,
        {name: tuple(ids) for name, ids in explained.items()},
        {name: tuple(ids) for name, ids in judged.items()},
    )
