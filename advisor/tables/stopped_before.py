"""What is said of a place that held a push of the job, where the plan has nothing hard."""

from __future__ import annotations

from pydantic import Field

from advisor.tables.entry import Graded


class StoppedBeforeRow(Graded):
    """What to say of a place that held a push of the job, where the plan has nothing hard.

    Of gear that was `there`, and of gear that was `never` there. Where no more was seen than one of
    `own_gear`, it is known to hold nothing but the gear that was held. `known` stands where chances are told,
    each stop as `told`; `through` after it, where ways from other openings go through one of them: there it
    is told as from `elsewhere`. `met` and `unmet` stand under what comes after a push that is held: which
    chances know of it, and which do not.
    """

    own_gear: tuple[str, ...] = Field(alias="own gear")
    there: str
    never: str
    known: str
    told: str
    through: str
    met: str
    unmet: str
    elsewhere: str
