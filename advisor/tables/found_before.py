"""What is said of finds and bends that pushes of the job told, where a way comes to them again."""

from __future__ import annotations

from collections.abc import Iterable

from pydantic import Field

from advisor.tables.entry import Graded


class FoundBeforeRow(Graded):
    """What a push told of the way, as a row of plan and card; `missed` is what it means not to see it.

    `at_trap` and `at_end` are what to heed of a trap and of an end that was seen, `do` of all of which
    nothing graver is known, `cleared` what is added where it was cut or cleaned since. `left` is told before
    all else, `ahead`, `near` and `behind` in the next push, `plan` in a plan made from before it, `next_stop`
    where what comes next is a stop that is not to be passed, `no_push` of a hard place as near as that,
    `stop` where the head is held there; `other_side` where a plan goes in at the far end of the pipe for it.
    `untold` is what chances of getting there know of it, `pointed` where the trouble may be. `wrong` is how
    it is taken back, told by mistake; as `told` it is chosen for that, and `sure` is asked. `first` is what
    comes before any camera, `same_day` what follows where it barred the way.
    """

    see: str
    do: str
    cleared: str
    missed: str
    trap: str
    at_trap: str = Field(alias="at trap")
    end: str
    at_end: str = Field(alias="at end")
    left: str
    ahead: str
    near: str
    behind: str
    plan: str
    next_stop: str = Field(alias="next stop")
    no_push: str = Field(alias="no push")
    stop: str
    untold: str
    pointed: str
    wrong: str
    told: str
    sure: str
    clearing: str
    first: str
    first_drain: str = Field(alias="first drain")  # the same, cleaned since, but no water was run
    drain_here: str = Field(alias="drain here")  # the same in a push
    same_day: str = Field(alias="same day")
    since: str
    other_side: str = Field(alias="other side")

    def first_words(self, met: Iterable[tuple[str, str]]) -> str:
        """What comes before any camera, of each how it is done and what it is; empty where nothing does."""
        told = by_done(met)
        return self.first.format(met=told) if told else ""


def by_done(met: Iterable[tuple[str, str]]) -> str:
    """All with which the same is to be done in one breath."""
    groups: dict[str, dict[str, None]] = {}
    for done, what in met:
        groups.setdefault(done, {})[what] = None
    return "; ".join(f"{done}: {'; '.join(each)}" for done, each in groups.items())


class UndrawnRow(Graded):
    """A bend or tie-in that a push saw and the sheet draws nowhere: as a row on the way of that push (`see`)
    and on others through that pipe (`elsewhere`), with what is done at a `desk` on the plan alone, before all
    else (`left`) and in the `report`."""

    what: str
    see: str
    elsewhere: str
    do: str
    desk: str
    missed: str
    left: str
    report: str
