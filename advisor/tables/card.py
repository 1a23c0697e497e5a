"""The words of the printed card: rules/card/words.yaml."""

from __future__ import annotations

from pydantic import Field

from advisor.tables.entry import Graded, Row, TableFile
from advisor.tables.regions import Region

PERHAPS = "perhaps an opening"  # one that nobody has looked for: it may not be there
COUNTED = "counted end"  # a place in plain pipe, where nothing is to be seen
ENDS = ("end", COUNTED)  # of a way, but for those that the head must not go past
# How the pipe goes on where a way ends.
END_IN_CHAMBER, END_IN_MAIN, END_ON_LINE = "end in a chamber", "end in a main", "end on the line"
SIGHTS = (
    "pipe",
    "bend",
    "joins",
    "fork",
    "into main",
    "up the main",
    "into branch",
    "own mouth",
    "opening",
    PERHAPS,
    "wider",
    "narrower",
    "other pipe",
    "sag",
    "step",
    "roots",
    "fall",
    "stop",
    "target",
    *ENDS,
    END_IN_CHAMBER,
    END_IN_MAIN,
    END_ON_LINE,
    "drain end",
)
GO_ON = "Go on"  # so `missed` begins where whoever sees nothing is to push on

# Marks of the drawing.
SIGNS = ("hard", "hard run", "turn", "joins", "bar", "bore", "target", "opening", "fall", "water")


class SightWords(Row):
    """What is said of one kind of thing that the lens meets."""

    see: str
    feel: str
    missed: str


class CardFile(TableFile, Graded):
    """Everything that the card says beyond the plan; one grade and source for all."""

    sights: dict[str, SightWords]
    missed_assumed: str = Field(alias="missed assumed")
    only_if_seen: str = Field(alias="only if seen")  # of a mark: what lies there may not be there
    missed_opening: str = Field(alias="missed opening")
    missed_stop: str = Field(alias="missed stop")
    missed_end: str = Field(alias="missed end")
    missed_seen_end: str = Field(alias="missed seen end")
    missed_slow: str = Field(alias="missed slow")
    missed_short: str = Field(alias="missed short")
    missed_half: str = Field(alias="missed half")
    from_turn: str = Field(alias="from turn")  # how far behind the last turn before what must not be passed
    unless: str
    seen_from: str = Field(alias="seen from")
    signs: dict[str, str]
    find_out: dict[str, str] = Field(alias="find out")  # by hazard: how what decides is found out
    on_every_card: dict[Region, tuple[str, ...]] = Field(alias="on every card")  # hazards that never go
    in_the_row: tuple[str, ...] = Field(alias="in the row")  # hazards told at their place in the route
    untold: dict[
        str, str
    ]  # what goes before what was met, by hazard, `before`, `chance` and `left`: its name, where it does
    reasons: tuple[str, ...]  # why, in a row of what a push met: not in few words
    drain_first: str = Field(alias="drain first")  # instead, where that was so since and no water was run
    cleaned_first: str = Field(alias="cleaned first")  # before the opening, of what pushes of the job saw
    cleaned_at: str = Field(alias="cleaned at")  # each of them
    open: str  # before the name of the opening
    again: str  # the same, where pushes saw all of what the push is for
    before_safe: tuple[str, ...] = Field(alias="before safe")  # of what comes before every push, the first
    before: tuple[str, ...]
    after: tuple[str, ...]
    after_string: str = Field(alias="after string")  # first of all, where one is on the head
    after_water: str = Field(alias="after water")  # before the last, where water may be run
    after_water_doubt: str = Field(alias="after water in doubt")  # instead, where that is to be seen first
    in_roots: str = Field(alias="in roots")  # of a row in few words
    once_held: tuple[str, ...] = Field(alias="once held")  # techniques that push a held head no further
    but_at_rim: str = Field(alias="but at a rim")
    held_in_roots: str = Field(alias="held in roots")  # before what passes them: whoever reads it is stuck
    locating: tuple[str, ...]
    stuck: tuple[str, ...]

    def few_of(self, told: str) -> str:
        """What to do where a push met something, without the reasons."""
        for reason in self.reasons:
            told = told.replace(reason, "")
        return " ".join(told.split())

    def after_push(self, water: bool | None, watched: str = "") -> tuple[str, ...]:
        """What comes after a push, without a string on the head.

        `water` is whether it may be run: yes, no, or first to be seen (None); how it is `watched` then, where
        anything was known to back up.
        """
        *first, last = self.after
        if water is False:
            return self.after
        return (*first, watched or (self.after_water if water else self.after_water_doubt), last)
