"""What if one value of a sheet were another: the same seed, planned again, and what changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from pydantic import BaseModel, ConfigDict

from advisor.errors import BadInput, QuantityError
from advisor.explain.met import chance_left
from advisor.explain.vary import replaced, value_at
from advisor.kit.loadouts import kit_of
from advisor.kit.sheet import KitSheet, kit_of_text
from advisor.outcome.memory import Memory
from advisor.plan import Case, plan
from advisor.quantity import Dimension, Units, parse, show, without_assumed
from advisor.result.build import verdict_words
from advisor.result.other_side import other_side_first
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.rulebase.load import RuleBase
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import Sheet, plain
from advisor.tables.load import Tables

HALVINGS = 7  # places the value from which the leader changes within 1 % of the way
_NUMBERS = (Dimension.LENGTH, Dimension.SLOPE, Dimension.FORCE, Dimension.STIFFNESS)


class Changed(BaseModel):
    """One opening before and after."""

    model_config = ConfigDict(frozen=True)

    opening: str
    rank_before: int | None
    rank_after: int | None
    chance_before: float
    chance_after: float
    minutes_before: float
    minutes_after: float


class WhatIf(BaseModel):
    """What another value would change."""

    model_config = ConfigDict(frozen=True)

    what: str
    verdict_before: str | None = None  # what stands before any camera, as `No camera yet: ...`
    verdict_after: str | None = None
    leader_before: str
    leader_after: str
    turns_at: str | None  # the value from which the leader changes
    changes: tuple[Changed, ...]


def varied(case: Case, kit_sheet: Sheet[KitSheet] | None, path: str, value: str, tables: Tables) -> Case:
    """The case with one value of its site or kit sheet replaced; raises BadInput."""
    try:
        text = replaced(plain(case.sheet.tree), path, value, case.sheet.file)
        return replace(case, sheet=site_of_text(text, f"{case.sheet.file} with {path}={value}", tables))
    except BadInput as site_fault:
        if kit_sheet is None or ("/" not in path and path not in plain(kit_sheet.tree)):
            raise
        try:
            text = replaced(plain(kit_sheet.tree), path, value, kit_sheet.file)
        except BadInput:
            raise site_fault from None
        return replace(case, kit=kit_of(kit_of_text(text, f"{kit_sheet.file} with {path}={value}"), tables))


def what_if(
    case: Case,
    kit_sheet: Sheet[KitSheet] | None,
    path: str,
    value: str,
    old: str | None,
    tables: Tables,
    base: RuleBase,
    found: tuple[FoundNote, ...] = (),
) -> WhatIf:
    """Plan with the value replaced and compare; `old` is the present value, for where the leader turns.

    What pushes `found` ends the same ways whatever that value is.
    """
    memory = Memory()

    def planned(one: Case) -> Study:
        return other_side_first(plan(one, tables, base, memory), found)

    def leads(text: str) -> str:
        return _leader(planned(varied(case, kit_sheet, path, text, tables)), found)

    before, after = planned(case), planned(varied(case, kit_sheet, path, value, tables))
    first, then = _leader(before, found), _leader(after, found)
    turns = None
    if first != then and old is not None:
        turns = _turning_point(old, value, first, leads, case.units)
    return WhatIf(
        what=f"{path} = {value}" + (f" instead of {old}" if old else ""),
        verdict_before=verdict_words(before),
        verdict_after=verdict_words(after),
        leader_before=first,
        leader_after=then,
        turns_at=turns,
        changes=_changes(before, after, found),
    )


def present(case: Case, kit_sheet: Sheet[KitSheet] | None, path: str) -> str | None:
    """The value that stands at `path` now, as written; nothing where it is left out."""
    try:
        return value_at(plain(case.sheet.tree), path, case.sheet.file)
    except BadInput as on_site:
        if kit_sheet is None:
            return None
        try:
            return value_at(plain(kit_sheet.tree), path, kit_sheet.file)
        except BadInput as in_kit:  # whichever was meant, its names are told
            raise BadInput([*on_site.faults, *in_kit.faults]) from None


def _turning_point(old: str, new: str, leader: str, leads: Callable[[str], str], units: Units) -> str | None:
    """By halving between the old and the new value, where both are numbers of one kind."""
    for dimension in _NUMBERS:
        try:
            low, high = (parse(without_assumed(text)[0], dimension) for text in (old, new))
        except QuantityError:
            continue
        unit = {"length": "m", "slope": "%", "force": "N", "stiffness": "N m2"}[dimension.value]
        scale = 100.0 if dimension is Dimension.SLOPE else 1.0
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            if leads(f"{middle * scale:.6f} {unit}") == leader:
                low = middle
            else:
                high = middle
        return show(high, dimension, units)
    return None


def _changes(before: Study, after: Study, met: Sequence[FoundNote]) -> tuple[Changed, ...]:
    def table(study: Study) -> dict[str, tuple[int, float, float]]:
        found: dict[str, tuple[int, float, float]] = {}
        for rank, each in enumerate(study.ranked, start=1):
            chance = chance_left(study, each.outcome, met)
            row = (rank, chance, float(each.outcome.walk.minutes.mean()))
            found.setdefault(each.outcome.route.opening.name, row)
        return found

    was, now = table(before), table(after)
    missing = (None, 0.0, 0.0)
    return tuple(
        Changed(
            opening=name,
            rank_before=was.get(name, missing)[0],
            rank_after=now.get(name, missing)[0],
            chance_before=was.get(name, missing)[1],
            chance_after=now.get(name, missing)[1],
            minutes_before=was.get(name, missing)[2],
            minutes_after=now.get(name, missing)[2],
        )
        for name in dict.fromkeys((*was, *now))
    )


def _leader(study: Study, met: Sequence[FoundNote] = ()) -> str:
    """The opening that comes first; none where the first hardly reaches it."""
    first = study.ranked[0].outcome if study.ranked else None
    reaches = first and chance_left(study, first, met) >= study.drawn.likely("least_chance")
    return first.route.opening.name if first and reaches else "none"
