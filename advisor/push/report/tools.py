"""What a report tells before its advice sends anything into a pipe: a head or tool in it, a wall that bears
none."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from advisor.push.now.backs_up import ran_away
from advisor.push.now.drains import last_seen, stops_of
from advisor.push.now.seen import Run
from advisor.push.report.advice import Advice
from advisor.push.report.barred import Barred
from advisor.result.study import Study
from advisor.rulebase.trace import Firing
from advisor.tables.finds import TOOLS, Advised


@dataclass(frozen=True)
class BeforeTools:
    """`first` comes before all else, and `once` before the words of each such advice where a head stays in
    there; `pipes` are what the plan warns of on the ways that were pushed; `barred` are the places
    behind finds that nothing may be sent through; `drained` stands before a step that runs water, while
    nobody saw the line drain."""

    first: tuple[str, ...]
    once: str
    pipes: tuple[str, ...]
    barred: Barred
    drained: str = ""

    def says(self, row: Advised) -> str:
        """What is advised, behind what comes before any water."""
        return f"{self.drained if row.runs_water else ''}{row.says}"

    def words(self, row: Advised, entry: int) -> str:
        """What stands before an advice for the place of that entry."""
        return self.barred.first(entry) + self.once if row.advice in TOOLS else ""


def before_tools(
    left_in: bool, runs: Iterable[Run], study: Study, advice: Advice, barred: Barred
) -> BeforeTools:
    """All of it, for pushes of a job; `left_in` is whether a head stays in the pipe."""
    says = study.tables.in_pipe.left_in
    runs = tuple(runs)
    pipes = _pipes({run.opening for run in runs}, study, advice)
    first: tuple[str, ...] = (says.first,) if left_in else ()
    if study.circumstances.tool_lost:
        first += (study.tables.where.tool_lost.first,)
    once = f"{says.once}, " if left_in else ""
    drained = "" if seen_to_drain_by_water(runs, study) else advice.finds.after.before_water
    return BeforeTools((*first, *barred.always), once, pipes, barred, drained)


def seen_to_drain_by_water(runs: Iterable[Run], study: Study) -> bool:
    """Whether water that was run ran away, and nothing that was told since may hold it back."""
    told = [entry for run in runs for entry in (run.started, *run.entries)]
    last = last_seen(told)
    if last is None or not ran_away(told[last[0]]):
        return False
    return not stops_of(told[last[0] + 1 :], study.tables)


def _pipes(openings: set[str], study: Study, advice: Advice) -> tuple[str, ...]:
    row = advice.finds.bears_no_tool
    found: dict[str, str] = {}
    for outcome in study.outcomes:
        if outcome.route.opening.name in openings:
            for firing in (f for spot in outcome.spots for ruling in spot.rulings for f in ruling.firings):
                caution = firing.rule.conclusion.caution
                if firing.outcome and caution is not None and caution.id in row.hazards:
                    found.setdefault(caution.id, _words(firing, outcome.route.opening.name))
    return (row.says, *found.values()) if found else ()


def _words(firing: Firing, opening: str) -> str:
    """With the opening from which its lengths count: those of a report run down the line elsewhere."""
    caution = firing.conclusion.caution
    assert caution is not None
    return f"{caution.word.upper()}, in from {opening}: {firing.because} {caution.text}"
