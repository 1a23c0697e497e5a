"""A drill from a real job: its sheet with every name taken out, and what was tried there as the question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import closing
from dataclasses import replace
from typing import Any

from advisor.errors import BadInput, Fault
from advisor.job.folder import Job
from advisor.job.units import told_units
from advisor.outcome.assess import RouteOutcome
from advisor.outcome.attempts import STEADY
from advisor.practice.drill import Drill
from advisor.practice.drills import opening, stop
from advisor.practice.scene import School, with_sign
from advisor.practice.values import TRIES
from advisor.push.log.kinds import PASSED, START, TRY
from advisor.push.log.log import Entry, Log
from advisor.result.study import Study
from advisor.site.names import end_kind
from advisor.site.sheet import read_site
from advisor.strict_yaml import plain, written
from advisor.tables.load import Tables

# What names a piece, and what its kind is called instead where the sheet says no better.
_NAMED = {"opening": "opening", "label": "fixture", "landmark": "landmark", "name": "place"}
_DROPPED = ("note",)

Tree = Any


def from_job(job: Job, school: School, seed: int) -> Drill:
    """The drill of a job: stop or go on where its log tells of failed tries, else choose the opening.

    Raises BadInput where the job has no sheet or a log that cannot be read, or gives no drill.
    """
    if not job.site.is_file():
        raise BadInput(
            [Fault(str(job.folder), 0, f"there is no {job.site.name} in this folder; is it a job?")]
        )
    sheet = read_site(job.site, school.tables)
    school = replace(school, units=told_units(None, job.folder))
    names = names_of(plain(sheet.tree), school.tables)
    tree, entries = without_names(plain(sheet.tree), names), _standing(job)
    study = school.studied(written(tree), "job", seed)
    seen = any(entry.kind == START and entry.data.get("drains") for entry in entries)
    if seen and study.circumstances.holding is not False:  # else nobody would have gone in
        study = school.studied(with_sign(tree, "holding", "no"), "job", seed)
    found = _where_it_stuck(study, entries, names)
    if found is not None:
        outcome, index, failed, helped = found
        drill = stop.of_failures(study, outcome, index, failed, seed)
        after = f"On the job {helped} passed in the end." if helped else "On the job it did not pass there."
        return replace(drill, kind="stop", afterwards=after)
    if len(opening.ways_in(study)) < 2:
        raise BadInput(
            [Fault(str(job.folder), 0, "no failed try in its log and only one way in: nothing to ask")]
        )
    return opening.of_site(study, seed)


def _standing(job: Job) -> tuple[Entry, ...]:
    """What stands in the log of a job; nothing where it has none."""
    if not job.log.is_file():
        return ()
    with closing(Log.read(job.log)) as log:
        return log.standing()


def names_of(tree: Tree, tables: Tables) -> dict[str, str]:
    """Every name on a sheet and what stands for it: `line 2`, `opening 1`. Kinds of fixture and end stay."""
    found: dict[str, str] = {str(tree.get("site", "")): "a job"}
    counts: dict[str, int] = {}

    def give(name: object, kind: str) -> None:
        if isinstance(name, str) and name not in found:
            counts[kind] = counts.get(kind, 0) + 1
            found[name] = f"{kind} {counts[kind]}"

    for line in tree.get("lines", []):
        give(line.get("line"), str(line.get("kind") or "line"))
        for piece in line.get("pieces", []):
            for key, called in _NAMED.items():
                give(piece.get(key), called)
            end = piece.get("end")
            if end and (kind := end_kind(end, tables)) != end.lower():
                give(end, str(kind))
    found.pop("", None)
    return found


def without_names(tree: Tree, names: Mapping[str, str]) -> Tree:
    """The sheet with every name replaced wherever it stands, and every remark dropped."""
    if isinstance(tree, dict):
        return {key: without_names(value, names) for key, value in tree.items() if key not in _DROPPED}
    if isinstance(tree, list):
        return [without_names(item, names) for item in tree]
    return _replaced(tree, names)


def _replaced(text: Tree, names: Mapping[str, str]) -> Tree:
    if not isinstance(text, str):
        return text
    if text in names:
        return names[text]
    # Inside a sentence (`main, from A to B`) the longest name first, and each piece of text only once.
    parts: list[tuple[str, bool]] = [(text, False)]
    for name in sorted(names, key=len, reverse=True):
        parts = [
            piece
            for part, done in parts
            for piece in ([(part, True)] if done else _cut(part, name, names[name]))
        ]
    return "".join(part for part, _ in parts)


def _cut(text: str, name: str, instead: str) -> list[tuple[str, bool]]:
    found: list[tuple[str, bool]] = []
    rest = text
    while name in rest:
        before, _, rest = rest.partition(name)
        whole = not (before[-1:].isalnum() or rest[:1].isalnum())
        found += [(before, False), (instead if whole else name, whole)]
    return [*found, (rest, False)]


def _where_it_stuck(
    study: Study, entries: Sequence[Entry], names: Mapping[str, str]
) -> tuple[RouteOutcome, int, list[str], str] | None:
    """The way, its hard spot, the techniques that failed there and the one that helped, by the counter."""
    outcome: RouteOutcome | None = None
    failed: dict[tuple[int, int], list[str]] = {}
    helped: dict[tuple[int, int], str] = {}
    ways = [ranked.outcome for ranked in study.ranked]
    for entry in entries:
        if entry.kind == START:
            told = names.get(str(entry.data.get("opening")), str(entry.data.get("opening")))
            outcome = next((o for o in ways if o.route.opening.name == told), None)
        technique = str(entry.data.get("technique"))
        if entry.kind != TRY or outcome is None or entry.counter is None or technique not in TRIES:
            continue
        index = _nearest(outcome, entry.counter, study.drawn.likely("drill_same"))
        if index is None:
            continue
        key = ways.index(outcome), index
        if entry.data.get("outcome") == PASSED:
            helped.setdefault(key, technique)
        else:
            failed.setdefault(key, []).append(technique)
    if not failed:
        return None
    worst = max(failed, key=lambda key: len(failed[key]))
    first = [] if STEADY in failed[worst] else [STEADY]
    return ways[worst[0]], worst[1], first + failed[worst], helped.get(worst, "")


def _nearest(outcome: RouteOutcome, counter: float, within: float) -> int | None:
    gaps = [(abs(float(s.spot.station.at.mean()) - counter), i) for i, s in enumerate(outcome.spots)]
    near = [gap for gap in gaps if gap[0] <= within]
    return min(near)[1] if near else None
