"""What would change it: the smallest cures for a poor chance, each planned again.

Kept apart from the plan: these are other jobs (another head, a clean line, a new cleanout), with their own
cost, for the customer to decide.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from pydantic import BaseModel, ConfigDict

from advisor.errors import BadInput
from advisor.explain.met import met_on
from advisor.explain.vary import inserted, replaced
from advisor.kit.loadouts import default_kit
from advisor.kit.model import Kit, Loadout
from advisor.outcome.memory import Memory
from advisor.outcome.spot_facts import may_be_fragile, may_scale
from advisor.plan import Case, work_through
from advisor.result.other_side import other_side_first
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.rulebase.load import RuleBase
from advisor.site.network import Piece
from advisor.site.sheet import site_of_text
from advisor.strict_yaml import plain
from advisor.tables.load import Tables

_SCALE, _FLUSH = ("light scale", "moderate scale", "heavy scale"), "flush"
_DIRTY = {**dict.fromkeys(_SCALE, "descale"), "greasy": _FLUSH, "roots": "cut the roots"}


class Cure(BaseModel):
    """One change, with the chance and the minutes of the best order before and after."""

    model_config = ConfigDict(frozen=True)

    what: str
    chance_before: float
    chance_after: float
    minutes_after: float
    opening_after: str


@dataclass(frozen=True)
class _Candidate:
    what: str
    case: Case


def cures(
    case: Case,
    study: Study,
    tables: Tables,
    base: RuleBase,
    memory: Memory,
    tell: Callable[[int, int], None] = lambda _done, _of: None,
    found: tuple[FoundNote, ...] = (),
) -> tuple[Cure, ...]:
    """Every small change that raises the chance by a twentieth or more, the largest gain first.

    `memory` is the one that the study was worked out with: much of a job so changed is as it was.
    `tell` is called after each change with how many are looked at, of how many. What pushes `found` ends the
    same ways after any of them: an order that begins with one of these is worth nothing.
    """
    before = _chance(study, found)
    cured = []
    candidates = tuple(_candidates(case, study, tables))
    for number, candidate in enumerate(candidates, start=1):
        # Chance and minutes are asked for, no caution: those by the book are not needed.
        after = other_side_first(work_through(candidate.case, tables, base, memory), found)
        chance = _chance(after, found)
        if chance - before >= tables.limits["least_gain"].likely:
            first = after.settled.attempts[0].route.opening.name if after.settled.attempts else "none"
            cured.append(
                Cure(
                    what=candidate.what,
                    chance_before=before,
                    chance_after=chance,
                    minutes_after=after.settled.order.minutes,
                    opening_after=first,
                )
            )
        tell(number, len(candidates))
    return tuple(sorted(cured, key=lambda cure: (-cure.chance_after, cure.what)))


def _chance(study: Study, found: Sequence[FoundNote]) -> float:
    first = next(iter(study.settled.attempts), None)
    return 0.0 if first and met_on(study, first, found) else study.chance


def _candidates(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    yield from _other_kit(case, tables)
    yield from _cleaned(case, study, tables)
    yield from _looked_for(case, study, tables)
    yield from _new_cleanout(case, study, tables)


def _other_kit(case: Case, tables: Tables) -> Iterator[_Candidate]:
    """Reels of usual make that the truck does not carry, and every guide taken off."""
    names = {loadout.name for loadout in case.kit.loadouts}
    for loadout in default_kit(tables).loadouts:
        if loadout.name not in names:
            yield _Candidate(f"bring a {loadout.name} as well", replace(case, kit=_with(case.kit, loadout)))
    bare = [replace(each, guide=None) for each in case.kit.loadouts if each.guide is not None]
    for loadout in bare:
        if loadout.name not in names:
            yield _Candidate(f"guide off the {loadout.name}", replace(case, kit=_with(case.kit, loadout)))


def _cleaned(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """Each line on the leading ways descaled, flushed or cut clear."""
    tree = plain(case.sheet.tree)
    walls = {
        passage.piece.line: passage.wall_out
        for ranked in study.ranked[:3]
        for passage in ranked.outcome.route.passages
    }
    for line, wall in walls.items():
        condition = wall.condition.likeliest
        # A pipe that may not be forced bears none of these tools.
        if condition in _DIRTY and not may_be_fragile(wall, study.drawn):
            # What lies on a wall that does not scale is washed off: a descaling tool would cut it.
            washed = condition in _SCALE and not may_scale(wall, tables)
            how = _FLUSH if washed else _DIRTY[condition]
            change = partial(replaced, tree, f"{line}/condition", "sound", case.sheet.file)
            yield from _rewritten(f"{how} {line} first", case, tables, change)


def _doubted(study: Study) -> list[Piece]:
    """The openings of which nobody knows yet whether they are there."""
    return [each for each in study.network.openings() if each.hole is not None and 0 < each.hole.there < 1]


def _looked_for(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """Each of them found: to look costs a walk, where another opening costs a day's digging."""
    tree, ways = plain(case.sheet.tree), {route.opening.id for route in study.routes}
    for each in _doubted(study):
        if each.id in ways:
            change = partial(replaced, tree, f"{each.line}/{each.name}/there", "yes", case.sheet.file)
            yield from _rewritten(f"first look for {each.name}: if it is there", case, tables, change)


def _new_cleanout(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """A new opening just above what is to be seen, on the line that it lies on."""
    line, tree = study.wanted.line, plain(case.sheet.tree)
    drawn = next((each for each in case.sheet.model.lines if each.line == line), None)
    if drawn is None:
        return
    kind = "yard cleanout" if case.sheet.model.region == "north america" else "inspection chamber"
    piece = {"opening": "new cleanout", "kind": kind}
    entry = study.network.pieces[study.wanted.span[0]].entry
    number = next((n for n, each in enumerate(drawn.pieces) if each is entry), None)
    if number is not None:
        name = study.network.pieces[study.wanted.span[0]].name
        doubted = " and ".join(each.name for each in _doubted(study) if each.line == line)
        first = f"only once it is seen that there is no {doubted}: " if doubted else ""
        what = f"{first}a new {kind} on {line}, just above {name}"
        yield from _rewritten(what, case, tables, lambda: inserted(tree, line, number - 1, piece))


def _rewritten(what: str, case: Case, tables: Tables, text: Callable[[], str]) -> Iterator[_Candidate]:
    """The case with another sheet text, left out where the sheet does not allow it."""
    try:
        sheet = site_of_text(text(), f"{case.sheet.file}, {what}", tables)
    except BadInput:
        return
    yield _Candidate(what, replace(case, sheet=sheet))


def _with(kit: Kit, loadout: Loadout) -> Kit:
    return replace(kit, loadouts=(*kit.loadouts, loadout))
