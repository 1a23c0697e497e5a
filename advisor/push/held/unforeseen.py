"""Held where the plan has no hard place: what may be tried there, and what no rule lets anybody try."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from advisor.outcome.attempts import CLEANED, NO_TRY, STEADY
from advisor.outcome.facts import Facts, opening_facts, safe
from advisor.outcome.rulings import infer_all
from advisor.outcome.spot import longest_hand_stroke
from advisor.outcome.spot_facts import may_be_fragile, may_scale
from advisor.push.now.after_signs import facts_of
from advisor.push.now.course import Course
from advisor.push.now.evidence import Tried
from advisor.push.now.tries import NextTry, steps_with_rod_in
from advisor.rulebase.rule import PLACEHOLDER
from advisor.rulebase.trace import Firing
from advisor.site.network import Piece
from advisor.worlds.spread import middle


def usual_tries(
    course: Course,
    here: Sequence[Tried],
    open_now: Collection[str],
    trouble: str,
    firings: Sequence[Firing],
) -> tuple[NextTry, ...]:
    """What the likeliest cause, by its `trouble`, allows, cheapest first; no chance is claimed.

    `firings` are what the rules say there.
    """
    limits, costs = course.study.tables.limits, course.study.tables.costs
    found = []
    for technique, why in _cures(course, trouble):
        if technique not in open_now or (technique == "guide" and course.loadout.guide is not None):
            continue
        made = sum(tried.technique == technique for tried in here)
        left = max(round(limits[f"tries, {technique}"].likely) - made, 0)
        minutes = costs[f"try, {technique}"].likely
        if not made and f"set up, {technique}" in costs:
            minutes += costs[f"set up, {technique}"].likely
        if left:
            steps = steps_anywhere(course, technique, firings)
            steps = steps_with_rod_in(technique, steps, course.study.tables.stuck)
            found.append(NextTry(technique, float("nan"), left, minutes, steps, why))
    return tuple(sorted(found, key=lambda each: each.minutes))


def firings_there(
    course: Course, where: Sequence[Piece], chances: Mapping[str, float], rod: float
) -> tuple[Firing, ...]:
    """What the rules say where no hard place is.

    They see the job, the opening, the pipes in which the head may be (`where`), how much `rod` is in, m, and
    what holds it by the signs (`chances` by trouble). What they would need a hard place for stays undecided.
    """
    study = course.study
    around: Facts = {**study.site_facts, **opening_facts(course.opening, course.loadout, study.drawn)}
    at: Facts = {
        "passage.at": rod,
        "passage.fragile": next(iter(_fragile(course, where)), "none") if where else None,
        "passage.scales": all(may_scale(piece.wall, study.tables) for piece in where) if where else None,
        "passage.guide_in_kit": study.kit.besides(course.loadout).guide is not None,
        **_of_gear(course),
        **facts_of(chances),
    }
    return (
        *study.site_firings,
        *infer_all(study.base, "opening", around, study.reader),
        *infer_all(study.base, "passage", {**around, **at}, study.reader),
    )


def forbidden_there(course: Course, firings: Sequence[Firing], trouble: str) -> tuple[tuple[str, str], ...]:
    """Of what the likeliest cause allows, each technique that a rule rejects there, with the reason."""
    cures = {technique for technique, _ in _cures(course, trouble)}
    found: dict[str, str] = {}
    for firing in firings:
        if firing.outcome:
            for technique, standing in firing.rule.conclusion.techniques.items():
                if standing == "rejected" and technique in cures:
                    found.setdefault(technique, firing.because)
    return tuple(found.items())


def steps_anywhere(course: Course, technique: str, there: Iterable[Firing] = ()) -> tuple[str, ...]:
    """The steps of a technique that hold anywhere on this site: those with no number of the place but what
    the gear alone tells of it.

    What is cut and what flushed depends on what holds the head: none of a rule that does not hold `there`,
    and where none does, what is looked at first.
    """
    base, reader = course.study.base, course.study.reader
    not_there = {f.rule_id for f in there if f.outcome is False} if technique == CLEANED else set()
    holds = {firing.rule_id for firing in course.study.site_firings if firing.outcome}
    known = {**base.limits, **_of_gear(course)}
    for rule in base.by_stratum["technique"]:
        steps = rule.conclusion.steps.get(technique, ())
        if (rule.about == "site" and rule.id not in holds) or rule.id in not_there:
            continue
        if steps and known.keys() >= {name for step in steps for name in PLACEHOLDER.findall(step)}:
            return tuple(rule.fill(step, known, reader) for step in steps)
    return course.study.tables.in_pipe.cleaned_there.steps if technique == CLEANED else ()


def _of_gear(course: Course) -> Facts:
    """What rules are told of any place that hangs on the gear alone: the strokes of the hand."""
    drawn = course.study.drawn
    stroke = longest_hand_stroke(drawn.kit(course.loadout), drawn)
    return {"passage.hand_stroke": middle(stroke), "passage.safe_stroke": safe(stroke, drawn)}


def _cures(course: Course, trouble: str) -> Iterator[tuple[str, str]]:
    """Each technique that is a try against a trouble, with its reason."""
    matrix = course.study.base.matrix
    for technique in sorted(matrix.techniques):
        cell = matrix.cells[technique, trouble]
        if technique not in (*NO_TRY, STEADY) and cell.allowed:
            yield technique, cell.why


def _fragile(course: Course, where: Sequence[Piece]) -> Iterator[str]:
    for piece in where:
        yield from may_be_fragile(piece.wall, course.study.drawn)
