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
from advisor.quantity import Dimension, show, show_counter
from advisor.result.other_side import other_side_first
from advisor.result.study import Study
from advisor.result.way_model import FoundNote
from advisor.rulebase.load import RuleBase
from advisor.site.lies import first_outside
from advisor.site.network import Piece, Wall
from advisor.site.pieces import ChangeEntry, OpeningEntry
from advisor.site.sheet import LineSheet, site_of_text
from advisor.strict_yaml import plain
from advisor.tables.conditions import ROOTS
from advisor.tables.load import Tables

_SCALE, _FLUSH = ("light scale", "moderate scale", "heavy scale"), "flush"
_PLUGGED = ("floor", "wall", "yard", "pit")  # where an opening has a plug, cap or cover
_CUT = "cut the roots in"
_DIRTY = {**dict.fromkeys(_SCALE, "descale"), "greasy": _FLUSH, ROOTS: _CUT}
_TOO = {"descale": "any scale taken off", _FLUSH: "any grease flushed off", _CUT: "any roots cut"}


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
    """One change; `minutes` are what it takes besides the push, where that is known; `digs`: by a spade;
    `cuts`: what pushes found to bar until it is cut bars no more."""

    what: str
    case: Case
    minutes: float = 0.0
    digs: bool = False
    cuts: bool = False


def cures(
    case: Case,
    study: Study,
    tables: Tables,
    base: RuleBase,
    memory: Memory,
    tell: Callable[[int, int], None] = lambda _done, _of: None,
    found: tuple[FoundNote, ...] = (),
) -> tuple[Cure, ...]:
    """Every small change that raises the chance by a twentieth or more, the largest gain first; one that
    takes a spade comes after all others.

    `memory` is the one that the study was worked out with: much of a job so changed is as it was.
    `tell` is called after each change with how many are looked at, of how many. What pushes `found` ends the
    same ways after any of them but its own cutting: an order that begins with one of these is worth nothing.
    """
    before = _chance(study, found)
    cured: list[tuple[bool, Cure]] = []
    candidates = (*_cut(case, study, found), *_candidates(case, study, tables))
    uncut = tuple(note for note in found if not note.till_cut)
    for number, candidate in enumerate(candidates, start=1):
        # Chance and minutes are asked for, no caution: those by the book are not needed.
        left = uncut if candidate.cuts else found
        after = other_side_first(work_through(candidate.case, tables, base, memory), left)
        chance = _chance(after, left)
        if chance - before >= tables.limits["least_gain"].likely:
            first = after.settled.attempts[0].route.opening.name if after.settled.attempts else "none"
            cure = Cure(
                what=candidate.what,
                chance_before=before,
                chance_after=chance,
                minutes_after=after.settled.order.minutes + candidate.minutes,
                opening_after=first,
            )
            cured.append((candidate.digs, cure))
        tell(number, len(candidates))
    cured.sort(key=lambda each: (each[0], -each[1].chance_after, each[1].what))
    return tuple(cure for _, cure in cured)


def _chance(study: Study, found: Sequence[FoundNote]) -> float:
    first = next(iter(study.settled.attempts), None)
    return 0.0 if first and met_on(study, first, found) else study.chance


def _candidates(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    yield from _other_kit(case, tables)
    yield from _cleaned(case, study, tables)
    yield from _looked_for(case, study, tables)
    yield from _freed(case, study, tables)
    yield from _new_cleanout(case, study, tables)


def _other_kit(case: Case, tables: Tables) -> Iterator[_Candidate]:
    """Reels of usual make that the truck does not carry, and every guide taken off."""
    names = {loadout.name for loadout in case.kit.loadouts}
    for loadout in default_kit(tables).loadouts:
        if loadout.name not in names:
            # One of that class with less rod on it may be on the truck.
            rod = show(loadout.rod.length.likely, Dimension.LENGTH, case.units)
            what = f"bring a {loadout.name} with {rod} of rod as well"
            yield _Candidate(what, replace(case, kit=_with(case.kit, loadout)))
    bare = [replace(each, guide=None) for each in case.kit.loadouts if each.guide is not None]
    for loadout in bare:
        if loadout.name not in names:
            yield _Candidate(f"guide off the {loadout.name}", replace(case, kit=_with(case.kit, loadout)))


def _cut(case: Case, study: Study, found: Sequence[FoundNote]) -> Iterator[_Candidate]:
    """What pushes saw, and what bars until a cutter or cleaning took it away, taken away."""
    told = [
        f"{note.what}, {show_counter(note.at_m, study.units)} in from {note.opening}"
        for note in found
        if note.till_cut
    ]
    if told:
        yield _Candidate(f"first have cut or cleared what a push saw: {'; '.join(told)}", case, cuts=True)


def _cleaned(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """Each stretch of one pipe on the leading ways descaled, flushed or cut clear.

    Where the pipe changes, what is told of the line above it tells nothing of the pipe below.
    """
    tree = plain(case.sheet.tree)
    walls = {
        wall.id: (passage.piece.line, wall)
        for ranked in study.ranked[:3]
        for passage in ranked.outcome.route.passages
        for wall in (passage.wall_in, passage.wall_out)
    }
    for line, wall in walls.values():
        stands = _stands_at(line, wall, case)
        # A pipe that may not be forced bears none of these tools.
        if stands is None or wall.condition.likeliest not in _DIRTY or may_be_fragile(wall, study.drawn):
            continue
        name, path = stands
        how, *others = dict.fromkeys(
            # What lies on a wall that does not scale is washed off: a descaling tool would cut it.
            _FLUSH if condition in _SCALE and not may_scale(wall, tables) else _DIRTY[condition]
            for condition, share in sorted(wall.condition.options, key=lambda option: -option[1])
            if condition in _DIRTY and share > 0
        )
        # It counts as clean of all that it may hold.
        too = f", {' and '.join(_TOO[each] for each in others)} too" if others else ""
        change = partial(replaced, tree, path, "sound", case.sheet.file)
        yield from _rewritten(f"{how} {name} first{too}", case, tables, change)


def _stands_at(line: str, wall: Wall, case: Case) -> tuple[str, str] | None:
    """How a stretch is called, and where on the sheet its condition stands."""
    if wall.id == line:
        return line, f"{line}/condition"
    drawn = next((each for each in case.sheet.model.lines if each.line == line), None)
    pieces = () if drawn is None else drawn.pieces
    changes = [number for number, each in enumerate(pieces) if isinstance(each, ChangeEntry)]
    for nth, number in enumerate(changes, start=1):
        if wall.id.startswith(f"{line}/") and wall.id.endswith(f" ({nth})"):
            name = wall.id.removesuffix(f" ({nth})").replace("/", " ")
            return f"{name} on", f"{line}/pieces/{number}/change/condition"
    return None


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


def _shut(study: Study, tables: Tables) -> list[Piece]:
    """The openings told not to open whose plug, cap or cover may be freed or replaced; a fixture is not
    freed, and nobody is sent up a roof."""
    told = ((each, each.hole) for each in study.network.openings())
    return [
        each
        for each, hole in told
        if hole is not None and hole.opens is False and not hole.fixture
        if tables.openings[hole.kind].place in _PLUGGED
    ]


def _freed(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """Each of them open: a way in without a new hole."""
    tree, minutes = plain(case.sheet.tree), tables.costs["free"].likely
    seen = "" if study.circumstances.holding is False else " once the line is seen to drain"
    for each in _shut(study, tables):
        change = partial(replaced, tree, f"{each.line}/{each.name}/opens", "yes", case.sheet.file)
        what = f"first free {each.name}{seen}, about {minutes:.0f} minutes: if it comes open"
        for found in _rewritten(what, case, tables, change):
            shut = tuple(name for name in case.shut if name not in (each.name, each.id))
            yield replace(found, case=replace(found.case, shut=shut), minutes=minutes)


def _new_cleanout(case: Case, study: Study, tables: Tables) -> Iterator[_Candidate]:
    """A new opening in the yard, on the line of what is to be seen: just above it, or where that lies under
    the building, at the first place outside: nobody digs through a floor."""
    line, tree = study.wanted.line, plain(case.sheet.tree)
    drawn = next((each for each in case.sheet.model.lines if each.line == line), None)
    if drawn is None:
        return
    entry = study.network.pieces[study.wanted.span[0]].entry
    number = next((n for n, each in enumerate(drawn.pieces) if each is entry), None)
    outside = first_outside(drawn, tables)
    if number is None or outside is None:
        return
    american = case.sheet.model.region == "north america"
    if outside <= number:
        kind, after = "yard cleanout" if american else "inspection chamber", number - 1
        where = f"just above {study.network.pieces[study.wanted.span[0]].name}"
    else:  # from there what is to be seen lies up the pipe
        kind, after = "two-way cleanout" if american else "inspection chamber", outside
        where = f"outside, just below {_marked(drawn, outside)}"
    first = [f"that there is no {each.name}" for each in _doubted(study) if each.line == line]
    first += [f"that {each.name} cannot be freed" for each in _shut(study, tables) if each.line == line]
    only = f"only once it is seen {' and '.join(first)}: " if first else ""
    piece = {"opening": "new cleanout", "kind": kind}
    what = f"{only}a new {kind} on {line}, {where}"
    for found in _rewritten(what, case, tables, lambda: inserted(tree, line, after, piece)):
        yield replace(found, digs=True)


def _marked(drawn: LineSheet, outside: int) -> str:
    """What people know the place by at which a line comes to lie outside."""
    there = drawn.pieces[outside]
    if isinstance(there, OpeningEntry):
        return there.opening
    return there.landmark or "where it leaves the building"


def _rewritten(what: str, case: Case, tables: Tables, text: Callable[[], str]) -> Iterator[_Candidate]:
    """The case with another sheet text, left out where the sheet does not allow it."""
    try:
        sheet = site_of_text(text(), f"{case.sheet.file}, {what}", tables)
    except BadInput:
        return
    yield _Candidate(what, replace(case, sheet=sheet))


def _with(kit: Kit, loadout: Loadout) -> Kit:
    return replace(kit, loadouts=(*kit.loadouts, loadout))
