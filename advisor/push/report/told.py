"""What people told of the trouble, how the water stood, and what comes next where nothing explains it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from advisor.push.before.seen_words import NAMED, measures
from advisor.push.before.tasks import Seen, covered
from advisor.push.log.log import Entry
from advisor.push.now.backs_up import water_was_run
from advisor.push.now.known_drains import watched_at
from advisor.push.now.seen import Run
from advisor.push.now.since import thing_name
from advisor.push.now.watched import afterwards
from advisor.push.report.words import WET_CELLAR, history_words, when
from advisor.result.study import Study
from advisor.site.network import Piece
from advisor.site.sheet import Task
from advisor.site.target import Target
from advisor.tables.finds import NextRow

_STOOD = {"standing": "Stood full", "running": "Water ran in", "dry": "Was dry"}
_HOLDING = {True: "The line was said to stand full.", False: "The line was said to drain away."}


def told_words(task: Task, study: Study) -> list[str]:
    """The complaint, the state of the water, and what is remembered of the line, a sentence each."""
    complaint, lines = task.complaint, list[str]()
    named = [("Backs up", complaint.backs_up), ("Slow", complaint.slow), ("Fine", complaint.fine)]
    named += [(words, _with_water(study, water)) for water, words in _STOOD.items()]
    lines += [f"{words}: {', '.join(names)}." for words, names in named if names]
    # Of two that do not go together the one that warns is told.
    if complaint.holding is not None and not (complaint.holding is False and _with_water(study, "standing")):
        lines.append(_HOLDING[complaint.holding])
    if complaint.chemicals:
        lines.append("A drain cleaner or another chemical was said to have been poured in.")
    if complaint.sewage_smell:
        lines.append("It was said to smell of sewage indoors.")
    if wet := WET_CELLAR.get(complaint.wet_cellar or ""):
        lines.append(wet)
    return lines + history_words(task.history, measures(study), study.tables.where)


def _with_water(study: Study, water: str) -> tuple[str, ...]:
    holes = ((each.name, each.hole) for each in study.network.openings())
    return tuple(name for name, hole in holes if hole is not None and hole.water == water)


def drained_words(runs: Iterable[Run]) -> list[str]:
    """Each time that the line was seen to drain or not, in the order of telling, or only looked at."""
    return [
        f"The line was {_seen(entry)} {when(entry.happened_at)}, at the push in from {run.opening}."
        for run in runs
        for entry in run.entries
        if isinstance(entry.data.get("drains"), bool)
    ]


def _seen(entry: Entry) -> str:
    if not entry.data["drains"]:
        return "seen to stand or rise"
    return "seen to drain" if water_was_run(entry) else "looked at and stood low"


def next_words(seen: Sequence[Seen], runs: tuple[Run, ...], explained: bool, row: NextRow) -> tuple[str, ...]:
    """What comes next where something backed up, ran slow or stood full; `explained` is whether something
    found or met is advised to be dealt with."""
    study = seen[0].study
    watched = watched_at(study.circumstances)
    if not watched:
        return ()
    lines = [] if explained else [row.unexplained]
    told = [each for run in runs for each in run.entries if isinstance(each.data.get("drains"), bool)]
    if told and told[-1].data["drains"]:
        lines.append(row.drained if water_was_run(told[-1]) else row.looked)
    if not explained:
        unseen = any(each.cover.unseen or each.denied for each in seen)
        beyond = None if unseen else _beyond([each.study for each in seen], runs)
        if unseen:
            lines.append(row.unseen)
        elif beyond is not None:
            (begin, end), holds = beyond, row.holds if beyond[0].kind == "stopper" else ""
            lines.append(
                f"{row.beyond.format(begin=thing_name(begin), end=thing_name(end))} {holds}".rstrip()
            )
    return (*lines, afterwards(study, watched))


def _beyond(studies: Sequence[Study], runs: tuple[Run, ...]) -> tuple[Piece, Piece] | None:
    """From where to where the water runs on past all that was gone for, where no push showed any of that."""

    def on(study: Study) -> list[Piece]:
        below = study.network.downstream(study.wanted.span[-1])
        return [study.network.pieces[each] for each in below]

    study = min(studies, key=lambda each: sum(piece.along for piece in on(each)[1:]))
    last, *below = on(study)
    named = [each for each in (last, *below) if each.kind in NAMED and each.name and not each.absent]
    if sum(each.along for each in below) < study.drawn.likely("same_place") or len(named) < 2:
        return None
    span = tuple(each.id for each in below if each.line == below[0].line)
    rest = replace(study, target=Target("what lies beyond", "stretch", below[0].line, span), part=None)
    return None if covered(runs, rest).seen_length > 0 else (named[0], named[-1])
