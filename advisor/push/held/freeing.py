"""What must not be done to free a held head: what the causes that are told and the rod's plight forbid."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from advisor.outcome.attempts import NO_TRY, STEADY, STRING, TECHNIQUES, TURN
from advisor.push.now.causes import Cause
from advisor.push.now.course import Met
from advisor.push.now.plight import Plight
from advisor.quantity import show_counter
from advisor.result.model import TechniqueNote
from advisor.result.spots import passage_note
from advisor.result.study import Study
from advisor.tables.conditions import ROOTS
from advisor.tables.stuck import WayRow

_ROOTS = ("passage.roots", "passage.roots_hold")  # facts of a rule
WATER = "water"


def harmful(
    named: Sequence[Cause], both_ways: bool, plight: Plight, study: Study, spots: Sequence[Met] = ()
) -> dict[str, str]:
    """Each technique that no step of the way out may be made of, with the reason; a push in is the steady.

    `named` are the causes that are told: nothing is said that contradicts one of them on the same screen,
    nor what a rule forbids at one of the `spots` at which it may be held, or that the rod lies through.
    """
    table, matrix = study.tables.stuck, study.base.matrix
    troubles = [cause.trouble for cause in named] + ([ROOTS] if plight.roots else [])
    found: dict[str, str] = {TURN: study.tables.in_pipe.kinked.stop} if plight.kinked else {}
    if plight.beside:
        found |= dict.fromkeys((TURN, STEADY), study.tables.in_pipe.machine_run.stop)
    # What a rule says of water in this line, the line itself may have shown otherwise since.
    of_line = {firing.because for firing in study.site_firings if firing.outcome}
    for technique, why in (*forbidden_at(spots, study), *_barred_in(plight.through, study)):
        if technique in (STEADY, TURN, STRING, WATER) and why not in of_line:
            found.setdefault(technique, why)
    for trouble in troubles:
        for technique in (STEADY, TURN, STRING, WATER):
            cell = matrix.cells[technique, trouble]
            if not cell.allowed:
                found.setdefault(technique, cell.why)
    if both_ways or plight.kinked or plight.roots or any(c.name in table.no_push_in for c in named):
        found.setdefault(STEADY, table.free_first.stop)
    return found


def barred_behind(plight: Plight, study: Study, turned: Collection[Met] = ()) -> tuple[tuple[str, str], ...]:
    """What may not be tried at a head for what its rod lies through, with the reason."""
    through = _barred_in(plight.through, study, turned)
    if not plight.roots:
        return through
    lies = study.tables.in_pipe.rod_in_roots.why.format(reading=show_counter(plight.roots[-1], study.units))
    cells = ((name, study.base.matrix.cells[name, ROOTS]) for name in TECHNIQUES if name not in NO_TRY)
    return (*through, *((name, f"{lies} {cell.why}") for name, cell in cells if not cell.allowed))


def forbidden_at(
    spots: Sequence[Met], study: Study, turned: Collection[Met] = (), clean: str | None = None
) -> tuple[tuple[str, str], ...]:
    """Techniques that the plan rejects at one of some spots, with the reason; at some it may be `turned`.

    `clean` is what a clean rim that was seen to hold the head is called by the matrix: what that bars by
    itself is told of it, and of what is barred for roots alone that none were seen there.
    """

    def why(met: Met, note: TechniqueNote) -> str:
        if not clean or note.wedged or not _for_roots(met, note.name):
            return note.because
        cell = study.base.matrix.cells[note.name, clean]
        further = study.tables.in_pipe.rim_seen.further.format(why=note.because)
        return further if cell.allowed else cell.why

    return tuple(
        (note.name, why(met, note))
        for met in spots
        for note in passage_note(met.hard, met.outcome, study.reader).techniques
        if note.verdict == "rejected" and not (note.name == TURN and any(met is each for each in turned))
    )


def _for_roots(met: Met, technique: str) -> bool:
    """Whether what rejects a technique there is what the rules say of roots, not of pipe, bag or opening."""
    rejecting = [each.rejected[technique] for each in met.hard.rulings if technique in each.rejected]
    return all(any(name in _ROOTS for name in firing.rule.when.names()) for firing in rejecting)


def free_to_turn(spots: Sequence[Met], plight: Plight, study: Study) -> tuple[Met, ...]:
    """Runs that the plan marks for roots, though none were told in the job and none are likely in them.

    Before a clean rim the curl lifts the nose over it, and nothing else that a hand can do does.
    """
    if plight.roots_seen or plight.roots:
        return ()
    return tuple(met for met in spots if met.run and met.hard.roots_unlikely)


def _barred_in(
    through: Sequence[Met], study: Study, turned: Collection[Met] = ()
) -> tuple[tuple[str, str], ...]:
    """What a spot bars wherever beyond it the head is: a twist goes through all of the rod, and roots hold
    a string that is drawn through them."""
    row = study.tables.in_pipe.rod_lies_in
    return tuple(
        (name, f"{row.why.format(place=met.name)} {why}")
        for met in through
        for name, why in forbidden_at((met,), study, turned)
        if name == TURN or (name == STRING and met.hard.spot.by_roots)
    )


def first_that_fits(rows: Sequence[WayRow], barred: Mapping[str, str]) -> str:
    """The first of some steps that is made of nothing barred."""
    return next(row.do for row in rows if not set(row.uses) & set(barred))
